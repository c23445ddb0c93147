import datetime

import pytest
from django.utils import timezone

from fitting.planning.models import Task
from tests.makers.rows import make_entry, make_garment, make_outfit, make_route_choice, make_task

TODAY = timezone.localdate()
IN_A_MONTH = TODAY + datetime.timedelta(days=30)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def outfit(people):
    """An hour a day, and a month to the occasion."""
    return make_outfit(people.workroom, maker=people.maker, hours_a_week=7, occasion_on=IN_A_MONTH)


def page(maker, outfit):
    return maker.get(f"/outfits/{outfit.pk}/tasks/")


def planned(maker, outfit) -> list[str]:
    return [str(row.task) for row in page(maker, outfit).context["work"].planned.rows]


def test_the_jacket_is_patterned_after_the_stays_are_sewn(maker, outfit):
    stays = make_garment(outfit, name="stays", is_boned=True)
    jacket = make_garment(outfit, name="jacket")
    make_task(outfit, garment=jacket, name="pattern", leads_to="patterned")
    make_task(outfit, garment=stays, name="bind", leads_to="finished")
    make_task(outfit, garment=stays, name="sew", leads_to="sewn")
    assert planned(maker, outfit) == ["stays: sew", "jacket: pattern", "stays: bind"]


def test_hours_come_from_the_log_and_days_from_the_hours_left(maker, outfit):
    task = make_task(outfit, estimate_hours=6)
    make_entry(outfit, task=task, hours=2, day=TODAY)
    (row,) = page(maker, outfit).context["work"].planned.rows
    assert row.hours_left == 4
    assert row.planned.done_on == TODAY + datetime.timedelta(days=3)
    assert row.planned.must_be_done_by == IN_A_MONTH - datetime.timedelta(days=1)


def test_what_took_more_than_its_estimate_is_flagged(maker, outfit):
    make_entry(outfit, task=make_task(outfit, estimate_hours=1), hours=2)
    assert "over" in page(maker, outfit).text


def test_too_much_work_says_by_how_much_the_day_is_missed(maker, outfit):
    make_task(outfit, estimate_hours=40)
    assert "too late by 10 days" in page(maker, outfit).text


def test_the_range_comes_from_what_this_makers_tasks_took(maker, people, outfit):
    other = make_outfit(people.workroom, maker=people.maker)
    for took in (1, 2, 3):
        done = make_task(other, estimate_hours=1, done_on=TODAY)
        make_entry(other, task=done, hours=took)
    theirs = make_task(make_outfit(people.workroom, maker=people.keeper), estimate_hours=1, done_on=TODAY)
    make_entry(theirs.outfit, task=theirs, hours=9)
    make_task(outfit, estimate_hours=4)
    work = page(maker, outfit).context["work"]
    assert (work.pace.low, work.pace.middle, work.pace.high, work.pace.tasks) == (1.5, 2, 2.5, 3)
    assert [(day - TODAY).days for day in work.between] == [5, 7, 9]


def test_until_three_tasks_are_done_the_range_is_said_to_be_guessed(maker, outfit):
    make_task(outfit)
    assert "guessed" in page(maker, outfit).text


def test_the_pace_of_the_last_weeks_gives_another_day(maker, outfit):
    make_task(outfit, estimate_hours=4)
    make_entry(outfit, hours=4, day=TODAY)
    make_entry(outfit, hours=400, day=TODAY - datetime.timedelta(days=28))
    work = page(maker, outfit).context["work"]
    assert work.logged_a_week == 1
    assert work.ready_as_logged == TODAY + datetime.timedelta(days=27)


def test_without_hours_a_week_the_makers_hours_a_day_count(maker, people):
    outfit = make_outfit(people.workroom, maker=people.maker)
    make_task(outfit)
    assert page(maker, outfit).context["work"].planned.plan.hours_a_week == 14


def test_the_usual_tasks_lead_from_each_garments_stage_to_the_end(maker, outfit):
    make_garment(outfit, name="shift", stage="finished")
    stays = make_garment(outfit, name="stays", stage="route chosen")
    make_route_choice(stays, route="enlarge and grade")
    make_garment(outfit, name="gown", stage="toile")
    make_garment(outfit, name="cap", purpose="study")
    maker.post(f"/outfits/{outfit.pk}/tasks/start/")
    tasks = [(str(task), task.estimate_hours) for task in Task.objects.select_related("garment")]
    assert tasks == [
        ("stays: pattern", 10),
        ("stays: toile", 3),
        ("stays: fit the toile", 2),
        ("stays: cut out", 2),
        ("stays: sew", 12),
        ("stays: finish by hand", 4),
        ("gown: fit the toile", 2),
        ("gown: cut out", 2),
        ("gown: sew", 12),
        ("gown: finish by hand", 4),
    ]
    maker.post(f"/outfits/{outfit.pk}/tasks/start/")
    assert Task.objects.count() == len(tasks)


