"""Figures of a proportional draft, read for another body than the one it was drawn for.

Outside values: C. Hecklinger, Handbook on Dress and Cloak Cutting, 1884 (Project Gutenberg 74716), pp. 7–12,
a bodice drafted without seams. At bust 36 he marks 9 (a quarter of the bust), 7 (a third of half the bust,
and an inch), 4 1/2 (a quarter of the half) and 3 (a sixth of it); for another bust he takes the same shares.
"""

import math

import pytest

from catalogue.lengths.calculation.doubt import u_of, value_of
from catalogue.plates.calculation.draft import Draft
from catalogue.plates.calculation.girth import Reckoning
from catalogue.plates.calculation.readings import DrawnPiece, FastenedWidth, PageReading, PlateReadings
from catalogue.plates.calculation.scale import Scale

INCH = 25.4
HALF_18 = Draft(line="bust", drawn_for_mm=18 * INCH, is_half=True)


def inches(figure_in: float, bust_in: float) -> float:
    return value_of(HALF_18.length(figure_in * INCH, body_mm=bust_in * INCH)) / INCH


@pytest.mark.parametrize("bust", [30, 36, 40, 46])
def test_figures_in_parts_come_to_the_same_shares_of_another_bust(bust):
    half = bust / 2
    assert inches(9, bust) == pytest.approx(bust / 4)
    assert inches(4.5, bust) == pytest.approx(half / 4)
    assert inches(3, bust) == pytest.approx(half / 6)
    # Of his 7 only 6 are in parts; the inch is the same for every bust.
    plain = HALF_18.length(INCH, body_mm=bust * INCH, is_plain=True) / INCH
    assert inches(6, bust) + plain == pytest.approx(half / 3 + 1)


def test_a_draft_may_be_in_parts_of_a_whole_measure():
    draft = Draft(line="height", drawn_for_mm=66 * INCH)
    assert value_of(draft.length(16.5 * INCH, body_mm=64 * INCH)) == pytest.approx(16 * INCH)


def test_the_doubt_of_the_measure_scales_through_and_is_one_error_in_all_figures():
    front, back = (HALF_18.length(mm, body_mm=1000, doubt_mm=10) for mm in (100.0, 200.0))
    # Half the measure is 500 ± 5 mm: one part in a hundred of each figure drawn out.
    assert u_of(front) == pytest.approx(0.01 * value_of(front))
    own = HALF_18.factor(1000, 10)
    assert u_of(100 * own + 200 * own) == pytest.approx(0.01 * value_of(front + back))
    assert u_of(HALF_18.length(100.0, body_mm=1000, doubt_mm=10, is_plain=True)) == 0


def plate(**given) -> PlateReadings:
    """Hecklinger's half bodice: 18 in at the bust, 16 in at the waist of which two darts take 2 in each."""
    half = DrawnPiece(
        name="half",
        cut=2,
        readings={
            "bust": PageReading(length_mm=18 * INCH),
            "waist": PageReading(length_mm=16 * INCH, take_up_mm=4 * INCH),
        },
    )
    values = {"scale": Scale.of(1, relative_doubt=0.0), "pieces": (half,), "draft": HALF_18}
    return PlateReadings(**values | given)


def girth_in(readings: PlateReadings, level: str) -> float:
    return Reckoning.of(readings).girth(level).mm / INCH


def test_as_drawn_it_is_the_garment_of_the_body_drawn_for():
    assert girth_in(plate(), "bust") == pytest.approx(36)
    assert girth_in(plate(), "waist") == pytest.approx(24)


def test_drawn_out_for_another_bust_every_figure_in_parts_grows_and_the_darts_with_it():
    drafted = plate().drafted_for(40 * INCH)
    assert girth_in(drafted, "bust") == pytest.approx(40)
    assert girth_in(drafted, "waist") == pytest.approx(24 * 40 / 36)


def test_plain_figures_allowances_and_fastenings_stay():
    facing = DrawnPiece(
        name="facing", cut=2, readings={"bust": PageReading(length_mm=2 * INCH, is_plain=True)}
    )
    drawn = plate(
        pieces=(*plate().pieces, facing),
        allowance_mm=INCH / 2,
        overlap=FastenedWidth(everywhere_mm=INCH),
        lengths={"nape to waist": (PageReading(length_mm=15 * INCH, is_plain=True, crossed_ends=1),)},
    )
    drafted = drawn.drafted_for(40 * INCH)
    # Two pieces, each cut twice with two edges: eight allowances.
    assert girth_in(drafted, "bust") == pytest.approx(40 + 4 - 8 / 2 - 1)
    assert Reckoning.of(drafted).length("nape to waist").mm == pytest.approx(14.5 * INCH)


def test_a_reading_in_parts_takes_its_doubt_along_and_the_drawing_does_not():
    bare = plate(rule_division_mm=3.0, drawing_doubt_mm=0.0)
    as_drawn, drafted = (Reckoning.of(one).girth("bust").u_mm for one in (bare, bare.drafted_for(40 * INCH)))
    # Read at both ends with a rule of 3 mm (JCGM 100:2008, 4.3.7), twice round.
    assert as_drawn == pytest.approx(2 * 3 / math.sqrt(6))
    assert drafted == pytest.approx(as_drawn * 40 / 36)
    drawn = plate(rule_division_mm=1e-9, drawing_doubt_mm=2.0).drafted_for(40 * INCH)
    assert Reckoning.of(drawn).girth("bust").u_mm == pytest.approx(4)


def test_a_plate_that_is_no_draft_stays_as_it_is():
    assert plate(draft=None).drafted_for(1000) == plate(draft=None)
