"""Cubic curves. Oracles: svgpathtools 1.8 (an independent library), and values worked by hand."""

import math

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from svgpathtools import CubicBezier

from catalogue.tracing.calculation.curve import Cubic, smooth_tangent, through

coordinate = st.floats(-800, 800, allow_nan=False).map(lambda x: round(x, 3))
point = st.builds(complex, coordinate, coordinate)


@pytest.mark.parametrize(
    ("points", "length"),
    [
        # Quarter of a circle by the usual constant: 0.014 % over π/2, by Gauss's rule to 10 places.
        ((1, 1 + 0.5522847498j, 0.5522847498 + 1j, 1j), 1.5710166981),
        ((0, 100j, 100, 100 + 100j), 167.654262742),
        ((0, 10j, 10 + 10j, 10), 20.0),
        ((0, 20 + 60j, 80 + 100j, 100 + 200j), 225.2370712493),
        ((0, 1 + 1j, 2 + 2j, 3 + 3j), 3 * math.sqrt(2)),
        ((0, 0, 99, 0), 88.0),  # along a line and back: its farthest point, by calculus at t = 2/3, is 44
    ],
)
def test_curves_have_the_lengths_found_elsewhere(points, length):
    assert Cubic(*map(complex, points)).length() == pytest.approx(length, rel=1e-8)


@given(st.tuples(point, point, point, point))
def test_a_length_agrees_with_svgpathtools(points):
    theirs = CubicBezier(*points).length(error=1e-6, min_depth=7)
    assert Cubic(*points).length() == pytest.approx(theirs, abs=2e-3, rel=1e-6)


@given(st.tuples(point, point, point, point), st.floats(0.05, 0.95))
@example((0j, 0j, 99 + 0j, 0j), 0.66796875)  # split close by the turn
def test_the_parts_of_a_split_curve_are_the_curve(points, t):
    whole = Cubic(*points)
    first, second = whole.split(t)
    assert first.length() + second.length() == pytest.approx(whole.length(), abs=1e-3)
    assert abs(second.at(0.5) - whole.at(t + (1 - t) / 2)) < 1e-6


def test_a_curve_crosses_a_line_where_the_cubic_does():
    # x = 0 … 3 by thirds, y = 6t(1 − t)(1 − 2t): nought at 0, 1/2 and 1, worked by hand.
    wave = Cubic(0j, 1 + 2j, 2 - 2j, 3 + 0j)
    assert wave.crossings(-1 + 0j, 4 + 0j) == pytest.approx([0, 0.5, 1], abs=1e-9)
    assert wave.crossings(-1 + 5j, 4 + 5j) == []


def test_the_tangent_is_that_of_the_parabola_through_three_points():
    # y = x² by its length along chords has slope 2x only in the limit: near points, slope 2 at x = 1.
    tangent = smooth_tangent(0.999 + 0.998001j, 1 + 1j, 1.002 + 1.004004j)
    assert tangent.imag / tangent.real == pytest.approx(2, abs=1e-3)


def test_a_span_between_two_corners_is_straight():
    assert through(0j, None, 3 + 4j, None).length() == 5
