"""Closing: every observation becomes an alteration or is dropped; a later fitting confirms."""

import datetime

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from fitting.fittings.models.alteration import Alteration
from fitting.wearers.models import Measures
from tests.makers.fittings import make_alteration, make_fitting, make_observation
from tests.makers.rows import NOON, make_bodice_plate, make_garment, make_measures, make_outfit, make_wearer


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def garment(people):
    outfit = make_outfit(people.workroom, wearer=make_wearer(people.workroom))
    plate = make_bodice_plate(people.workroom)
    return make_garment(outfit, plate=plate, stage="toile", edges_that_may_take=4)


@pytest.fixture
def fitting(garment):
    return make_fitting(garment.outfit)


def ticked(alteration):
    alteration.parts.filter(part="toile").update(done_on=NOON.date())
    return alteration


def close(maker, fitting, **given):
    maker.post(f"/fittings/{fitting.pk}/close/", given)
    fitting.refresh_from_db()


def test_it_stays_open_while_an_observation_is_unsettled(maker, fitting):
    make_observation(fitting)
    close(maker, fitting)
    assert fitting.closed_at is None
    assert "1 observation to settle" in maker.get(f"/fittings/{fitting.pk}/close/").content.decode()


def test_one_that_fits_asks_for_nothing(maker, fitting, people):
    make_observation(fitting, what="fits", amount_um=None, amount_text="")
    close(maker, fitting)
    assert fitting.closed_at is not None
    assert fitting.closed_by == people.maker


def test_dropped_with_a_reason_it_is_settled_and_can_be_taken_up_again(maker, fitting):
    observation = make_observation(fitting)
    maker.post(f"/observations/{observation.pk}/drop/", {"because": "she stood crooked"})
    observation.refresh_from_db()
    assert observation.is_settled
    maker.post(f"/observations/{observation.pk}/drop/", {"because": ""})
    observation.refresh_from_db()
    assert not observation.is_settled


def test_an_alteration_starts_from_what_was_seen_shared_over_the_edges(maker, fitting, garment):
    observation = make_observation(fitting, garment=garment)
    page = maker.get(f"/garments/{garment.pk}/alterations/add/?observation={observation.pk}")
    first = page.context["form"].initial
    assert (first["what"], first["edges"], first["amount_um"].text) == ("let out", 4, "1/8 in")
    assert first["parts"] == ["paper", "toile"]


def test_a_length_is_altered_at_one_edge(maker, fitting, garment):
    observation = make_observation(fitting, garment=garment, what="shorten", place="length")
    page = maker.get(f"/garments/{garment.pk}/alterations/add/?observation={observation.pk}")
    assert (page.context["form"].initial["edges"], page.context["form"].initial["amount_um"].text) == (
        1,
        "1/2 in",
    )


def test_once_cut_an_alteration_has_to_reach_the_cloth(maker, fitting, garment):
    garment.stage = "cut"
    garment.save()
    page = maker.get(f"/garments/{garment.pk}/alterations/add/")
    assert page.context["form"].initial["parts"] == ["paper", "lining", "outer"]


def test_the_alteration_settles_the_observation_and_leads_back_to_the_close(maker, fitting, garment):
    observation = make_observation(fitting, garment=garment)
    piece = garment.plate.pieces.first()
    sent = {"what": "let out", "piece": piece.pk, "edge": "side seam", "edges": 4, "amount_um": "1/8"}
    answer = maker.post(
        f"/garments/{garment.pk}/alterations/add/?observation={observation.pk}",
        {**sent, "parts": ["toile", "paper"]},
    )
    assert answer["Location"] == f"/fittings/{fitting.pk}/close/"
    alteration = Alteration.objects.get()
    assert str(alteration) == "front, side seam: let out 1/8 in at each of 4 edges"
    assert [part.part for part in alteration.parts.all()] == ["paper", "toile"]
    assert alteration.wearer == garment.outfit.wearer
    close(maker, fitting)
    assert fitting.closed_at is not None


def test_a_later_fitting_confirms_what_was_decided_before_it_and_only_that(maker, garment):
    before = ticked(make_alteration(garment))
    fitting = make_fitting(garment.outfit)
    after = make_alteration(garment, decided_at=NOON + datetime.timedelta(days=1))
    offered = maker.get(f"/fittings/{fitting.pk}/close/").context["form"].fields["confirmed"].queryset
    assert list(offered) == [before]
    close(maker, fitting, confirmed=[before.pk])
    before.refresh_from_db()
    assert before.confirmed_in == fitting
    assert list(Alteration.objects.unconfirmed()) == [after]


def test_one_that_is_ticked_nowhere_cannot_be_confirmed(maker, garment):
    decided = make_alteration(garment)
    fitting = make_fitting(garment.outfit)
    page = maker.get(f"/fittings/{fitting.pk}/close/")
    assert "confirmed" not in page.context["form"].fields
    assert f"{garment}, <a" in page.content.decode().split("Not ticked in any layer yet")[1]
    ticked(make_alteration(garment))
    maker.post(f"/fittings/{fitting.pk}/close/", {"confirmed": [decided.pk]})
    decided.refresh_from_db()
    fitting.refresh_from_db()
    assert (decided.confirmed_in, fitting.closed_at) == (None, None)


def test_the_list_to_confirm_names_each_garment(maker, garment):
    ticked(make_alteration(garment))
    other = make_garment(garment.outfit, name="petticoat", stage="toile", order=9)
    ticked(make_alteration(other))
    fitting = make_fitting(garment.outfit)
    boxes = maker.get(f"/fittings/{fitting.pk}/close/").context["form"]["confirmed"]
    said = "side seam: let out 1/4 in at each of 2 edges"
    assert [box.choice_label for box in boxes] == [f"{garment}, {said}", f"petticoat, {said}"]


def test_a_fitting_does_not_confirm_its_own_alterations(maker, fitting, garment):
    observation = make_observation(fitting, garment=garment)
    make_alteration(garment, observation=observation)
    assert "confirmed" not in maker.get(f"/fittings/{fitting.pk}/close/").context["form"].fields


def test_measures_retaken_are_a_set_of_their_own(maker, fitting, garment):
    wearer = garment.outfit.wearer
    make_measures(wearer, taken_on=datetime.date(2026, 11, 2))
    retaken = make_measures(wearer, {"waist": "26 in"}, taken_on=NOON.date())
    close(maker, fitting, measures=retaken.pk)
    assert fitting.measures == retaken
    assert Measures.objects.count() == 2


def test_a_toile_can_be_called_fitted(maker, fitting, garment):
    close(maker, fitting, fitted=[garment.pk])
    garment.refresh_from_db()
    assert garment.stage == "fitted"


def test_it_can_be_opened_again(maker, fitting):
    close(maker, fitting)
    maker.post(f"/fittings/{fitting.pk}/reopen/")
    fitting.refresh_from_db()
    assert fitting.closed_at is None


@pytest.mark.parametrize("which", ["", "close/", "hold/"])
def test_a_page_takes_the_same_queries_for_many_observations(maker, garment, which):
    counts = []
    for number in (1, 8):
        fitting = make_fitting(garment.outfit)
        for _ in range(number):
            observation = make_observation(fitting, garment=garment)
            make_alteration(garment, observation=observation, piece=garment.plate.pieces.first())
        with CaptureQueriesContext(connection) as asked:
            maker.get(f"/fittings/{fitting.pk}/{which}")
        counts.append(len(asked))
        fitting.delete()
    assert counts[0] == counts[1]
