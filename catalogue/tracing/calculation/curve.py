"""Cubic curves and the smooth line through traced points. A point is a complex number: x across, y down.

A traced curve has no handles to set. Its tangent at a point is that of the parabola through the point and its
two neighbours, so a short span beside a long one does not bulge; the pages draw it by the same rule.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import TypeAlias

import numpy as np

Point: TypeAlias = complex

# Gauss-Legendre nodes and weights for 16 points on −1 … 1 (Abramowitz and Stegun, table 25.4).
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(16)
_DEEPEST = 12
# Nearer to a line than this, in mm, a curve is taken to run along it.
_OFF_THE_LINE = 1e-6


@dataclass(frozen=True, slots=True)
class Cubic:
    """A cubic Bézier curve from `start` to `end`; a straight line is one whose handles lie on it."""

    start: Point
    handle_a: Point
    handle_b: Point
    end: Point

    @classmethod
    def straight(cls, start: Point, end: Point) -> "Cubic":
        return cls(start, start + (end - start) / 3, end - (end - start) / 3, end)

    @property
    def is_straight(self) -> bool:
        """Whether its handles lie where a straight line has them."""
        straight = Cubic.straight(self.start, self.end)
        slack = 1e-9 * (abs(self.end - self.start) + 1e-9)
        return abs(self.handle_a - straight.handle_a) + abs(self.handle_b - straight.handle_b) <= slack

    def at(self, t: float) -> Point:
        s = 1 - t
        return (
            s**3 * self.start
            + 3 * s * s * t * self.handle_a
            + 3 * s * t * t * self.handle_b
            + t**3 * self.end
        )

    def length(self, tolerance: float = 1e-6) -> float:
        """Arc length by Gauss's rule, halved until halves agree with the whole to `tolerance`."""
        if self.is_straight:
            return abs(self.end - self.start)
        return _curved_length(self, tolerance)

    def _along_a_line(self) -> tuple[float, float, float, float] | None:
        """How far each point lies along the line that all four lie on; None where they do not."""
        ways = [p - self.start for p in (self.start, self.handle_a, self.handle_b, self.end)]
        far = max(ways, key=abs)
        if abs(far) == 0 or max(abs(_cross(far, way)) for way in ways) > _OFF_THE_LINE * abs(far):
            return None
        p0, p1, p2, p3 = ((way * far.conjugate()).real / abs(far) for way in ways)
        return p0, p1, p2, p3

    def _length(self, whole: float, tolerance: float, depth: int) -> float:
        first, second = self.split(0.5)
        a, b = first._gauss(), second._gauss()
        if depth == 0 or abs(a + b - whole) <= tolerance:
            return a + b
        return first._length(a, tolerance / 2, depth - 1) + second._length(b, tolerance / 2, depth - 1)

    def _gauss(self) -> float:
        t = (_NODES + 1) / 2
        s = 1 - t
        slope = 3 * (
            s * s * (self.handle_a - self.start)
            + 2 * s * t * (self.handle_b - self.handle_a)
            + t * t * (self.end - self.handle_b)
        )
        return float(np.sum(_WEIGHTS * np.abs(slope)) / 2)

    def t_at(self, length: float) -> float:
        """Where on the curve (t) a length from its start reaches."""
        if self.is_straight:
            return min(1.0, length / self.length())
        low, high = 0.0, 1.0
        for _ in range(50):
            middle = (low + high) / 2
            low, high = (middle, high) if self.split(middle)[0].length() < length else (low, middle)
        return low

    def split(self, t: float) -> tuple["Cubic", "Cubic"]:
        """The two parts before and after t, each the very same curve (de Casteljau)."""
        ab, bc, cd = (
            a + (b - a) * t
            for a, b in (
                (self.start, self.handle_a),
                (self.handle_a, self.handle_b),
                (self.handle_b, self.end),
            )
        )
        abc, bcd = ab + (bc - ab) * t, bc + (cd - bc) * t
        middle = abc + (bcd - abc) * t
        return Cubic(self.start, ab, abc, middle), Cubic(middle, bcd, cd, self.end)

    def swept_area(self) -> float:
        """½∫(x dy − y dx): summed round a closed outline it is the area, clockwise on the page positive."""
        p0, p1, p2, p3 = self.start, self.handle_a, self.handle_b, self.end
        doubled = 6 * _cross(p0, p1) + 3 * _cross(p0, p2) + _cross(p0, p3)
        return (doubled + 3 * _cross(p1, p2) + 3 * _cross(p1, p3) + 6 * _cross(p2, p3)) / 20

    def flattened(self, steps: int) -> list[Point]:
        """Points along the curve, without its start; a straight line needs its end alone."""
        if self.is_straight:
            return [self.end]
        return [self.at(step / steps) for step in range(1, steps + 1)]

    def crossings(self, line_start: Point, line_end: Point) -> list[float]:
        """Where on the curve (t from 0 to 1, ascending) it crosses the endless line through two points."""
        along = line_end - line_start
        p0, p1, p2, p3 = (
            _cross(along, p - line_start) for p in (self.start, self.handle_a, self.handle_b, self.end)
        )
        if self.is_straight:
            return [p0 / (p0 - p3)] if (p0 < 0) != (p3 < 0) else []
        if min(p0, p1, p2, p3) > 0 or max(p0, p1, p2, p3) < 0:
            return []  # A curve lies within the hull of its handles: most sides are far from the line.
        roots = np.roots([p3 - 3 * p2 + 3 * p1 - p0, 3 * (p2 - 2 * p1 + p0), 3 * (p1 - p0), p0])
        real = [float(root.real) for root in roots if abs(root.imag) < 1e-7 * max(1.0, abs(root))]
        return sorted(t for t in real if -1e-7 <= t <= 1 + 1e-7)


