import datetime

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from catalogue.plates.models.plate import Plate
from fitting.comparing.actions import compare_garment
from fitting.outfits.models.garment import Garment
from fitting.wearers.models import Measures
from tests.makers.rows import (
    make_bodice_plate,
    make_dossier,
    make_entry,
    make_garment,
    make_measures,
    make_outfit,
    make_people,
    make_plate,
    make_reference,
    make_route_choice,
    make_task,
    make_wearer,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def people():
    return make_people()


@pytest.fixture
def bodice(people):
    """A bodice that can be compared: its plate is read, its wearer measured this week."""
    wearer = make_wearer(people.workroom)
    make_measures(wearer, state=Measures.State.UNDRESSED, taken_on=timezone.localdate())
    outfit = make_outfit(people.workroom, wearer=wearer, maker=people.maker)
    return make_garment(outfit, plate=make_bodice_plate(people.workroom))


def seen_by(client, user):
    client.force_login(user)
    return client.get("/")


def words(answer):
    return [(call.word, call.name) for call in answer.context["calls"]]


def test_an_empty_workroom_says_what_to_do_next(client, people):
    answer = seen_by(client, people.maker)
    assert "Nothing is on this table yet" in answer.text
    assert "/references/add/" in answer.text


def test_a_reader_of_an_empty_workroom_is_not_sent_to_add_things(client, people):
    assert "/references/add/" not in seen_by(client, people.reader).text


def test_a_person_in_no_workroom_is_told_whom_to_ask(client, people):
    people.stranger.memberships.all().delete()
    assert "You are in no workroom yet" in seen_by(client, people.stranger).text


def test_a_garment_ready_to_compare_is_called_for(client, people, bodice):
    assert words(seen_by(client, people.maker)) == [("not compared", "bodice, Visiting dress")]


def test_a_compared_garment_needs_a_route(client, people, bodice):
    compare_garment(bodice, by=people.maker, at=timezone.now())
    assert words(seen_by(client, people.maker)) == [("no route", "bodice, Visiting dress")]


def test_nothing_is_called_for_once_the_route_is_chosen(client, people, bodice):
    compare_garment(bodice, by=people.maker, at=timezone.now())
    make_route_choice(bodice)
    answer = seen_by(client, people.maker)
    assert words(answer) == []
    assert "every garment has its route" in answer.text


def test_a_changed_reading_puts_the_comparison_out_of_date(client, people, bodice):
    compare_garment(bodice, by=people.maker, at=timezone.now())
    bodice.plate.pieces.first().readings.update(reading_um=20_000, reading_text="2 cm")
    assert words(seen_by(client, people.maker)) == [("out of date", "bodice, Visiting dress")]


def test_old_measures_in_use_are_named_once_with_the_garments_they_serve(client, people, bodice):
    make_garment(bodice.outfit, name="jacket", plate=bodice.plate)
    Measures.objects.update(taken_on=timezone.localdate() - datetime.timedelta(days=100))
    stale = [call for call in seen_by(client, people.maker).context["calls"] if call.word == "stale"]
    assert [call.why for call in stale] == ["100 days old; used for bodice and jacket."]


def test_old_measures_of_a_cut_garment_matter_no_more(client, people, bodice):
    Measures.objects.update(taken_on=timezone.localdate() - datetime.timedelta(days=100))
    Garment.objects.update(stage=Garment.Stage.CUT)
    assert words(seen_by(client, people.maker)) == []


def test_a_garment_that_cannot_be_compared_says_what_is_missing_and_where(client, people):
    garment = make_garment(make_outfit(people.workroom))
    (call,) = seen_by(client, people.maker).context["calls"]
    assert call.word == "waiting"
    assert call.address == f"/garments/{garment.pk}/change/"


def test_a_day_gone_by_with_work_left_is_called_for(client, people):
    make_outfit(people.workroom, occasion_on=timezone.localdate() - datetime.timedelta(days=1))
    assert words(seen_by(client, people.maker)) == [("day gone by", "Visiting dress")]


def test_finished_outfits_leave_the_table(client, people):
    make_garment(make_outfit(people.workroom), stage=Garment.Stage.FINISHED)
    assert seen_by(client, people.maker).context["outfits"] == []


def test_the_work_left_is_held_against_the_days_left(client, people, bodice):
    make_route_choice(bodice, route="enlarge and grade")  # 10 hours, our guess
    bodice.outfit.occasion_on = timezone.localdate() + datetime.timedelta(days=4)
    bodice.outfit.save()
    text = " ".join(seen_by(client, people.maker).text.split())
    assert "10 h of pattern work left. 8 h at hand: 4 days at 2 h." in text
    assert "too much" in text


def test_where_tasks_were_laid_out_the_plan_tells_the_work_left(client, people, bodice):
    make_route_choice(bodice, route="enlarge and grade")
    make_garment(bodice.outfit, name="sleeves")
    task = make_task(bodice.outfit, garment=bodice, estimate_hours=6)
    make_task(bodice.outfit, garment=bodice, done_on=timezone.localdate())
    make_entry(bodice.outfit, task=task, hours=1.5)
    bodice.outfit.occasion_on = timezone.localdate() + datetime.timedelta(days=4)
    bodice.outfit.hours_a_week = 7
    bodice.outfit.save()
    text = " ".join(seen_by(client, people.maker).text.split())
    assert "4.5 h of work left in the plan</a>; 1 garment without a task not counted." in text
    assert "4 h at hand: 4 days at 1 h." in text
    assert "too much" in text


def test_open_questions_name_the_plates_that_ask_them(client, people):
    plate = make_plate(make_reference(people.workroom), allowance=Plate.AllowanceKind.UNKNOWN)
    make_plate(make_reference(people.workroom), title="All is known")
    assert list(seen_by(client, people.reader).context["questions"]) == [plate]


def test_a_reader_sees_outfits_and_nothing_reckoned_from_a_body(client, people, bodice):
    compare_garment(bodice, by=people.maker, at=timezone.now())
    make_dossier(bodice.outfit)
    answer = seen_by(client, people.reader)
    assert "Visiting dress" in answer.text
    assert "calls" not in answer.context
    assert "dossiers" not in answer.context
    assert bodice.outfit.wearer.name not in answer.text


def test_another_workrooms_rows_stay_there(client, people, bodice):
    assert seen_by(client, people.stranger).context["outfits"] == []


@pytest.mark.parametrize("role", ["reader", "maker"])
def test_as_many_queries_for_a_full_table_as_for_one_outfit(client, people, bodice, role):
    compare_garment(bodice, by=people.maker, at=timezone.now())
    make_dossier(bodice.outfit)
    client.force_login(getattr(people, role))
    client.get("/")
    with CaptureQueriesContext(connection) as for_one:
        client.get("/")
    for at in range(49):
        outfit = make_outfit(
            people.workroom, name=f"Dress {at}", wearer=bodice.outfit.wearer, maker=people.maker
        )
        make_dossier(outfit)
        make_task(outfit)
        garment = make_garment(outfit, plate=bodice.plate)
        if at < 5:
            compare_garment(garment, by=people.maker, at=timezone.now())
    with CaptureQueriesContext(connection) as for_fifty:
        client.get("/")
    assert len(for_fifty) == len(for_one)
