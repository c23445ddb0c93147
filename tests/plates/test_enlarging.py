"""Enlarging on a copier: passes multiply, and a bar is measured after each."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.plates.calculation.enlarging import (
    copier_passes,
    enlarging_percent,
    next_percent,
    projector_distance_mm,
)


def test_a_plate_at_one_to_eight_is_enlarged_to_800_percent():
    assert enlarging_percent(8) == 800


def test_a_copy_already_twice_the_print_needs_half_as_much():
    # The bar is 20 mm in the book and 40 mm on the copy that lies on the glass.
    assert enlarging_percent(8, print_mm=20, original_mm=40) == 400


def test_800_percent_on_a_copier_that_reaches_200_is_three_passes_of_200():
    passes = copier_passes(800, bar_mm=25.4, most_percent=200)
    assert [one.percent for one in passes] == [200, 200, 200]
    assert [one.bar_mm for one in passes] == pytest.approx([50.8, 101.6, 203.2])


def test_800_percent_on_a_copier_that_reaches_400_is_two_passes_alike():
    # √8 = 2.828: 283 %, and 800/2.83 = 282.7 % after it.
    first, second = copier_passes(800, bar_mm=10, most_percent=400)
    assert (first.percent, second.percent) == (283, pytest.approx(282.685, abs=1e-3))
    assert second.bar_mm == pytest.approx(80)


def test_what_a_copier_can_do_at_once_is_one_pass():
    (only,) = copier_passes(141.4, bar_mm=10, most_percent=200)
    assert only.percent == pytest.approx(141.4)


@given(st.floats(100, 5000), st.sampled_from([141, 200, 400]))
def test_passes_multiply_to_the_whole(percent, most_percent):
    passes = copier_passes(percent, bar_mm=10, most_percent=most_percent)
    assert math.prod(one.percent / 100 for one in passes) == pytest.approx(percent / 100)
    assert all(one.percent <= most_percent + 1e-6 for one in passes)


def test_a_copier_that_cannot_enlarge_is_refused():
    with pytest.raises(ValueError, match="cannot enlarge"):
        copier_passes(800, bar_mm=10, most_percent=100)


def test_the_next_pass_makes_up_for_the_last():
    # After two passes the bar should be 101.6 mm and is 100: 203.2 % is set in place of 200.
    assert next_percent(measured_mm=100, wanted_mm=203.2) == pytest.approx(203.2)


def test_a_projector_is_moved_until_the_bar_is_right():
    assert projector_distance_mm(3000, measured_mm=190, wanted_mm=203.2) == pytest.approx(3208.42, abs=0.01)
