"""The calendar address: for a program that cannot sign in, and telling nothing about a body."""

import datetime

import pytest
import vobject
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from fitting.fittings.models.session import Fitting
from fitting.planning.models import CalendarAddress
from tests.makers.rows import make_garment, make_outfit, make_task, make_wearer

DAY = datetime.date(2099, 5, 1)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def make_address(signed_in: Client) -> str:
    return signed_in.post("/calendar/").context["address"].removeprefix("http://testserver")


def summaries(address: str) -> dict[str, datetime.date]:
    answer = Client().get(address)
    assert answer["Content-Type"] == "text/calendar; charset=utf-8"
    events = vobject.readOne(answer.content.decode()).contents.get("vevent", [])
    return {event.summary.value: event.dtstart.value for event in events}


def test_a_program_reads_occasions_and_tasks_without_signing_in(maker, people):
    outfit = make_outfit(people.workroom, occasion_on=DAY, hours_a_week=7)
    stays = make_garment(outfit, name="stays")
    make_task(outfit, garment=stays, name="sew", estimate_hours=2)
    make_task(outfit, name="buy thread", estimate_hours=1, due_on=datetime.date(2099, 3, 1))
    assert summaries(make_address(maker)) == {
        "Visiting dress": DAY,
        "stays: sew: to be done": DAY - datetime.timedelta(days=1),
        "buy thread: to be done": datetime.date(2099, 3, 1),
    }


def test_a_fitting_to_come_is_in_it_with_its_garments_and_without_its_place(maker, people):
    wearer = make_wearer(people.workroom)
    outfit = make_outfit(people.workroom, wearer=wearer)
    at = datetime.datetime(2099, 4, 2, 17, 30, tzinfo=datetime.UTC)
    fitting = Fitting.objects.create(outfit=outfit, wearer=wearer, planned_for=at, place="3 Mill Lane")
    fitting.garments.add(make_garment(outfit, name="stays"))
    address = make_address(maker)
    assert summaries(address) == {"Fitting: stays": at}
    assert "Mill Lane" not in Client().get(address).text


def test_no_wearers_name_and_no_measure_stands_in_it(maker, people):
    make_wearer(people.workroom, name="Ottilie Brandt")
    outfit = make_outfit(
        people.workroom, name="Ottilie's ball gown", occasion="For Brandt, waist 25 in", occasion_on=DAY
    )
    gown = make_garment(outfit, name="gown for OTTILIE")
    make_task(outfit, garment=gown, name="waist in by 1 1/2 in, Brandt laced to 63,5 cm")
    calendar = vobject.readOne(Client().get(make_address(maker)).content.decode())
    said = [line.value for event in calendar.vevent_list for line in (event.summary, event.description)]
    assert said == [
        "gown for [the wearer]: waist in by [a measure], [the wearer] laced to [a measure]: to be done",
        "[the wearer]'s ball gown",
        "[the wearer]'s ball gown",
        "For [the wearer], waist [a measure]",
    ]


def test_the_address_is_shown_once_and_only_its_digest_kept(maker):
    address = make_address(maker)
    secret = address.removeprefix("/calendar/").removesuffix(".ics")
    assert secret not in CalendarAddress.objects.get().digest
    assert secret not in maker.get("/calendar/").text


def test_a_new_address_ends_the_old_one(maker):
    old, new = make_address(maker), make_address(maker)
    assert Client().get(old).status_code == 404
    assert Client().get(new).status_code == 200


def test_a_withdrawn_address_leads_nowhere(maker):
    address = make_address(maker)
    maker.post("/calendar/", {"withdraw": "yes"})
    assert Client().get(address).status_code == 404
    assert not CalendarAddress.objects.exists()


def test_it_ends_when_its_person_leaves_the_workroom(maker, people):
    address = make_address(maker)
    people.maker.memberships.all().delete()
    assert Client().get(address).status_code == 404


def test_it_ends_when_its_person_may_no_longer_sign_in(maker, people):
    address = make_address(maker)
    people.maker.is_active = False
    people.maker.save()
    assert Client().get(address).status_code == 404


@pytest.mark.parametrize("wrong", ["x", "x" * 43, "%00", "..%2Fadmin"])
def test_a_guess_is_not_answered(db, wrong):
    assert Client().get(f"/calendar/{wrong}.ics").status_code == 404


def test_another_workrooms_days_are_not_in_it(client, people):
    make_outfit(people.workroom, occasion_on=DAY)
    client.force_login(people.stranger)
    assert summaries(make_address(client)) == {}


def test_it_says_when_it_was_last_read(maker):
    summaries(make_address(maker))
    assert CalendarAddress.objects.get().read_at.date() == timezone.now().date()
    assert "last read" in maker.get("/calendar/").text


def test_as_many_queries_for_twenty_outfits_as_for_one(maker, people):
    def add_outfit():
        outfit = make_outfit(people.workroom, occasion_on=DAY, maker=people.maker)
        make_task(outfit, garment=make_garment(outfit))

    add_outfit()
    address = make_address(maker)
    with CaptureQueriesContext(connection) as for_one:
        Client().get(address)
    for _ in range(19):
        add_outfit()
    with CaptureQueriesContext(connection) as for_twenty:
        Client().get(address)
    assert len(for_twenty) == len(for_one)
