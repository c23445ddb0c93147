"""Where cloth is folded away: between the legs of a dart, straight or bowed, or the two lines of a pleat.

A dart may be a mark on the piece, or a slit in its outline, which runs in to the point and back out.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from catalogue.tracing.calculation.curve import Cubic, Point
from catalogue.tracing.calculation.outline import Node, Outline

Span: TypeAlias = tuple[Point, Point]
Line: TypeAlias = tuple[Cubic, ...]

# What a slit in an outline must be to be known as a dart. Common practice, no source: darts are longer than
# they are wide, come to a sharp point, and have legs that are sewn together, so as long as each other.
SHORTEST_MM = 19.0
WIDEST_MOUTH = 0.75  # of its depth
BLUNTEST_POINT = math.radians(60)
LEAST_TURN = math.radians(20)  # of the outline at a foot
LEGS_ALIKE = 0.85  # the shorter leg of the longer
_ON_THE_LINE_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Fold:
    """Two lines that are brought together, and what lies between them is folded away."""

    one: Line
    other: Line

    def span(self, start: Point, end: Point) -> Span | None:
        """What is folded away of a line from start to end; None where it does not meet both lines."""
        here, there = _meeting(self.one, start, end), _meeting(self.other, start, end)
        return None if here is None or there is None else (here, there)

    def taken_up(self, path: Sequence[Point]) -> float:
        """How much it takes out of a line of several parts; nothing where that does not meet both."""
        here, there = _met_at(self.one, path), _met_at(self.other, path)
        return 0.0 if here is None or there is None else abs(there - here)


def lines_of(kind: str, points: Sequence[Point], *, is_straight: bool = False) -> tuple[Line, ...]:
    """What is drawn of a mark: each leg of a dart, each fold of a pleat; else one line through its points.

    The legs of a dart bow as the sides of an outline do, with corners at its feet and its points; or they run
    straight from point to point.
    """
    if kind == "pleat":
        return (_straight(points[:2]), _straight(points[2:]))
    if kind != "dart":
        return (_straight(points),)
    count = 2 if len(points) % 2 else 4
    leg = len(points) // count
    nodes = tuple(
        Node(at=at, corner=is_straight or number % leg == 0, curved=not is_straight)
        for number, at in enumerate(points)
    )
    sides = Outline(nodes=nodes).sides
    return tuple(sides[number * leg : (number + 1) * leg] for number in range(count))


def _straight(points: Sequence[Point]) -> Line:
    return tuple(Cubic.straight(start, end) for start, end in pairwise(points))


def folds_of(kind: str, points: Sequence[Point], *, is_straight: bool = False) -> tuple[Fold, ...]:
    """The folds of a mark: those of a dart or pleat, none of any other."""
    if kind not in ("dart", "pleat"):
        return ()
    lines = lines_of(kind, points, is_straight=is_straight)
    if kind == "pleat":
        return (Fold(one=lines[0], other=lines[1]),)
    # Each leg from its foot to its point, so that a level through the widest place meets two of four.
    legs = [_turned(line) if number % 2 else line for number, line in enumerate(lines)]
    return tuple(Fold(one=one, other=other) for one, other in zip(legs[::2], legs[1::2], strict=True))


def slits_in(outline: Outline) -> list[Fold]:
    """Darts that were traced as slits, each leg from its foot to the point."""
    return list(_slits(outline)) if len(outline.nodes) > 4 else []


def _slits(outline: Outline) -> Iterator[Fold]:
    turns = [_turn(outline, index) for index in range(len(outline.nodes))]
    for index, node in enumerate(outline.nodes):
        if not node.corner or turns[index] > BLUNTEST_POINT - math.pi:
            continue
        before, after = _foot(outline.nodes, turns, index, -1), _foot(outline.nodes, turns, index, 1)
        if before is None or after is None:
            continue
        count = len(outline.nodes)
        one = tuple(outline.sides[at % count] for at in range(index - before, index))
        other = _turned(tuple(outline.sides[at % count] for at in range(index, index + after)))
        if _is_dart(one, other):
            yield Fold(one=one, other=other)


def _foot(nodes: Sequence[Node], turns: Sequence[float], point: int, step: int) -> int | None:
    """How many points away the outline turns out again: where the leg has its foot. None: it never does."""
    for away in range(1, len(nodes) // 2 + 1):
        at = (point + step * away) % len(nodes)
        if nodes[at].corner and turns[at] > LEAST_TURN:
            return away
    return None


def _is_dart(one: Line, other: Line) -> bool:
    point, mouth = one[-1].end, abs(one[0].start - other[0].start)
    depth = abs(point - (one[0].start + other[0].start) / 2)
    shorter, longer = sorted(sum(side.length() for side in leg) for leg in (one, other))
    return depth >= SHORTEST_MM and mouth <= WIDEST_MOUTH * depth and shorter >= LEGS_ALIKE * longer


def _turn(outline: Outline, index: int) -> float:
    """How far the outline turns at a point: towards its inside more than nothing, into the piece less."""
    coming, leaving = outline.sides[index - 1], outline.sides[index]
    arrives = coming.end - (coming.handle_b if coming.handle_b != coming.end else coming.start)
    leaves = (leaving.handle_a if leaving.handle_a != leaving.start else leaving.end) - leaving.start
    turned = arrives.conjugate() * leaves
    return outline.turns * math.atan2(turned.imag, turned.real)


def _turned(line: Line) -> Line:
    return tuple(Cubic(side.end, side.handle_b, side.handle_a, side.start) for side in reversed(line))


def _met_at(line: Line, path: Sequence[Point]) -> float | None:
    """How far along a line of several parts a drawn line first meets it."""
    gone = 0.0
    for start, end in pairwise(path):
        # A little over both ends: a part may begin on the very line that it meets.
        slack = (end - start) * _ON_THE_LINE_MM / (abs(end - start) or 1.0)
        if (meeting := _meeting(line, start - slack, end + slack)) is not None:
            return gone + abs(meeting - start)
        gone += abs(end - start)
    return None


def _meeting(line: Line, start: Point, end: Point) -> Point | None:
    """Where a drawn line first meets the level; None where it does not reach."""
    along = end - start
    for side in line:
        here, there = (((at - start) * along.conjugate()).imag for at in (side.start, side.end))
        # Half open: a level through the widest point of a dart meets its upper legs or its lower, not both.
        if (here <= 0) == (there <= 0):
            continue
        found = side.crossings(start, end)
        nearer_end = 0.0 if abs(here) < abs(there) else 1.0
        meeting = side.at(found[0] if found else nearer_end)
        return meeting if 0 <= ((meeting - start) / along).real <= 1 else None
    return None
