"""Deleting a fitting or an observation never takes what was done in cloth, and says what it takes."""

import datetime

import pytest

from fitting.fittings.loading.alterations import alterations_of
from fitting.fittings.models.alteration import Alteration
from fitting.fittings.models.session import Observation
from tests.makers.fittings import make_alteration, make_fitting, make_inlay, make_observation
from tests.makers.rows import NOON, make_garment, make_outfit, make_wearer


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def gown(people):
    outfit = make_outfit(people.workroom, wearer=make_wearer(people.workroom))
    return make_garment(outfit, name="gown", stage="cut")


@pytest.fixture
def fitting(gown):
    return make_fitting(gown.outfit, closed_at=NOON)


def done_in(alteration: Alteration, part: str) -> Alteration:
    alteration.parts.filter(part=part).update(done_on=datetime.date(2026, 11, 17))
    return alteration


@pytest.mark.parametrize("address", ["/fittings/{fitting}/delete/", "/observations/{seen}/delete/"])
def test_an_alteration_done_in_cloth_stays_with_its_tick_and_the_inlay_it_took(maker, fitting, gown, address):
    make_inlay(gown)
    seen = make_observation(fitting)
    done = done_in(make_alteration(gown, ("paper", "outer"), observation=seen), "outer")
    not_done = make_alteration(gown, observation=seen, edge="hem")
    address = address.format(fitting=fitting.pk, seen=seen.pk)
    page = maker.get(address).content.decode()
    stays, goes = page.split("<h2>What stays</h2>")[1].split("<h2>What goes too</h2>")
    assert (f"gown, {done}" in stays, f"gown, {not_done}" in goes) == (True, True)
    maker.post(address)
    assert list(Alteration.objects.all()) == [done]
    assert not Observation.objects.exists()
    assert done.by_part["outer"].done_on == datetime.date(2026, 11, 17)
    # Two edges of 1 in, less 1/4 in each to hold: 1 1/2 in. Let out: 1/4 in at each of 2 edges, 1/2 in.
    assert alterations_of(gown).inlays[0].left.left_mm == pytest.approx(25.4)


def test_one_that_a_later_fitting_confirmed_stays_confirmed(maker, fitting, gown):
    later = make_fitting(gown.outfit, planned_for=NOON + datetime.timedelta(days=7))
    good = make_alteration(gown, observation=make_observation(fitting), confirmed_in=later)
    maker.post(f"/fittings/{fitting.pk}/delete/")
    good.refresh_from_db()
    assert (good.confirmed_in, good.observation) == (later, None)


def test_those_that_it_confirmed_are_named_and_open_again(maker, fitting, gown):
    good = make_alteration(gown, confirmed_in=fitting)
    page = maker.get(f"/fittings/{fitting.pk}/delete/").content.decode()
    assert f"gown, {good}" in page.split("<h2>What is open again</h2>")[1]
    maker.post(f"/fittings/{fitting.pk}/delete/")
    assert list(Alteration.objects.unconfirmed()) == [good]


def test_what_was_seen_goes_with_it(maker, fitting):
    make_observation(fitting)
    assert "<li>1 observation</li>" in maker.get(f"/fittings/{fitting.pk}/delete/").content.decode()
    maker.post(f"/fittings/{fitting.pk}/delete/")
    assert not Observation.objects.exists()
