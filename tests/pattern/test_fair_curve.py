"""The fair line: scipy's monotone cubic as the oracle, and what a maker would call fair."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import CubicHermiteSpline, PchipInterpolator

from fitting.pattern.calculation.fair_curve import fair_curve

POINTS = st.lists(
    st.tuples(st.integers(0, 1000), st.integers(-50, 50)), min_size=2, max_size=9, unique_by=lambda p: p[0]
)


@given(POINTS)
def test_it_runs_as_scipys_monotone_cubic_does_but_level_at_its_ends(points):
    line = fair_curve(points)
    slopes = PchipInterpolator(line.places, line.amounts).derivative()(line.places)
    slopes[0] = slopes[-1] = 0
    oracle = CubicHermiteSpline(line.places, line.amounts, slopes)
    for place in np.linspace(line.places[0], line.places[-1], 50):
        assert line.at(place) == pytest.approx(float(oracle(place)), abs=1e-9)


@given(POINTS)
def test_it_goes_through_every_point_and_never_beyond_its_neighbours(points):
    line = fair_curve(points)
    assert [line.at(place) for place in line.places] == pytest.approx(list(line.amounts))
    for start, end, low, high in zip(
        line.places, line.places[1:], line.amounts, line.amounts[1:], strict=False
    ):
        between = [line.at(start + (end - start) * part / 10) for part in range(11)]
        assert min(between) >= min(low, high) - 1e-9
        assert max(between) <= max(low, high) + 1e-9


def test_beyond_its_ends_it_stays_as_it_is_there():
    line = fair_curve([(100, 5), (0, 3)])
    assert (line.at(-50), line.at(150)) == (3, 5)
    assert fair_curve([(7, 2)]).at(99) == 2


def test_a_place_has_one_amount():
    with pytest.raises(ValueError, match="one amount"):
        fair_curve([(1, 2), (1, 3)])
