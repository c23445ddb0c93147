"""Bias strips against printed tables and the geometry of a square."""

import math

import pytest
from shapely import LineString, Polygon, affinity, box

from catalogue.lengths.calculation.errors import Faults
from fitting.pattern.calculation.sums.bias import bias_strips, continuous_length_mm, square_for_mm

IN = 25.4


@pytest.mark.parametrize(
    ("side_in", "strip_in", "seam_in", "length_in"),
    [
        (12, 2, 0, 72),  # sewaquilt.com/bias-tape.html
        (20, 2, 0, 200),  # mydecozo.co.uk forum 680
        (36, 2, 0, 648),  # sew-whats-new.com; 18 yd by arithmetic
        (22, 3, 0.25, 157.7),  # a how-to page; (22 − 1/4)² ÷ 3
    ],
)
def test_the_length_of_a_continuous_strip_is_area_by_width(side_in, strip_in, seam_in, length_in):
    length_mm = continuous_length_mm(
        width_mm=side_in * IN, length_mm=side_in * IN, strip_mm=strip_in * IN, seam_mm=seam_in * IN
    )
    assert length_mm / IN == pytest.approx(length_in, abs=0.05)


@pytest.mark.parametrize(("total_in", "strip_in", "side_in"), [(250, 2, 23), (100, 3.5, 19), (72, 2, 12)])
def test_the_square_for_a_length_is_rounded_up(total_in, strip_in, side_in):
    # mydecozo; quiltersquestiontime.com 2021: 22.36 is 23, 18.71 is 19. The third reads the first table back.
    assert square_for_mm(total_mm=total_in * IN, strip_mm=strip_in * IN) == pytest.approx(side_in * IN)


def test_a_strip_across_the_cloth_is_its_diagonal():
    # 27 × √2 = 38.18. A Sewing Course for Teachers, "True Bias", has one third more: 36, which is too short.
    strips = bias_strips(38 * IN, cloth_width_mm=27 * IN, strip_mm=2 * IN)
    assert strips.number == 1
    assert strips.each_mm / IN == pytest.approx(38.18, abs=0.005)


def test_strips_cut_by_the_figures_lie_on_the_cloth_and_are_as_long_as_said():
    # An oracle by geometry: parallel strips at 45° on a rectangle of the cloth's width and the length given.
    width, strip = 900.0, 40.0
    strips = bias_strips(3000, cloth_width_mm=width, strip_mm=strip)
    cloth = box(0, 0, width, strips.cloth_mm)
    along = strip * math.sqrt(2)
    for at in range(strips.number):
        start = at * along
        cut = Polygon(
            [(0, start), (width, start + width), (width, start + width + along), (0, start + along)]
        )
        assert cut.within(cloth.buffer(1e-6))
        assert LineString([(0, start), (width, start + width)]).length == pytest.approx(strips.each_mm)
        upright = affinity.rotate(cut, -45, origin=(0, 0))
        assert upright.bounds[3] - upright.bounds[1] == pytest.approx(strip)


def test_each_join_takes_its_seam_along_the_slanted_end():
    # By hand: ends at 45°, so a seam of 10 takes 10 × √2 of each end; three strips of 1000 have two joins.
    strips = bias_strips(2900, cloth_width_mm=1000 / math.sqrt(2), strip_mm=30, seam_mm=10)
    assert strips.number == 3
    assert strips.joined_mm == pytest.approx(3000 - 2 * 20 * math.sqrt(2))
    more = bias_strips(strips.joined_mm + 1, cloth_width_mm=1000 / math.sqrt(2), strip_mm=30, seam_mm=10)
    assert more.number == 4


def test_without_a_word_of_seams_there_are_none_and_a_square_is_of_whole_inches():
    # 100 × 100 ÷ 10 = 1000, and √(1000 × 10) = 100, in inches 4 of 25.4.
    assert continuous_length_mm(width_mm=100, length_mm=100, strip_mm=10) == pytest.approx(1000)
    assert square_for_mm(total_mm=1000, strip_mm=10) == pytest.approx(101.6)
    assert square_for_mm(total_mm=1000, strip_mm=10, step_mm=1) == pytest.approx(100)
    strips = bias_strips(2900, cloth_width_mm=1000 / math.sqrt(2), strip_mm=30)
    assert strips.joined_mm == pytest.approx(3000)


def test_what_the_seams_use_up_is_refused():
    with pytest.raises(Faults):
        continuous_length_mm(width_mm=10, length_mm=100, strip_mm=20, seam_mm=10)
    with pytest.raises(Faults):
        bias_strips(100, cloth_width_mm=20, strip_mm=20, seam_mm=10)
