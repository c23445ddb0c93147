"""A piece of a ring, as a circle skirt or one of its gores is: its arcs, and how it is drawn.

A gore that is as long at its sides as in its middle is a piece of a ring: its top and hem are arcs about the
point where its sides would meet, and its arcs are exactly as long as the waist and hem they are cut for.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from fitting.pattern.calculation.sums.declaration import Answer
from fitting.pattern.calculation.sums.sheet_answer import Point

_CHORD_MM = 0.1  # arcs are reckoned by chords this near to them
_ROUGH_MM = 0.5  # and drawn by chords this near


@dataclass(frozen=True, slots=True, kw_only=True)
class RingPiece:
    """Part of a ring: a circle skirt whole, or one gore. `turn` is its opening in radians."""

    inner_mm: float
    outer_mm: float
    turn: float

    @property
    def top_mm(self) -> float:
        """The upper arc: the share of the waist."""
        return self.turn * self.inner_mm

    @property
    def hem_mm(self) -> float:
        return self.turn * self.outer_mm

    @property
    def length_mm(self) -> float:
        return self.outer_mm - self.inner_mm

    @property
    def hem_curve_mm(self) -> float:
        """How far the middle of the hem lies below a straight line between its corners."""
        return self.outer_mm * (1 - math.cos(min(self.turn, 2 * math.pi) / 2))

    @property
    def top_curve_mm(self) -> float:
        """How far the middle of the top lies below a straight line between its corners."""
        return self.inner_mm * (1 - math.cos(min(self.turn, 2 * math.pi) / 2))

    def width_at_mm(self, below_top_mm: float) -> float:
        """The arc at a depth below the top."""
        return self.turn * (self.inner_mm + below_top_mm)

    def divided(self, pieces: int) -> "RingPiece":
        """One of several alike that are joined to this: a whole circle is cut in two at least."""
        return replace(self, turn=self.turn / pieces)

    def outline(self, *, straight_edge: bool = False) -> tuple[Point, ...]:
        """The edge, hem downwards, y along the grain; with a straight edge that edge lies on the grain."""
        middle = -math.pi / 2 + (self.turn / 2 if straight_edge else 0.0)
        top = _arc(self.inner_mm, middle - self.turn / 2, middle + self.turn / 2)
        hem = _arc(self.outer_mm, middle - self.turn / 2, middle + self.turn / 2)
        return (*hem, *reversed(top))


def ring_between(top_mm: float, hem_mm: float, length_mm: float) -> RingPiece:
    """The piece whose arcs are so long, its sides `length_mm` apart."""
    turn = (hem_mm - top_mm) / length_mm
    return RingPiece(inner_mm=top_mm / turn, outer_mm=top_mm / turn + length_mm, turn=turn)


def ring_told(ring: RingPiece) -> Answer:
    names = ("inner_mm", "outer_mm", "top_mm", "hem_mm", "length_mm", "top_curve_mm", "hem_curve_mm")
    return {name: getattr(ring, name) for name in names}


def down(points: Sequence[Point], right_mm: float = 0.0) -> tuple[Point, ...]:
    """Mirrored so that y runs downwards, thinned to what a drawing of this size can show."""
    # The models name what they keep by the table of sums: what only a drawing needs is loaded with one.
    from shapely import LinearRing

    line = LinearRing(points).simplify(_ROUGH_MM)
    return tuple((round(x + right_mm, 1), round(-y, 1)) for x, y in line.coords[:-1])


def _arc(radius: float, start: float, end: float) -> list[Point]:
    """Counter-clockwise, the chords nowhere farther from the arc than `_CHORD_MM`."""
    step = 2 * math.acos(max(0.0, 1 - _CHORD_MM / radius)) if radius else math.pi
    count = max(1, math.ceil((end - start) / step))
    angles = (start + (end - start) * at / count for at in range(count + 1))
    return [(radius * math.cos(angle), radius * math.sin(angle)) for angle in angles]
