"""Pieces laid over each other: each turned upright, then shifted so that a chosen point lies at 0.

Points are millimetres at full size, x across and y down. A piece is moved as a whole and never stretched.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.outline import Edge, Outline
from catalogue.tracing.calculation.tracing import LevelLine, TracedShape

# What stands upright, in the order it is looked for where the piece lacks what was asked for.
UPRIGHT = {"grain": "its grain line", "centre": "its fold or centre line", "drawn": "nothing: as drawn"}
CENTRES = ("centre front", "centre back")
# Which way a piece lies, once upright: a left and a right are laid over each other by mirroring one.
LIES = {
    "": "as drawn",
    "mirrored": "mirrored",
    "turned": "turned end for end",
    "both": "mirrored and turned end for end",
}
ON_LEVEL_MM = 2.0  # an edge that is drawn to end at a level is traced to end this near to it
# Points that a fitter holds a front or a back by. Common practice, no source.
HELD_BY = (
    *("centre front at the waist", "centre back at the waist"),
    *("centre front and neck", "centre back and neck"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """Mirrored left to right or not, turned by a number of size 1, then shifted."""

    is_mirrored: bool = False
    turn: Point = 1 + 0j
    shift: Point = 0j

    def place(self, point: Point) -> Point:
        return (-point.conjugate() if self.is_mirrored else point) * self.turn + self.shift

    def outline(self, outline: Outline) -> Outline:
        return Outline(nodes=tuple(replace(node, at=self.place(node.at)) for node in outline.nodes))

    def shape(self, shape: TracedShape) -> TracedShape:
        marks = (replace(mark, points=tuple(map(self.place, mark.points))) for mark in shape.marks)
        return replace(shape, outline=self.outline(shape.outline), marks=tuple(marks))

    def level(self, level: LevelLine) -> LevelLine:
        return replace(level, start=self.place(level.start), end=self.place(level.end))


@dataclass(frozen=True, slots=True, kw_only=True)
class UprightLine:
    """The line of a piece that stands upright: `name` says which, and it is `length_mm` long."""

    name: str
    way: Point
    length_mm: float


def upright_line(shape: TracedShape, wanted: str) -> UprightLine | None:
    """The line asked for, one of UPRIGHT, else the other that the piece has; None to leave it as drawn."""
    ways: dict[str, Callable[[TracedShape], UprightLine | None]] = {"grain": _grain, "centre": _centre}
    if wanted not in ways:
        return None
    first = ways.pop(wanted)
    return first(shape) or next(iter(ways.values()))(shape)


def _grain(shape: TracedShape) -> UprightLine | None:
    return _marked(shape, "grain", "grain line")


def _centre(shape: TracedShape) -> UprightLine | None:
    if fold := _marked(shape, "fold", "fold"):
        return fold
    for edge in shape.outline.edges():
        if edge.name.casefold() in CENTRES and (found := _line(edge.name, edge.start, edge.end)):
            return found
    return None


def _marked(shape: TracedShape, kind: str, name: str) -> UprightLine | None:
    drawn = next((mark for mark in shape.marks if mark.kind == kind), None)
    return _line(name, drawn.points[0], drawn.points[-1]) if drawn else None


def _line(name: str, start: Point, end: Point) -> UprightLine | None:
    return UprightLine(name=name, way=chord(start, end), length_mm=abs(end - start)) if start != end else None


def standing(line: UprightLine | None, lie: str) -> Motion:
    """The motion that stands a line upright, the shorter way round, and then lays the piece as asked."""
    is_mirrored = lie in ("mirrored", "both")
    turn = 1 + 0j
    if line:
        turn = 1j / (-line.way.conjugate() if is_mirrored else line.way)
        turn = turn if turn.real >= 0 else -turn
    return Motion(is_mirrored=is_mirrored, turn=-turn if lie in ("turned", "both") else turn)


def held_points(shape: TracedShape, levels: Sequence[LevelLine]) -> dict[str, Point]:
    """The points that an upright piece can be laid by, each named so that another piece has it too."""
    found: dict[str, Point] = {}
    for name, at in (
        *_meetings(shape.outline.edges()),
        *_at_levels(shape, levels),
        *_grain_ends(shape),
        *_box(shape.outline),
    ):
        found.setdefault(name, at)
    return {name: found[name] for name in (*(one for one in HELD_BY if one in found), *found)}


def shared_point(points: Sequence[Mapping[str, Point]]) -> str:
    """The first name of a point that all pieces have. The corners of their boxes they always have."""
    return next(name for name in points[0] if all(name in others for others in points))


def _at_levels(shape: TracedShape, levels: Sequence[LevelLine]) -> Iterator[tuple[str, Point]]:
    """Where a level line meets an edge in one place: it crosses the edge, or the edge ends on it."""
    for level in levels:
        along = level.end - level.start
        for edge in shape.outline.edges():
            met = [side.at(t) for side in edge.sides for t in side.crossings(level.start, level.end)]
            for end in (edge.start, edge.end):
                if abs(((end - level.start) / along).imag) * abs(along) <= ON_LEVEL_MM:
                    met.append(end)
            on_line = [at for at in met if 0 <= ((at - level.start) / along).real <= 1]
            # A crossing beside the end of an edge is met twice.
            if edge.name and on_line and max(abs(at - on_line[0]) for at in on_line) <= 2 * ON_LEVEL_MM:
                yield f"{edge.name} at the {level.line}", on_line[0]


def _meetings(edges: Sequence[Edge]) -> Iterator[tuple[str, Point]]:
    """Where two edges meet, by both names in alphabetical order: pieces are traced either way round."""
    for edge, after in pairwise([*edges, edges[0]]):
        if edge.name != after.name:
            yield " and ".join(sorted((edge.name, after.name))), after.start


def _grain_ends(shape: TracedShape) -> Iterator[tuple[str, Point]]:
    for mark in shape.marks:
        if mark.kind == "grain":
            top, foot = sorted(mark.points, key=lambda at: at.imag)
            yield "top of the grain line", top
            yield "foot of the grain line", foot


def _box(outline: Outline) -> Iterator[tuple[str, Point]]:
    flat = outline.flattened()
    left, right = min(at.real for at in flat), max(at.real for at in flat)
    for name, y in (("top", min(at.imag for at in flat)), ("foot", max(at.imag for at in flat))):
        yield f"{name} left of its box", complex(left, y)
        yield f"{name} right of its box", complex(right, y)
