"""A plate agrees with itself, and with what was published, where doubt explains the difference."""

import math

import pytest

from catalogue.plates.calculation.agreement import SewnEdges, edges_agreement, published_agreement
from catalogue.plates.calculation.girth import Reckoning
from tests.makers.cases import inches, make_plate


def edges(page_a_in, page_b_in):
    return SewnEdges(
        name_a="front side", page_a_mm=inches(page_a_in), name_b="back side", page_b_mm=inches(page_b_in)
    )


def test_the_scale_adds_almost_no_doubt_between_two_edges_it_enlarges_alike():
    # u² = 2·(8²·(1/16)²/6 + (1/16)²) + (0.005·8·(1 − 1 1/16))² = 0.083333 + 0.0078125 + 0.00000625, in in².
    agreement = edges_agreement(Reckoning.of(make_plate()), edges(1, 1 + 1 / 16))
    assert agreement.difference_mm == pytest.approx(inches(-0.5))
    assert agreement.u_mm == pytest.approx(math.sqrt(0.09115208) * 25.4, rel=1e-6)


@pytest.mark.parametrize(
    ("page_b_in", "agrees"), [(1, True), (1 + 1 / 16, True), (1 + 1 / 8, False), (1 - 1 / 8, False)]
)
def test_edges_agree_within_twice_their_doubt(page_b_in, agrees):
    # 2u = 0.604 in: a sixteenth on the page, 1/2 in at full size, is within it, an eighth is not.
    assert edges_agreement(Reckoning.of(make_plate()), edges(1, page_b_in)).agrees is agrees


def test_a_misreading_is_named():
    sentence = edges_agreement(Reckoning.of(make_plate()), edges(1, 1.25)).sentence()
    assert sentence.startswith(
        "front side is 2 in shorter than back side, and doubt explains no more than 5/8"
    )
    agreeing = edges_agreement(Reckoning.of(make_plate()), edges(1, 1)).sentence()
    assert agreeing == "front side agrees with back side, within 0 in."


@pytest.mark.parametrize(("published_in", "agrees"), [(24, True), (25, True), (26, False)])
def test_a_published_girth_agrees_within_twice_the_doubt(published_in, agrees):
    # The waist is 24 in with u² = 2²·8²·(1/16)²/6 + 2²/16² + 0.12² = 0.166667 + 0.015625 + 0.0144; published
    # to the nearest inch: 1/12 = 0.083333. In all 0.280025: 2u = 1.058 in.
    waist = Reckoning.of(make_plate()).girth("waist")
    agreement = published_agreement(waist, inches(published_in), division_mm=inches(1.0))
    assert agreement.u_mm == pytest.approx(math.sqrt(0.280025) * 25.4, rel=1e-4)
    assert agreement.agrees is agrees
