"""A plan says by itself whom, what to wear and what to check."""

import pytest

from fitting.fittings.models.session import Fitting, Observation
from tests.makers.fittings import make_alteration, make_fitting, make_observation
from tests.makers.rows import make_garment, make_measures, make_outfit, make_wearer, um

PLANNED = {"planned_for": "2026-12-05T18:30", "place": "the loft", "wear": "shift", "checks": "the waist"}


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def outfit(people):
    wearer = make_wearer(people.workroom)
    outfit = make_outfit(people.workroom, wearer=wearer)
    make_garment(outfit, name="shift", stage="finished")
    make_garment(outfit, name="stays", stage="studied", is_boned=True)
    make_garment(outfit, name="gown", stage="toile")
    make_measures(wearer, gap_waist_um=um("2 in"), gap_waist_text="2 in")
    return outfit


def first_values(maker, outfit) -> dict:
    return maker.get(f"/outfits/{outfit.pk}/fitting/plan/").context["form"].initial


def test_what_can_be_tried_on_is_ticked_and_nothing_else(maker, outfit):
    gown = outfit.garments.get(name="gown")
    assert first_values(maker, outfit)["garments"] == [gown.pk]


def test_what_to_wear_is_all_beneath_and_says_what_is_not_made_yet(maker, outfit):
    assert first_values(maker, outfit)["wear"].splitlines()[:2] == [
        "shift",
        "stays: not made yet, bring what stands in for it",
    ]


def test_an_open_alteration_is_to_be_checked_and_a_confirmed_one_is_not(maker, outfit):
    gown = outfit.garments.get(name="gown")
    alteration = make_alteration(gown)
    question = "gown: is it right now? side seam: let out 1/4 in at each of 2 edges"
    assert question in first_values(maker, outfit)["checks"]
    alteration.confirmed_in = make_fitting(outfit)
    alteration.save()
    assert question not in first_values(maker, outfit)["checks"]


def test_it_is_kept_with_the_person_it_is_for(maker, outfit):
    gown = outfit.garments.get(name="gown")
    answer = maker.post(f"/outfits/{outfit.pk}/fitting/plan/", {**PLANNED, "garments": [gown.pk]})
    fitting = Fitting.objects.get()
    assert answer["Location"] == fitting.get_absolute_url()
    assert fitting.wearer == outfit.wearer
    assert list(fitting.garments.all()) == [gown]
    assert fitting.checks_listed == ["the waist"]


def test_a_plan_without_a_garment_is_asked_for_one_and_keeps_what_was_typed(maker, outfit):
    answer = maker.post(f"/outfits/{outfit.pk}/fitting/plan/", PLANNED)
    assert "garments" in answer.context["form"].errors
    assert "the loft" in answer.content.decode()


def test_a_garment_on_which_something_was_seen_stays_in_the_fitting(maker, outfit):
    fitting = make_fitting(outfit)
    gown = outfit.garments.get(name="gown")
    make_observation(fitting, garment=gown)
    others = [garment.pk for garment in outfit.garments.exclude(pk=gown.pk)]
    answer = maker.post(f"/fittings/{fitting.pk}/change/", {**PLANNED, "garments": others})
    assert "gown" in str(answer.context["form"].errors)
    assert gown in fitting.garments.all()


def test_deleting_a_fitting_takes_what_was_seen_with_it(maker, outfit):
    fitting = make_fitting(outfit)
    make_observation(fitting)
    assert "1 observation" in maker.get(f"/fittings/{fitting.pk}/delete/").content.decode()
    maker.post(f"/fittings/{fitting.pk}/delete/")
    assert not Observation.objects.exists()


@pytest.mark.parametrize("count", [1, 50])
def test_the_list_takes_the_same_queries_at_any_length(maker, outfit, django_assert_num_queries, count):
    for _ in range(count):
        make_fitting(outfit)
    with django_assert_num_queries(7):
        maker.get("/fittings/")
