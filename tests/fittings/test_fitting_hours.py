"""A fitting is at its hour by the clock of the workroom: on its page, in its form, in the calendar.

Paris is one hour ahead of UTC in winter and two in summer; summer time begins on the last Sunday of March
and ends on the last Sunday of October (Directive 2000/84/EC): 28 March and 31 October in 2027.
"""

import datetime

import pytest
import vobject
from django.test import Client

from catalogue.workroom.actions.custom import move_workroom
from fitting.fittings.models.session import Fitting
from tests.makers.fittings import make_fitting
from tests.makers.rows import make_garment, make_outfit

HOURS = [("2027-03-27", 11), ("2027-03-29", 10), ("2027-10-30", 10), ("2027-11-01", 11)]


@pytest.fixture
def maker(client, people):
    move_workroom(people.workroom, time_zone="Europe/Paris")
    client.force_login(people.maker)
    return client


@pytest.fixture
def outfit(people):
    outfit = make_outfit(people.workroom)
    make_garment(outfit, name="gown", stage="toile")
    return outfit


def plan(maker, outfit, day: str) -> Fitting:
    sent = {"planned_for": f"{day}T12:00", "garments": [outfit.garments.get().pk]}
    maker.post(f"/outfits/{outfit.pk}/fitting/plan/", sent)
    return Fitting.objects.latest("pk")


@pytest.mark.parametrize(("day", "hour_utc"), HOURS)
def test_noon_in_paris_is_noon_in_paris_in_winter_and_in_summer(maker, outfit, day, hour_utc):
    fitting = plan(maker, outfit, day)
    assert (fitting.planned_for.date().isoformat(), fitting.planned_for.hour) == (day, hour_utc)
    assert "12:00" in maker.get(f"/fittings/{fitting.pk}/").text
    assert f'value="{day}T12:00"' in maker.get(f"/fittings/{fitting.pk}/change/").text


@pytest.mark.parametrize(("day", "hour_utc"), HOURS)
def test_a_calendar_program_is_told_the_same_moment(maker, outfit, day, hour_utc):
    plan(maker, outfit, day)
    address = maker.post("/calendar/").context["address"].removeprefix("http://testserver")
    told = vobject.readOne(Client().get(address).text).vevent.dtstart.value
    assert told == datetime.datetime.fromisoformat(f"{day}T{hour_utc}:00+00:00")


def test_late_in_the_evening_it_is_still_that_day(maker, outfit):
    # 23:30 UTC is half past midnight in Paris, on the next day.
    at = datetime.datetime(2027, 1, 5, 23, 30, tzinfo=datetime.UTC)
    fitting = make_fitting(outfit, planned_for=at)
    page = maker.get(f"/fittings/{fitting.pk}/").text
    assert "Fitting of Visiting dress, 6 January 2027" in page
    assert "00:30" in page
    assert [event.day.isoformat() for event in maker.get("/calendar/").context["events"]] == ["2027-01-06"]


def test_today_is_the_day_on_the_wall(people, client, outfit):
    # 25 hours lie between these two: at no moment is it the same day on both.
    days = []
    for zone in ("Pacific/Kiritimati", "Pacific/Pago_Pago"):
        move_workroom(people.workroom, time_zone=zone)
        client.force_login(people.maker)
        days.append(client.get(f"/outfits/{outfit.pk}/tasks/").context["today"])
    assert days[0] > days[1]


def test_a_workroom_that_is_placed_later_keeps_the_hours_that_were_typed(people, outfit):
    """Nobody had said where it is: noon was typed, and noon was meant."""
    fitting = make_fitting(outfit, planned_for=datetime.datetime(2027, 7, 1, 12, tzinfo=datetime.UTC))
    move_workroom(people.workroom, time_zone="Europe/Paris")
    fitting.refresh_from_db()
    assert fitting.planned_for == datetime.datetime(2027, 7, 1, 10, tzinfo=datetime.UTC)
