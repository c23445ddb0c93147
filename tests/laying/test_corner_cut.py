"""Pieces cut corner to corner cost no more than their rectangle, and the hand they come out in is said."""

import pytest

from fitting.laying.calculation.boxes import is_corner_cut
from fitting.laying.calculation.cloth import Cloth, Direction
from fitting.laying.calculation.lay_out import Order, lay_out
from fitting.laying.calculation.search import Ending
from fitting.laying.exchange.lay_answer import lay_said
from tests.makers.lays import INCH_MM, assert_sound, make_piece, rectangle, until

GODET = [(0.0, 0.0), (11 * INCH_MM, 0.0), (0.0, 35.4 * INCH_MM)]


def laid(piece, *, width_in: float = 22, direction: Direction = Direction.TWO_WAY, gap_mm: float = 0.0):
    cloth = Cloth(width_mm=width_in * INCH_MM, direction=direction, unit_mm=10, gap_mm=gap_mm)
    lay = lay_out(Order(cloth=cloth, pieces=(piece,)), watch=until(1))
    assert_sound(lay)
    return lay


@pytest.mark.parametrize("paired", [False, True])
def test_two_godets_take_the_cloth_of_their_rectangle(paired):
    # Eight are four rectangles of 11 × 35.4 in, two abreast on 22 in: 2 × 35.4 = 70.8 in = 1798.32 mm.
    lay = laid(make_piece("godet", GODET, copies=8, paired=paired))
    assert lay.length_mm == pytest.approx(70.8 * INCH_MM, abs=0.01)
    assert lay.length_to_buy_mm == pytest.approx(1800)
    assert lay.ending is Ending.NONE_SHORTER
    (said,) = lay_said(lay)
    assert "turned end for end, comes out in the same hand" in said
    assert ("each hand has rectangles of its own" in said) is paired


def test_an_odd_one_takes_a_rectangle_of_its_own():
    # Five are two rectangles and a half: two rows of 35.4 in.
    assert laid(make_piece("godet", GODET, copies=5)).length_mm == pytest.approx(70.8 * INCH_MM, abs=0.1)


def test_two_in_a_rectangle_keep_the_gap():
    # Along √(300² + 500²) = 583.1 the second is moved off by 5 × (500, 300) ÷ 583.1: 4.29 across, 2.57 along.
    wedge = [(0.0, 0.0), (300.0, 0.0), (0.0, 500.0)]
    lay = laid(make_piece("wedge", wedge, copies=4), width_in=620 / INCH_MM, gap_mm=5)
    assert lay.length_mm == pytest.approx(502.57, abs=0.01)


@pytest.mark.parametrize(
    ("direction", "copies", "paired", "said"),
    [
        (Direction.ONE_WAY, 4, False, "On one-way cloth “godet” is not turned end for end"),
        (
            Direction.TWO_WAY,
            2,
            True,
            "A pair of “godet” out of one rectangle comes only from",
        ),
    ],
)
def test_where_a_rectangle_does_not_give_both_it_is_said(direction, copies, paired, said):
    lay = laid(make_piece("godet", GODET, copies=copies, paired=paired), direction=direction)
    assert any(sentence.startswith(said) for sentence in lay_said(lay))


def test_a_rectangle_is_not_cut_corner_to_corner():
    assert is_corner_cut(tuple(GODET))
    assert not is_corner_cut(tuple(rectangle(11, 35)))
    assert not is_corner_cut(((0, 0), (40, 0), (10, 90), (0, 60)))