def test_a_task_is_done_with_one_tap_and_opened_again_with_another(maker, outfit):
    task = make_task(outfit)
    maker.post(f"/tasks/{task.pk}/done/")
    task.refresh_from_db()
    assert task.done_on == TODAY
    assert planned(maker, outfit) == []
    maker.post(f"/tasks/{task.pk}/done/")
    assert planned(maker, outfit) == ["sew"]


def typed(**given) -> dict[str, object]:
    return {"name": "sew", "estimate_hours": "4", **given}


def test_a_task_waits_for_what_is_said(maker, outfit):
    thread = make_task(outfit, name="buy thread", estimate_hours=0.5)
    maker.post(f"/outfits/{outfit.pk}/tasks/add/", typed(waits_for=[thread.pk]))
    assert planned(maker, outfit) == ["buy thread", "sew"]


def test_tasks_that_would_wait_for_one_another_are_refused_by_name(maker, outfit):
    jacket = make_garment(outfit, name="jacket")
    sew = make_task(outfit, garment=jacket, name="sew", leads_to="sewn")
    answer = maker.post(
        f"/outfits/{outfit.pk}/tasks/add/",
        typed(name="pattern", garment=jacket.pk, leads_to="patterned", waits_for=[sew.pk]),
    )
    (fault,) = answer.context["form"].errors["waits_for"]
    assert fault in (
        "They would wait for one another: jacket: sew waits for jacket: pattern waits for jacket: sew.",
        "They would wait for one another: jacket: pattern waits for jacket: sew waits for jacket: pattern.",
    )
    assert Task.objects.count() == 1


def test_a_ring_that_came_of_moving_garments_is_shown_instead_of_a_plan(maker, outfit):
    gown = make_garment(outfit, name="gown")
    stays = make_garment(outfit, name="stays", is_boned=True)
    pattern = make_task(outfit, garment=gown, name="pattern", leads_to="patterned")
    sew = make_task(outfit, garment=stays, name="sew", leads_to="sewn")
    sew.waits_for.add(pattern)
    maker.post(f"/garments/{stays.pk}/move/", {"way": "inward"})
    text = page(maker, outfit).text
    assert "these tasks wait for one another" in text
    assert f"/tasks/{pattern.pk}/change/" in text


def test_a_stage_without_a_garment_and_a_day_to_come_are_asked_about(maker, outfit):
    form = maker.post(f"/outfits/{outfit.pk}/tasks/add/", typed(leads_to="sewn")).context["form"]
    assert "garment" in form.errors
    task = make_task(outfit)
    form = maker.post(f"/tasks/{task.pk}/change/", typed(done_on=IN_A_MONTH.isoformat())).context["form"]
    assert "done_on" in form.errors


def test_what_the_log_says_of_a_deleted_task_stays(maker, outfit):
    task = make_task(outfit)
    make_entry(outfit, task=task, hours=3)
    maker.post(f"/tasks/{task.pk}/delete/")
    assert outfit.log.get().hours == 3


@pytest.mark.parametrize("count", [1, 50])
def test_the_page_takes_the_same_queries_for_any_number_of_tasks(
    maker, outfit, django_assert_num_queries, count
):
    before = make_task(outfit)
    for number in range(count):
        garment = make_garment(outfit, name=f"garment {number}")
        make_task(outfit, garment=garment, leads_to="sewn").waits_for.add(before)
    with django_assert_num_queries(11):
        page(maker, outfit)


def test_an_outfit_without_tasks_offers_the_usual_ones(maker, outfit):
    assert f'action="/outfits/{outfit.pk}/tasks/start/"' in page(maker, outfit).text


def test_a_reader_sees_the_plan_and_nothing_to_change_it_with(client, people, outfit):
    make_task(outfit)
    client.force_login(people.reader)
    text = page(client, outfit).text
    assert "Tasks in the order to do them" in text
    assert "/change/" not in text


def test_a_garment_names_its_open_tasks_with_the_hours_done(maker, outfit):
    stays = make_garment(outfit, name="stays")
    make_entry(outfit, task=make_task(outfit, garment=stays, name="eyelets"), hours=1.5)
    make_task(outfit, garment=stays, name="cut", done_on=TODAY)
    text = maker.get(stays.get_absolute_url()).text
    assert "Eyelets: 1.5 of 4 h" in text
    assert "Cut:" not in text