@lru_cache(maxsize=8192)
def _curved_length(curve: Cubic, tolerance: float) -> float:
    """Remembered: one side is asked for its length many times while a piece is changed and measured."""
    if (along := curve._along_a_line()) is not None:
        return _length_to_and_fro(*along)
    return curve._length(curve._gauss(), tolerance, _DEEPEST)


def smooth_tangent(before: Point, here: Point, after: Point) -> Point:
    """The tangent of the parabola through three points at the middle one, at unit speed along chords."""
    first, second = abs(here - before), abs(after - here)
    if not first or not second:
        return chord(before, after)
    share = second / (first + second)
    return share * chord(before, here) + (1 - share) * chord(here, after)


def chord(start: Point, end: Point) -> Point:
    """The direction from one point to another, of length 1; 0 where they are the same."""
    return (end - start) / abs(end - start) if end != start else 0j


def through(start: Point, start_tangent: Point | None, end: Point, end_tangent: Point | None) -> Cubic:
    """One span of a smooth line. An end without a tangent is free: it bends as the other end does."""
    straight = chord(start, end)
    if start_tangent is None and end_tangent is None:
        return Cubic.straight(start, end)
    leaving = (
        2 * straight - end_tangent if start_tangent is None and end_tangent is not None else start_tangent
    )
    arriving = (
        2 * straight - start_tangent if end_tangent is None and start_tangent is not None else end_tangent
    )
    third = abs(end - start) / 3
    return Cubic(start, start + (leaving or 0) * third, end - (arriving or 0) * third, end)


def fine_enough(cubics: Sequence[Cubic], tolerance: float) -> int:
    """How many chords for each cubic keep within `tolerance` of it, by the bound on the second difference."""
    bend = max(
        (
            max(abs(c.start - 2 * c.handle_a + c.handle_b), abs(c.handle_a - 2 * c.handle_b + c.end))
            for c in cubics
        ),
        default=0.0,
    )
    return max(4, math.ceil(math.sqrt(0.75 * bend / tolerance)))


def _cross(a: Point, b: Point) -> float:
    return a.real * b.imag - a.imag * b.real


def _length_to_and_fro(p0: float, p1: float, p2: float, p3: float) -> float:
    """The way along a line, summed between its turns.

    Where a curve doubles back its speed has a kink, and Gauss's rule, halved however often, can miss it.
    """
    a, b, c = p1 - p0, p2 - p1, p3 - p2
    turns = [
        t.real for t in np.roots([a - 2 * b + c, 2 * (b - a), a]) if abs(t.imag) < 1e-12 and 0 < t.real < 1
    ]
    stops = [
        (1 - t) ** 3 * p0 + 3 * t * (1 - t) ** 2 * p1 + 3 * t * t * (1 - t) * p2 + t**3 * p3
        for t in (0.0, *sorted(turns), 1.0)
    ]
    return float(sum(abs(later - earlier) for earlier, later in pairwise(stops)))
