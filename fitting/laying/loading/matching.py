"""Where each traced piece is matched to a repeat, and what of it no lay can match."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from math import atan2, degrees

from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.outline import Edge
from catalogue.tracing.calculation.tracing import LevelLine, TracedShape, level_widths
from fitting.pattern.calculation.motion import fold_edge, upright

WAIST = "waist"
# The middle of a motif or stripe belongs at these; else a piece is matched at a seam.
MIDDLES = ("centre", "front edge")
CURVED = ("armhole", "head", "neck")  # run across the pattern at a slant that changes
ALIKE_DEG = 2.0  # edges of one slant meet stripe for stripe; half an inch in 15 is two degrees
_NEAR_MM = 2.0

SewnEdges = tuple[tuple[str, str], tuple[str, str]]  # each a piece and an edge of it


@dataclass(frozen=True, slots=True)
class Match:
    """The matching point, in the coordinates of the shape; None for its lowest. `said` names it."""

    at: Point | None
    said: str

    def enlarged(self, factor: float) -> "Match":
        return self if self.at is None else Match(self.at * factor, self.said)


LOWEST = Match(None, "its lowest point")


def match_of(shape: TracedShape, levels: Sequence[LevelLine]) -> Match:
    """At the waist on its stitching line, at the centre where it has one; else at a notch of the hem."""
    ends = [
        end
        for width in level_widths(shape, levels)
        if width.line == WAIST
        for span in width.spans
        for end in span
    ]
    middles = [
        edge for edge in (fold_edge(shape), *shape.outline.edges()) if edge and _is_middle(edge, shape)
    ]
    for end in ends:
        if any(_off(end, edge) < _NEAR_MM for edge in middles):
            return Match(end, "the waist, at its centre")
    if ends:
        return Match(ends[0], "the waist")
    hems = [edge for edge in shape.outline.edges() if "hem" in edge.name]
    notches = (mark.points[0] for mark in shape.marks if mark.kind == "notch")
    notch = next((at for at in notches if any(_off(at, hem) < _NEAR_MM for hem in hems)), None)
    return LOWEST if notch is None else Match(notch, "a notch of its hem")


def cannot_match(shapes: Iterable[TracedShape], seams: Iterable[SewnEdges]) -> Iterator[str]:
    """What of these pieces meets otherwise than the pattern runs: said, so that nobody counts on it.

    `seams`: those whose edges are sewn together.
    """
    stood = {shape.name: upright(shape)[0] for shape in shapes}
    for name, shape in stood.items():
        edges = [edge.name for edge in shape.outline.edges() if any(word in edge.name for word in CURVED)]
        darts = ["its darts"] if any(mark.kind in ("dart", "pleat") for mark in shape.marks) else []
        if edges or darts:
            yield f"{', '.join([*dict.fromkeys(edges), *darts])} of {name}"
    for seam in seams:
        slants = [
            _slant_deg(edge)
            for piece, name in seam
            if piece in stood
            for edge in stood[piece].outline.edges()
            if edge.name == name and not any(word in name for word in CURVED)
        ]
        if any(abs(one - other) > ALIKE_DEG for one, other in combinations(slants, 2)):
            (one, edge), (other, _) = seam
            yield f"{edge} of {one} and {other}, of unlike slant"


def _is_middle(edge: Edge, shape: TracedShape) -> bool:
    return any(word in edge.name for word in MIDDLES) or edge == fold_edge(shape)


def _off(point: Point, edge: Edge) -> float:
    drawn = [edge.start, *(at for side in edge.sides for at in side.flattened(12))]
    return min(abs(point - at) for at in _between(drawn))


def _between(points: Sequence[Point]) -> Iterator[Point]:
    for start, end in pairwise(points):
        steps = max(1, int(abs(end - start) / _NEAR_MM))
        yield from (start + (end - start) * step / steps for step in range(steps + 1))


def _slant_deg(edge: Edge) -> float:
    """How far an edge leans from the grain, whichever way."""
    chord = edge.sides[-1].end - edge.start
    return degrees(atan2(abs(chord.real), abs(chord.imag)))
