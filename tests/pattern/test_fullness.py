"""Gathers, strips and tiers, against printed rules and by hand."""

import pytest

from catalogue.lengths.calculation.errors import Faults
from fitting.pattern.calculation.sums.gathers import RATIOS, gathers
from fitting.pattern.calculation.sums.strips import strips
from fitting.pattern.calculation.sums.tiers import tiers

IN, YARD = 25.4, 914.4


@pytest.mark.parametrize(
    "known",
    [
        {"finished_mm": 600, "flat_mm": 900},
        {"finished_mm": 600, "ratio": 1.5},
        {"flat_mm": 900, "ratio": 1.5},
    ],
)
def test_any_two_give_the_third(known):
    found = gathers(**known)
    assert (found.finished_mm, found.flat_mm, found.ratio) == pytest.approx((600, 900, 1.5))


def test_the_ratio_of_the_plate_is_kept_for_the_wearer():
    assert gathers(finished_mm=500, flat_mm=1250).over(700).flat_mm == pytest.approx(1750)


@pytest.mark.parametrize(
    "known",
    [
        {},
        {"ratio": 1.5},
        {"finished_mm": 600, "flat_mm": 900, "ratio": 2},
        {"finished_mm": 600, "flat_mm": 599},
        {"finished_mm": 600, "ratio": 0.9},
        {"finished_mm": 0, "ratio": 1.5},
        {"flat_mm": 900, "ratio": 0},
    ],
)
def test_what_gives_no_gathers_is_said(known):
    with pytest.raises(Faults):
        gathers(**known)


def test_ratios_name_who_gave_them():
    by_name = {name: (least, most) for name, least, most, source in RATIOS if source}
    # L. I. Baldt, Clothing for Women, 1916: straight 1 1/3 to 1 1/2, bias 1 1/4 to 1 1/3.
    assert by_name["straight ruffle"] == pytest.approx((1.3333, 1.5), abs=1e-4)
    assert by_name["bias ruffle"] == pytest.approx((1.25, 1.3333), abs=1e-4)
    assert len(by_name) == len(RATIOS)


def test_ruffles_for_drawers_take_whole_strips():
    # Rule of Baldt, drawers: round the leg × 1 1/2 × 2 legs ÷ width of cloth, up to whole strips, × depth.
    # By hand: 24 in × 1.5 × 2 = 72 in; of 36-in cloth 2 strips; 5 in deep, 10 in of cloth.
    found = strips(24 * IN * 1.5 * 2, cloth_width_mm=36 * IN, depth_mm=5 * IN)
    assert (found.number, found.cloth_mm) == (2, pytest.approx(10 * IN))


def test_strips_for_a_pleated_length():
    # NIMI (India), CITS Dress Making, p. 188: 236 cm from cloth 88 cm wide are 3 strips.
    assert strips(2360, cloth_width_mm=880, depth_mm=300).number == 3


@pytest.mark.parametrize(
    ("flat_mm", "is_round", "number"), [(1980, False, 2), (1981, False, 3), (1960, True, 2), (1961, True, 3)]
)
def test_joins_take_from_every_strip_and_in_a_round_from_the_ends_too(flat_mm, is_round, number):
    # By hand: two strips of 1000 with 10 at each end joined once are 1980 long, joined to a ring 1960.
    found = strips(flat_mm, cloth_width_mm=1000, depth_mm=100, join_mm=10, is_round=is_round)
    assert found.number == number
    assert found.joined_mm >= flat_mm


def test_joins_wider_than_the_cloth_are_refused():
    with pytest.raises(Faults):
        strips(1000, cloth_width_mm=20, depth_mm=100, join_mm=10)


def test_tiers_widen_each_by_the_ratio():
    found = tiers(top_mm=800, ratio=1.5, number=3)
    assert found.widths_mm == pytest.approx((1200, 1800, 2700))
    assert tiers(top_mm=800, hem_mm=2700, number=3).ratio == pytest.approx(1.5)


def test_tiers_are_whole_and_the_ratio_gives_way():
    # By hand: 800 to 2700 at 1.4 each would be 3.6 tiers: 4, each (2700 / 800)^(1/4) = 1.3554 times the last.
    found = tiers(top_mm=800, hem_mm=2700, ratio=1.4)
    assert len(found.widths_mm) == 4
    assert (found.ratio, found.asked_ratio) == (pytest.approx(1.3554, abs=1e-4), 1.4)
    assert found.hem_mm == pytest.approx(2700)
    assert tiers(top_mm=800, hem_mm=2700, ratio=1.5).asked_ratio is None


@pytest.mark.parametrize(
    "known",
    [
        {},
        {"ratio": 1.5},
        {"ratio": 1.0, "number": 2},
        {"hem_mm": 700, "number": 2},
        {"ratio": 1.5, "number": 0},
    ],
)
def test_tiers_that_would_not_widen_are_refused(known):
    with pytest.raises(Faults):
        tiers(top_mm=800, **known)
