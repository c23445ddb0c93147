"""The outline of a traced piece: points in order round it, straight or curved sides, named edges.

Lengths are in the unit of the points; on a calibrated plate that is millimetres at full size.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from shapely import LineString, STRtree

from catalogue.lengths.calculation.errors import Fault
from catalogue.tracing.calculation.curve import Cubic, Point, chord, fine_enough, smooth_tangent, through
from catalogue.tracing.calculation.geometry import MOST_POINTS

FEWEST_POINTS = 3
FLAT_TO = 0.01  # chords this near to a curve stand for it where outlines are tested, never where measured


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """A traced point. `corner`: the line may turn here. `curved` is of the side that leaves it.

    `edge` is the name of the edge that starts here; an empty one goes on with the edge before. `handles` are
    those of the side that leaves it, where it was a part of another curve; most sides take theirs from the
    points beside them.
    """

    at: Point
    corner: bool = True
    curved: bool = False
    edge: str = ""
    handles: tuple[Point, Point] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """A named side of a piece, from one named point to the next."""

    name: str
    sides: tuple[Cubic, ...]

    @property
    def length(self) -> float:
        return sum(side.length() for side in self.sides)

    @property
    def start(self) -> Point:
        return self.sides[0].start

    @property
    def end(self) -> Point:
        return self.sides[-1].end


@dataclass(frozen=True, kw_only=True)
class Outline:
    """A closed outline; its last point is joined to its first."""

    nodes: tuple[Node, ...]

    @cached_property
    def sides(self) -> tuple[Cubic, ...]:
        """The side that leaves each point, in order."""
        tangents = [self._tangent(index) for index in range(len(self.nodes))]
        return tuple(
            _side(node, tangents[index], after.at, tangents[(index + 1) % len(self.nodes)])
            for index, (node, after) in enumerate(zip(self.nodes, self._turned(1), strict=True))
        )

    def _turned(self, by: int) -> tuple[Node, ...]:
        return self.nodes[by:] + self.nodes[:by]

    def _tangent(self, index: int) -> Point | None:
        """None at a corner, where nothing holds the line, and between two straight sides."""
        before, here = self.nodes[index - 1], self.nodes[index]
        after = self.nodes[(index + 1) % len(self.nodes)]
        if here.corner or not (before.curved or here.curved):
            return None
        if before.curved and here.curved:
            return smooth_tangent(before.at, here.at, after.at)
        # A curve that runs smoothly into a straight side takes up its direction.
        return chord(here.at, after.at) if before.curved else chord(before.at, here.at)

    @cached_property
    def perimeter(self) -> float:
        return sum(side.length() for side in self.sides)

    @cached_property
    def area(self) -> float:
        return abs(sum(side.swept_area() for side in self.sides))

    def edges(self) -> list[Edge]:
        """Its edges in order; where no point names one there is a single edge without a name."""
        starts = [index for index, node in enumerate(self.nodes) if node.edge]
        if not starts:
            return [Edge(name="", sides=self.sides)]
        round_again = self.sides + self.sides
        ends = [*starts[1:], starts[0] + len(self.nodes)]
        return [
            Edge(name=self.nodes[start].edge, sides=round_again[start:end])
            for start, end in zip(starts, ends, strict=True)
        ]

    @cached_property
    def turns(self) -> int:
        """1 where it runs clockwise on the page, else −1."""
        return 1 if sum(side.swept_area() for side in self.sides) > 0 else -1

    def flattened(self, tolerance: float = FLAT_TO) -> list[Point]:
        """Points round the outline, its first not said again at the end."""
        steps = fine_enough(self.sides, tolerance)
        return [point for side in self.sides for point in side.flattened(steps)]

    def contains(self, point: Point) -> bool:
        """Whether a point lies within, by the outline's chords."""
        inside = False
        flat = self.flattened()
        for a, b in zip(flat, flat[1:] + flat[:1], strict=True):
            if (a.imag <= point.imag) != (b.imag <= point.imag):
                share = (point.imag - a.imag) / (b.imag - a.imag)
                inside ^= a.real + share * (b.real - a.real) > point.real
        return inside

    def spans(self, start: Point, end: Point) -> list[tuple[Point, Point]]:
        """The parts of the line from start to end that lie within: one for most, more past a notch or a vent.

        An end that lies within the piece closes its span there.
        """
        along = end - start
        found = sorted(
            ((self.sides[index].at(t) - start) / along).real for index, t in self.crossings(start, end)
        )
        places = [place for place in found if 0 <= place <= 1]
        if sum(place < 0 for place in found) % 2:
            places.insert(0, 0.0)
        if len(places) % 2:
            places.append(1.0)
        return [
            (start + along * here, start + along * there)
            for here, there in zip(places[::2], places[1::2], strict=True)
        ]

    def crossings(self, start: Point, end: Point) -> Iterator[tuple[int, float]]:
        """Where it crosses the endless line through two points: which side, and how far along it (t)."""
        return crossings(self.sides, start, end)

    def faults(self, name: str) -> list[Fault]:
        """What keeps it from being measured, by its points as they are counted on the page, from 1."""
        if len(self.nodes) < FEWEST_POINTS:
            return [Fault(name, f"An outline has at least {FEWEST_POINTS} points.")]
        if len(self.nodes) > MOST_POINTS:
            return [Fault(name, f"An outline has at most {MOST_POINTS} points.")]
        twice = [
            Fault(name, f"Points {_number(index)} and {_number(index + 1, len(self.nodes))} are the same.")
            for index, (node, after) in enumerate(zip(self.nodes, self._turned(1), strict=True))
            if node.at == after.at
        ]
        return twice or [
            Fault(
                name,
                f"The outline crosses itself: the side from point {_number(a)} to"
                f" {_number(a + 1, len(self.nodes))} meets the side from point {_number(b)} to"
                f" {_number(b + 1, len(self.nodes))}.",
            )
            for a, b in self.self_crossings()
        ]

    def self_crossings(self) -> list[tuple[int, int]]:
        """The pairs of sides that meet elsewhere than at a point they share, by the index of their start."""
        steps = fine_enough(self.sides, FLAT_TO)
        chords = [
            (index, a, b)
            for index, side in enumerate(self.sides)
            for a, b in pairwise([side.start, *side.flattened(steps)])
        ]
        lines = [LineString([(a.real, a.imag), (b.real, b.imag)]) for _, a, b in chords]
        pairs = STRtree(lines).query(lines, predicate="intersects").T.tolist()
        apart = (
            tuple(sorted((chords[one][0], chords[other][0])))
            for one, other in pairs
            if one < other and not _are_neighbours(one, other, len(chords))
        )
        return sorted({(a, b) for a, b in apart})


