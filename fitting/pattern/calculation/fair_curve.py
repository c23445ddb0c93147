"""A fair line through given amounts: smooth, through every one, without a bump that nobody asked for.

Piecewise cubics whose slopes keep each stretch monotone: F. N. Fritsch and J. Butland, "A method for
constructing local monotone piecewise cubic interpolants", SIAM J. Sci. Stat. Comput. 5 (1984). Level at
both ends.
"""

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise


@dataclass(frozen=True, slots=True)
class FairCurve:
    """Amounts along a line. `places` rise; beyond the first and the last the amount stays as it is there."""

    places: tuple[float, ...]
    amounts: tuple[float, ...]
    slopes: tuple[float, ...]

    def at(self, place: float) -> float:
        """The amount there."""
        if place <= self.places[0] or len(self.places) == 1:
            return self.amounts[0]
        if place >= self.places[-1]:
            return self.amounts[-1]
        start = bisect_right(self.places, place) - 1
        length = self.places[start + 1] - self.places[start]
        part = (place - self.places[start]) / length
        (a, b), (m, n) = self.amounts[start : start + 2], self.slopes[start : start + 2]
        return (
            a * (1 + 2 * part) * (1 - part) ** 2
            + b * part**2 * (3 - 2 * part)
            + length * part * (1 - part) * (m * (1 - part) - n * part)
        )


def fair_curve(points: Iterable[tuple[float, float]]) -> FairCurve:
    """Through (place, amount) points in any order. Raises ValueError for none, or for a place twice."""
    places, amounts = zip(*sorted(points), strict=True)
    if any(a == b for a, b in pairwise(places)):
        raise ValueError("Each place has one amount.")
    steps = [(y - x, (b - a) / (y - x)) for (x, a), (y, b) in pairwise(zip(places, amounts, strict=True))]
    inner = [_slope(*one, *other) for one, other in pairwise(steps)]
    return FairCurve(places, amounts, (0.0, *inner, 0.0) if steps else (0.0,))


def _slope(length: float, rise: float, next_length: float, next_rise: float) -> float:
    """Between two stretches: level where the line turns, else their weighted harmonic mean."""
    if rise * next_rise <= 0:
        return 0.0
    weight, next_weight = length + 2 * next_length, 2 * length + next_length
    return (weight + next_weight) / (weight / rise + next_weight / next_rise)
