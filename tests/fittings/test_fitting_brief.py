"""What to wear and what to check is reckoned anew each time, until the fitting is closed."""

import datetime

import pytest
from django.utils import timezone

from fitting.comparing.actions import compare_garment
from fitting.fittings.showing.brief import brief_now
from tests.makers.fittings import make_alteration, make_fitting, make_observation
from tests.makers.rows import (
    NOON,
    make_bodice_plate,
    make_garment,
    make_measures,
    make_outfit,
    make_wearer,
    um,
)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def outfit(people):
    wearer = make_wearer(people.workroom)
    outfit = make_outfit(people.workroom, wearer=wearer)
    make_garment(outfit, name="shift", order=1, stage="finished")
    make_garment(outfit, name="stays", order=2, stage="studied", is_boned=True)
    make_garment(outfit, name="hoop", order=3, stage="sewn")
    make_garment(outfit, name="gown", order=4, stage="toile")
    return outfit


@pytest.fixture
def gown(outfit):
    return outfit.garments.get(name="gown")


@pytest.fixture
def fitting(outfit, gown):
    fitting = make_fitting(outfit)
    fitting.garments.set([gown])
    return fitting


def brief(fitting, people):
    return brief_now(fitting, by=people.maker, at=timezone.now())


def test_all_that_lies_beneath_is_worn_and_what_is_not_made_is_stood_in_for(fitting, people):
    stand_in = "stays: not made yet, bring what stands in for it"
    assert brief(fitting, people).wear == ("shift", stand_in, "hoop")


def test_what_is_fitted_beneath_another_garment_is_worn_too(fitting, outfit, people):
    outfit.garments.filter(name="stays").update(stage="toile")
    fitting.garments.add(outfit.garments.get(name="stays"))
    assert brief(fitting, people).wear == ("shift", "stays: toile", "hoop")


def test_a_layer_that_lies_elsewhere_is_not_asked_for(fitting, outfit, people):
    make_garment(outfit, name="cap", order=1, stage="finished")
    make_garment(outfit, name="stockings", order=1, stage="finished")
    assert not {"cap", "stockings"} & set(brief(fitting, people).wear)


def test_a_plan_follows_the_dressing_order_as_it_changes(fitting, outfit, people):
    outfit.garments.filter(name="hoop").update(order=9)
    outfit.garments.filter(name="stays").update(stage="finished")
    assert brief(fitting, people).wear == ("shift", "stays")


def test_it_is_laced_as_it_was_measured(fitting, gown, people):
    make_measures(gown.outfit.wearer, gap_waist_um=um("2 in"), gap_waist_text="2 in")
    laced = "Laced as measured 2 November 2026: a gap of 2 in at the waist"
    assert brief(fitting, people).wear[-1] == laced


def test_an_alteration_decided_after_the_plan_is_to_be_checked(fitting, gown, people, maker):
    alteration = make_alteration(gown)
    said = "side seam: let out 1/4 in at each of 2 edges."
    assert brief(fitting, people).checks == (f"gown: Decided, and not ticked anywhere yet: {said}",)
    alteration.parts.filter(part="toile").update(done_on=datetime.date(2026, 11, 20))
    assert brief(fitting, people).checks == (f"gown: Is it right now? {said}",)
    page = maker.get(f"/fittings/{fitting.pk}/").content.decode()
    assert "Is it right now?" in page.split("<h2>What to check</h2>")[1]


def test_what_this_fitting_led_to_is_not_asked_at_it(fitting, gown, people):
    make_alteration(gown, observation=make_observation(fitting, garment=gown))
    assert brief(fitting, people).checks == ()


def test_what_is_typed_by_hand_stays_beside_it_and_is_not_said_twice(fitting, gown, people):
    fitting.wear, fitting.checks = "Shift\nown shoes", "how she sits"
    make_alteration(gown)
    told = brief(fitting, people)
    assert told.wear[0] == "shift"
    assert told.wear[-1] == "own shoes"
    assert "Shift" not in told.wear
    assert told.checks[-1] == "how she sits"


def test_once_closed_it_stays_as_it_was_and_opened_again_it_is_reckoned_anew(fitting, gown, maker, people):
    alteration = make_alteration(gown)
    alteration.parts.filter(part="toile").update(done_on=datetime.date(2026, 11, 20))
    before = brief(fitting, people)
    maker.post(f"/fittings/{fitting.pk}/close/", {"confirmed": [alteration.pk]})
    gown.outfit.garments.filter(name="hoop").delete()
    fitting.refresh_from_db()
    alteration.refresh_from_db()
    assert alteration.confirmed_in == fitting
    assert brief(fitting, people) == before
    maker.post(f"/fittings/{fitting.pk}/reopen/")
    fitting.refresh_from_db()
    assert "hoop" not in brief(fitting, people).wear


def test_at_a_fitting_a_doubt_is_said_in_one_short_sentence(fitting, gown, people):
    make_measures(gown.outfit.wearer, {"waist": "25 in"}, taken_on=datetime.date(2026, 5, 1))
    gown.plate = make_bodice_plate(people.workroom)
    gown.save()
    compare_garment(gown, by=people.maker, at=NOON)
    stale = [check for check in brief(fitting, people).checks if "may not hold" in check]
    assert len(stale) == 1
    assert stale[0].count(". ") == 0
