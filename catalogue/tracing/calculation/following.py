"""Points whose smooth line follows curves that were drawn elsewhere.

A traced curve has no handles: its course comes from its points. Curves with handles are therefore halved, and
a point put at each half, until the line through the points keeps within `NEAR_MM` of them.
"""

from collections.abc import Collection, Sequence

import numpy as np

from catalogue.tracing.calculation.curve import Cubic, Point, chord
from catalogue.tracing.calculation.geometry import MOST_POINTS
from catalogue.tracing.calculation.outline import Node, Outline

NEAR_MM = 0.02  # a fine pen draws twenty times as wide
SAME_MM = 0.001  # points nearer than this are one
_STRAIGHT_MM = 1e-6  # a curve nearer to its chord than this is straight
SMOOTH_DEG = 1.0  # where a line turns by less it goes on smoothly
_PLACES = np.linspace(0, 1, 11)[1:-1]


class TooManyPoints(ValueError):
    """An outline that no `MOST_POINTS` points follow closely enough."""


def follow(sides: Sequence[Cubic], corners: Collection[int] | None = None) -> tuple[Node, ...]:
    """Points round a closed line of curves, each side beginning where the one before it ends.

    `corners`: which sides begin at a corner; where none are given, those where the line turns.
    Raises TooManyPoints.
    """
    sides = _joined(sides)
    marked = [_turns(sides, at) if corners is None else at in corners for at in range(len(sides))]
    curved = [_bow(side) > SAME_MM for side in sides]
    while len(sides) <= MOST_POINTS:
        nodes = tuple(
            Node(at=side.start, corner=corner, curved=bent)
            for side, corner, bent in zip(sides, marked, curved, strict=True)
        )
        strays = [
            bent and _apart(mine, side) > NEAR_MM
            for mine, side, bent in zip(Outline(nodes=nodes).sides, sides, curved, strict=True)
        ]
        if not any(strays):
            return nodes
        sides, marked, curved = _halved(sides, marked, curved, strays)
    raise TooManyPoints


def as_drawn(sides: Sequence[Cubic], corners: Collection[int] | None = None) -> tuple[Node, ...]:
    """Points round the same line with the very handles of its curves. `corners` as for `follow`."""
    sides = _joined(sides)
    return tuple(
        Node(
            at=side.start,
            corner=_turns(sides, at) if corners is None else at in corners,
            curved=_bow(side) > _STRAIGHT_MM,
            handles=(side.handle_a, side.handle_b) if _bow(side) > _STRAIGHT_MM else None,
        )
        for at, side in enumerate(sides)
    )


def _joined(sides: Sequence[Cubic]) -> list[Cubic]:
    """Without sides of no length; a gap left by rounding is closed."""
    kept = [side for side in sides if max(abs(p - side.start) for p in _points(side)[1:]) > SAME_MM]
    return [
        Cubic(side.start, side.handle_a, side.handle_b, after.start)
        for side, after in zip(kept, kept[1:] + kept[:1], strict=True)
    ]


def _halved(
    sides: Sequence[Cubic], marked: Sequence[bool], curved: Sequence[bool], strays: Sequence[bool]
) -> tuple[list[Cubic], list[bool], list[bool]]:
    new: list[tuple[Cubic, bool, bool]] = []
    for side, corner, bent, stray in zip(sides, marked, curved, strays, strict=True):
        if stray:
            first, second = side.split(0.5)
            new += [(first, corner, True), (second, False, True)]
        else:
            new.append((side, corner, bent))
    return [row[0] for row in new], [row[1] for row in new], [row[2] for row in new]


def _turns(sides: Sequence[Cubic], at: int) -> bool:
    arriving, leaving = _direction(_points(sides[at - 1])[::-1]), _direction(_points(sides[at]))
    turn = abs(np.angle(-leaving / arriving, deg=True)) if arriving and leaving else 180.0
    return bool(turn > SMOOTH_DEG)


def _direction(points: Sequence[Point]) -> Point:
    """Where a curve heads from its first point: handles may lie on it."""
    return next((chord(points[0], p) for p in points[1:] if abs(p - points[0]) > SAME_MM / 10), 0j)


def _bow(side: Cubic) -> float:
    """How far its handles lie from the straight line between its ends."""
    along = chord(side.start, side.end)
    if not along:
        return abs(side.handle_a - side.start) + abs(side.handle_b - side.start)
    off = [(handle - side.start) * along.conjugate() for handle in (side.handle_a, side.handle_b)]
    beyond = max(max(-way.real, way.real - abs(side.end - side.start), 0.0) for way in off)
    return max(beyond, *(abs(way.imag) for way in off))


def _apart(mine: Cubic, theirs: Cubic) -> float:
    """How far one curve runs beside another between the same ends."""
    t = _PLACES
    s = 1 - t
    a, b = mine.handle_a - theirs.handle_a, mine.handle_b - theirs.handle_b
    between = 3 * s * s * t * a + 3 * s * t * t * b
    p0, p1, p2, p3 = _points(theirs)
    slope = s * s * (p1 - p0) + 2 * s * t * (p2 - p1) + t * t * (p3 - p2)
    speed = np.abs(slope)
    # A point may lie further along the same curve: only what lies across it counts. Where the curve stands
    # still there is no across.
    across = np.abs((between * slope.conjugate()).imag) / np.maximum(speed, 1e-12)
    return float(np.max(np.where(speed > 1e-9, across, np.abs(between))))


def _points(side: Cubic) -> tuple[Point, Point, Point, Point]:
    return side.start, side.handle_a, side.handle_b, side.end
