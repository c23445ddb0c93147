"""A plan: whom, when and where, which garments, what is typed beside what is reckoned."""

import pytest

from fitting.fittings.models.session import Fitting
from tests.makers.fittings import make_fitting, make_observation
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


def test_it_is_kept_with_the_person_it_is_for(maker, outfit):
    gown = outfit.garments.get(name="gown")
    answer = maker.post(f"/outfits/{outfit.pk}/fitting/plan/", {**PLANNED, "garments": [gown.pk]})
    fitting = Fitting.objects.get()
    assert answer["Location"] == fitting.get_absolute_url()
    assert fitting.wearer == outfit.wearer
    assert list(fitting.garments.all()) == [gown]
    assert (fitting.wear, fitting.checks) == ("shift", "the waist")


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


@pytest.mark.parametrize("count", [1, 50])
def test_the_list_takes_the_same_queries_at_any_length(maker, outfit, django_assert_num_queries, count):
    for _ in range(count):
        make_fitting(outfit)
    with django_assert_num_queries(7):
        maker.get("/fittings/")