def crossings(sides: Sequence[Cubic], start: Point, end: Point) -> Iterator[tuple[int, float]]:
    """Where a closed round of sides crosses the endless line: the side, and how far along it (t)."""
    along = end - start
    above = [((side.start - start) * along.conjugate()).imag <= 0 for side in sides]
    for index, side in enumerate(sides):
        found = side.crossings(start, end)
        changes_side = above[index] != above[(index + 1) % len(above)]
        # A line through a point meets two sides there, or by rounding none: the points decide.
        if len(found) % 2 != changes_side:
            if found:
                found.remove(min(found, key=lambda t: min(abs(t), abs(1 - t))))
            else:
                starts_nearer = abs(_off(side.start, start, along)) < abs(_off(side.end, start, along))
                found = [0.0 if starts_nearer else 1.0]
        for t in found:
            yield index, t


def _are_neighbours(one: int, other: int, count: int) -> bool:
    return other - one == 1 or other - one == count - 1


def _number(index: int, count: int | None = None) -> int:
    return (index if count is None else index % count) + 1


def _off(point: Point, start: Point, along: Point) -> float:
    return ((point - start) * along.conjugate()).imag


def _side(node: Node, tangent: Point | None, end: Point, end_tangent: Point | None) -> Cubic:
    if not node.curved:
        return Cubic.straight(node.at, end)
    return Cubic(node.at, *node.handles, end) if node.handles else through(node.at, tangent, end, end_tangent)
