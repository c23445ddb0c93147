"""Chances of five regions, and what they are called."""

from itertools import pairwise
from statistics import NormalDist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.comparing.calculation.limits import Bounds
from fitting.comparing.calculation.verdict import Chances, Verdict, chances_of, verdict_of

BOUNDS = Bounds(fits_mm=12.7, add_mm=76.2, take_off_mm=76.2)
CHANCES = ("too_small", "add", "fits", "take_off", "too_large")
differences_mm = st.floats(-500, 500)
doubts_mm = st.one_of(st.just(0.0), st.floats(1e-3, 200))


def as_list(chances: Chances) -> list[float]:
    return [getattr(chances, name) for name in CHANCES]


def test_the_chance_of_conforming_is_that_of_the_published_example():
    # JCGM 106:2012, the Zener diode (from memory): y = −5.47 V, u = 0.05 V, upper limit −5.40 V: 0.92. That
    # limit is the upper edge of fitting here; the other edges are far away.
    far = Bounds(fits_mm=-5.40, add_mm=1000, take_off_mm=2000)
    chances = chances_of(-5.47, 0.05, far)
    assert chances.too_small + chances.add + chances.fits == pytest.approx(0.92, abs=0.005)


@given(differences_mm, st.floats(1e-3, 200))
def test_chances_are_differences_of_the_normal_distribution(difference_mm, u_mm):
    normal = NormalDist()
    edges = [(edge - difference_mm) / u_mm for edge in (-76.2, -12.7, 12.7, 76.2)]
    below = [0.0, *(normal.cdf(edge) for edge in edges), 1.0]
    expected = [high - low for low, high in pairwise(below)]
    assert as_list(chances_of(difference_mm, u_mm, BOUNDS)) == pytest.approx(expected, abs=1e-12)


@given(differences_mm, doubts_mm, st.booleans())
def test_chances_sum_to_one(difference_mm, u_mm, is_loose):
    chances = as_list(chances_of(difference_mm, u_mm, BOUNDS, is_loose=is_loose))
    assert sum(chances) == pytest.approx(1.0, abs=1e-12)
    assert min(chances) >= 0


@pytest.mark.parametrize(
    ("difference_in", "region"),
    # Without doubt: an edge belongs to the region nearer to fitting.
    [
        (-3.01, "too_small"),
        (-3, "add"),
        (-0.51, "add"),
        (-0.5, "fits"),
        (0, "fits"),
        (0.5, "fits"),
        (0.51, "take_off"),
        (3, "take_off"),
        (3.01, "too_large"),
    ],
)
def test_without_doubt_one_region_is_certain(difference_in, region):
    chances = chances_of(difference_in * 25.4, 0.0, BOUNDS)
    assert as_list(chances) == [float(name == region) for name in CHANCES]


@given(differences_mm, doubts_mm)
def test_a_loose_line_is_never_too_large(difference_mm, u_mm):
    loose = chances_of(difference_mm, u_mm, BOUNDS, is_loose=True)
    fitted = chances_of(difference_mm, u_mm, BOUNDS)
    assert (loose.take_off, loose.too_large) == (0, 0)
    assert (loose.too_small, loose.add) == (fitted.too_small, fitted.add)
    assert loose.fits == pytest.approx(fitted.fits + fitted.take_off + fitted.too_large)


@pytest.mark.parametrize(
    ("chances", "verdict"),
    [
        ((0.75, 0.25, 0, 0, 0), "too small"),
        ((0.25, 0.75, 0, 0, 0), "add"),
        ((0, 0.1, 0.8, 0.1, 0), "fits as drawn"),
        ((0, 0, 0.25, 0.75, 0), "take off"),
        ((0, 0, 0, 0.25, 0.75), "too large"),
        ((0, 0.3, 0.7, 0, 0), "within altering"),
        ((0.25, 0.7, 0.05, 0, 0), "within altering"),
        ((0.26, 0.7, 0.04, 0, 0), "too close to call"),
        ((0.749, 0.251, 0, 0, 0), "too close to call"),
    ],
)
def test_a_verdict_needs_three_chances_in_four(chances, verdict):
    named = Chances(**dict(zip(CHANCES, chances, strict=True)))
    assert verdict_of(named, "girth") == verdict


def test_a_length_that_is_short_is_lengthened_and_one_that_is_long_shortened():
    short = Chances(too_small=0, add=1, fits=0, take_off=0, too_large=0)
    long = Chances(too_small=0, add=0, fits=0, take_off=1, too_large=0)
    assert (verdict_of(short, "length"), verdict_of(long, "length")) == (Verdict.LENGTHEN, Verdict.SHORTEN)
    regions = [verdict.region for verdict in Chances.verdicts("length")]
    assert regions == ["too small", "lengthen", "fits", "shorten", "too large"]
