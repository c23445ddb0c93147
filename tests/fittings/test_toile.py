"""The maker's mean toile error, worked by hand."""

import pytest

from fitting.fittings.calculation import mean_error


def test_the_mean_is_measured_minus_forecast():
    # +4, −2, +7: mean 3; deviations 1, −5, 4; sum of squares 42; over 2 is 21.
    error = mean_error([(600, 604), (800, 798), (1000, 1007)])
    assert error.mean_mm == pytest.approx(3)
    assert error.spread_mm == pytest.approx(21**0.5)
    assert error.count == 3


def test_it_corrects_the_next_forecast_once_there_are_three():
    assert mean_error([(600, 604), (800, 798), (1000, 1007)]).corrects(700) == pytest.approx(703)


def test_two_say_too_little_to_correct_with():
    error = mean_error([(600, 610), (600, 610)])
    assert not error.is_enough
    assert error.corrects(700) == 700


def test_a_single_one_has_no_spread_and_none_has_no_error():
    assert mean_error([(600, 610)]).spread_mm is None
    assert mean_error([]) is None
