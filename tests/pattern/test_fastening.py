"""Bones, holes, laces, buttons and piping, worked by hand."""

import math
from itertools import pairwise

import pytest

from catalogue.lengths.calculation.errors import Faults
from fitting.pattern.calculation.sums.bias import piping_strip_mm
from fitting.pattern.calculation.sums.boning import boning
from fitting.pattern.calculation.sums.fastening import (
    FastenerRow,
    between_holes_mm,
    crossed_lace_mm,
    even_row,
    row_with_one_at,
    spiral_lace_mm,
)

IN = 25.4


def test_a_bone_is_half_an_inch_shorter_than_its_channel():
    # Common practice, no source.
    bones = boning([13 * IN, 12 * IN, 10.5 * IN], bone_width_mm=IN / 4)
    assert bones.count == 6
    assert bones.total_mm / IN == pytest.approx(2 * (12.5 + 11.5 + 10))
    assert bones.channel_width_mm / IN == pytest.approx(3 / 8)


def test_a_channel_too_short_for_a_bone_is_named():
    with pytest.raises(Faults) as refused:
        boning([300, 12.7], bone_width_mm=6)
    assert [fault.where for fault in refused.value.faults] == ["channels[1]"]


@pytest.mark.parametrize(
    ("length_mm", "spacing_mm", "first_mm", "last_mm", "count", "corrected_mm"),
    [
        (300, 25, 10, 15, 12, 25),  # 275 ÷ 25 = 11 spaces
        (300, 26, 10, 10, 12, 280 / 11),  # 280 ÷ 26 = 10.8: 11 spaces
        (300, 24, 0, 0, 14, 300 / 13),  # 12.5 spaces: the nearest, and of two the closer set
        (20, 100, 0, 0, 2, 20),
    ],
)
def test_a_row_comes_out_even(length_mm, spacing_mm, first_mm, last_mm, count, corrected_mm):
    row = even_row(length_mm, spacing_mm=spacing_mm, first_mm=first_mm, last_mm=last_mm)
    assert (row.count, row.spacing_mm) == (count, pytest.approx(corrected_mm))
    assert (row.places_mm[0], row.places_mm[-1]) == pytest.approx((first_mm, length_mm - last_mm))


def test_one_button_comes_exactly_at_the_waist():
    above, below = row_with_one_at(500, spacing_mm=40, at_mm=330, first_mm=12, last_mm=20)
    assert above.places_mm[-1] == pytest.approx(330)
    assert below.places_mm[0] == pytest.approx(330)
    assert below.places_mm[-1] == pytest.approx(480)
    assert (above.spacing_mm, below.spacing_mm) == pytest.approx((318 / 8, 150 / 4))


@pytest.mark.parametrize("values", [{"first_mm": 60, "last_mm": 40}, {"spacing_mm": 0}])
def test_a_row_without_room_is_refused(values):
    with pytest.raises(Faults):
        even_row(100, **({"spacing_mm": 20} | values))


def zigzag_mm(points: list[tuple[float, float]]) -> float:
    return sum(math.dist(one, other) for one, other in pairwise(points))


def test_a_crossed_lace_is_its_path_from_hole_to_hole():
    row = FastenerRow(places_mm=tuple(25.0 * at for at in range(12)), spacing_mm=25)
    one = [(0.0 if at % 2 else 150.0, y) for at, y in enumerate(row.places_mm)]
    other = [(150.0 if at % 2 else 0.0, y) for at, y in enumerate(row.places_mm)]
    path = zigzag_mm([*reversed(one), *other])
    assert crossed_lace_mm(row, across_mm=150, ends_mm=300) == pytest.approx(path + 600)


def test_a_spiral_lace_is_its_path_from_side_to_side():
    row = FastenerRow(places_mm=tuple(25.0 * at for at in range(12)), spacing_mm=25)
    path = zigzag_mm([(150.0 * (at % 2), 12.5 * at) for at in range(24)])
    assert spiral_lace_mm(row, across_mm=150, ends_mm=300) == pytest.approx(path + 600)


def test_piping_goes_round_its_cord():
    assert piping_strip_mm(cord_mm=4, allowance_mm=12) == pytest.approx(4 * math.pi + 24)


def test_holes_in_from_their_edges_are_farther_apart_than_the_edges():
    # By hand: opened by 6 in, one side's holes 3/8 in from its edge and the other's 5/8 in: 7 in across.
    across_mm = between_holes_mm(gap_mm=6 * 25.4, from_edges_mm=[0.375 * 25.4, 0.625 * 25.4])
    assert across_mm == pytest.approx(7 * 25.4)
    row = even_row(100, spacing_mm=25)
    assert crossed_lace_mm(row, across_mm=across_mm) > crossed_lace_mm(row, across_mm=6 * 25.4) + 25.4
