"""The width there is to use and the length to buy, against published yardage and by hand."""

import pytest

from fitting.laying.calculation.cloth import Cloth
from fitting.laying.calculation.repeat import Repeat
from tests.makers.lays import INCH_MM, YARD_MM


def make_cloth(width_in: float = 36, **values) -> Cloth:
    return Cloth(width_mm=width_in * INCH_MM, **values)


def test_both_selvedges_are_left_and_shrunk_cloth_is_narrower():
    cloth = make_cloth(22, selvedge_mm=0.25 * INCH_MM, shrinkage_width=0.02)
    assert cloth.usable_width_mm == pytest.approx(21.5 * 0.98 * INCH_MM)


def test_shrinkage_divides():
    # 3 % on 4 yd is 4.124 yd, by arithmetic: multiplying would give 4.12 and come out short after washing.
    cloth = make_cloth(shrinkage_length=0.03, unit_mm=YARD_MM / 1000)
    assert cloth.length_to_buy_mm(4 * YARD_MM) / YARD_MM == pytest.approx(4.124)


@pytest.mark.parametrize(
    ("length_in", "repeat_in", "bought_in"),
    [
        # Curtain makers round each cut up to whole repeats: throwmeapillow.com/blog, 54-in cloth.
        # Its 7 yd at 18 + 13.5 in is eight repeats to the last inch, and may not become nine.
        (7 * 36, 31.5, 7 * 36),
        (7 * 36 + 0.1, 31.5, 283.5),
        (50, 31.5, 63),
        (50, 0, 54),
        (1, 24, 27),  # one repeat, then the eighths of a yard that hold it
    ],
)
def test_the_length_is_rounded_up_to_whole_repeats_then_to_the_unit(length_in, repeat_in, bought_in):
    bought_mm = make_cloth(repeat=Repeat(along_mm=repeat_in * INCH_MM)).length_to_buy_mm(length_in * INCH_MM)
    assert bought_mm / INCH_MM == pytest.approx(bought_in)


@pytest.mark.parametrize("eighths", range(1, 100))
def test_a_length_sold_as_it_is_stays_as_it_is(eighths):
    cloth = make_cloth()
    assert cloth.length_to_buy_mm(eighths * 4.5 * INCH_MM) == pytest.approx(eighths * 4.5 * INCH_MM)
    assert cloth.length_to_buy_mm(eighths * 4.5 * INCH_MM + 0.001) == pytest.approx((eighths + 1) * 114.3)


@pytest.mark.parametrize(
    ("values", "where"),
    [
        ({"width_mm": 0}, "width"),
        ({"width_mm": 100, "selvedge_mm": 50}, "selvedge"),
        ({"width_mm": 100, "shrinkage_length": 1.0}, "shrinkage.length"),
        ({"width_mm": 100, "shrinkage_width": -0.1}, "shrinkage.width"),
        ({"width_mm": 100, "unit_mm": 0}, "unit"),
    ],
)
def test_what_no_cloth_can_be_is_named(values, where):
    assert [fault.where for fault in Cloth(**values).faults()] == [where]
