"""How far two drawn lines lie apart at most, and where.

From every point of either line there is a nearest point of the other; the gap is the largest of these
distances (Hausdorff's distance). It is searched for on chords, halved wherever one may still hold more.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from shapely import STRtree, linestrings, points

from catalogue.tracing.calculation.curve import Cubic, Point, fine_enough

# Chords this near to a curve stand for it, and the search ends this near to the largest: together 0.01 mm.
_CHORDS_TO_MM, _SEARCH_TO_MM = 0.002, 0.005

Points = NDArray[np.complex128]
Numbers = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """`mm` wide, to 0.01 mm, from a point of the first line to one of the second."""

    mm: float
    first: Point
    second: Point


def largest_gap(first: Sequence[Cubic], second: Sequence[Cubic]) -> Gap:
    """The largest gap between two lines, each of one side or more."""
    one, other = _Chords.of(first), _Chords.of(second)
    mm, at, nearest = _farthest(one, other)
    back_mm, back_at, back_nearest = _farthest(other, one)
    if back_mm > mm:
        return Gap(mm=back_mm, first=back_nearest, second=back_at)
    return Gap(mm=mm, first=at, second=nearest)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Chords:
    starts: Points
    ends: Points
    tree: STRtree

    @classmethod
    def of(cls, sides: Sequence[Cubic]) -> "_Chords":
        starts, ends = [], []
        for side in sides:
            flat = side.flattened(fine_enough([side], _CHORDS_TO_MM))
            starts += [side.start, *flat[:-1]]
            ends += flat
        a, b = np.array(starts, dtype=complex), np.array(ends, dtype=complex)
        lines = linestrings(np.stack([np.stack([a.real, b.real], 1), np.stack([a.imag, b.imag], 1)], 2))
        return cls(starts=a, ends=b, tree=STRtree(lines))

    def nearest(self, places: Points) -> NDArray[np.intp]:
        """For each place the chord that lies nearest."""
        found = self.tree.query_nearest(points(places.real, places.imag), all_matches=False)
        return np.asarray(found[1], dtype=np.intp)

    def foot(self, places: Points, chord: NDArray[np.intp]) -> Points:
        """For each place the nearest point of one chord."""
        start = self.starts[chord]
        along = self.ends[chord] - start
        square = np.maximum(np.abs(along) ** 2, np.finfo(float).tiny)
        share = np.clip(((places - start) * along.conj()).real / square, 0, 1)
        return np.asarray(start + share * along, dtype=np.complex128)


def _farthest(line: _Chords, other: _Chords) -> tuple[float, Point, Point]:
    """The place on a line that is farthest from the other: how far, where, and the point nearest to it."""
    starts, ends = line.starts, line.ends
    best, at, nearest = -1.0, 0j, 0j
    while len(starts):
        near_start, near_end = other.nearest(starts), other.nearest(ends)
        for places, chord in ((starts, near_start), (ends, near_end)):
            feet = other.foot(places, chord)
            far = np.abs(places - feet)
            if (most := int(far.argmax())) >= 0 and far[most] > best:
                best, at, nearest = float(far[most]), complex(places[most]), complex(feet[most])
        # The distance to a straight chord is convex: on the way from start to end no point is farther from
        # it than the farther end, and so none is farther from the whole line.
        bound = np.minimum(
            _farther_end(starts, ends, other, near_start), _farther_end(starts, ends, other, near_end)
        )
        open_still = bound > best + _SEARCH_TO_MM
        starts, ends = starts[open_still], ends[open_still]
        middles = (starts + ends) / 2
        starts, ends = np.concatenate([starts, middles]), np.concatenate([middles, ends])
    return best, at, nearest


def _farther_end(starts: Points, ends: Points, other: _Chords, chord: NDArray[np.intp]) -> Numbers:
    return np.maximum(np.abs(starts - other.foot(starts, chord)), np.abs(ends - other.foot(ends, chord)))
