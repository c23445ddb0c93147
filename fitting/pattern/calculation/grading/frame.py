"""A piece in its own frame: x across it, along its level lines; y down it. What is held, and what moves.

Widths change by stretching away from the edge that is held (a centre or a fold stays as it is), or from the
middle where none is; heights by shifting. Both vary down the piece, and only points are moved: the smooth
line through them is drawn anew, so no curve is broken.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

import numpy as np

from catalogue.lengths.calculation.levels import LINES
from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.outline import Edge, Node, Outline
from catalogue.tracing.calculation.tracing import LevelLine, LevelWidth, Mark, TracedShape, level_widths
from fitting.pattern.calculation.grading.values import PieceToGrade
from fitting.pattern.calculation.motion import fold_edge, placed

HELD = ("fold", "centre front", "centre back", "front edge", "centre")
# A point this near to a level already bends the edge there; a second one would make it waver.
NEAR_MM = 8.0

Amount = Callable[[float], float]


@dataclass(frozen=True, kw_only=True)
class Frame:
    """The frame of one piece. `piece` carries points where the levels cross the edges that may move."""

    piece: PieceToGrade
    across: Point
    origin: Point

    @classmethod
    def of(cls, piece: PieceToGrade) -> "Frame | None":
        """None where no level line crosses the piece: nothing says how to grade it."""
        met = level_widths(piece.shape, piece.levels)
        if not met:
            return None
        ways = [chord(*span) for width in met for span in width.spans[:1]]
        ways = [way if (way * ways[0].conjugate()).real >= 0 else -way for way in ways]
        across = chord(0j, sum(ways))
        if across.real < 0:
            across = -across
        frame = cls(piece=piece, across=across, origin=piece.shape.outline.nodes[0].at)
        return cls(piece=frame._with_points(), across=across, origin=frame.origin)

    def local(self, point: Point) -> Point:
        return (point - self.origin) * self.across.conjugate()

    def page(self, local: Point) -> Point:
        return self.origin + local * self.across

    @cached_property
    def widths(self) -> dict[str, LevelWidth]:
        return {width.line: width for width in level_widths(self.piece.shape, self.piece.levels)}

    @cached_property
    def heights(self) -> dict[str, float]:
        """Where each level lies down the piece: the middle of what it crosses."""
        return {
            line: sum(self.local(end).imag for span in width.spans for end in span) / (2 * len(width.spans))
            for line, width in self.widths.items()
        }

    @cached_property
    def is_limb(self) -> bool:
        return all(LINES[line].has_sides for line in self.heights)

    @cached_property
    def bounds(self) -> tuple[float, float]:
        """Its top and its bottom."""
        ys = [self.local(point).imag for point in self.piece.shape.outline.flattened(0.5)]
        return min(ys), max(ys)

    @cached_property
    def held(self) -> Edge | None:
        """The edge that keeps its place across: where the piece meets its own other half."""
        edges = self.piece.shape.outline.edges()
        named = (edge for name in HELD for edge in edges if edge.name.casefold() == name)
        return fold_edge(self.piece.shape) or next(named, None)

    @cached_property
    def anchor(self) -> Amount:
        """The x from which widths are stretched, at each height."""
        if self.held:
            points = [self.held.sides[0].start, *(p for side in self.held.sides for p in side.flattened(12))]
        else:
            points = [
                sum(end for span in width.spans for end in span) / (2 * len(width.spans))
                for width in self.widths.values()
            ]
        placed = sorted(((at := self.local(point)).imag, at.real) for point in points)
        ys, xs = [y for y, _ in placed], [x for _, x in placed]
        return lambda y: float(np.interp(y, ys, xs))

    def bottom_width(self, below: float) -> float:
        """How wide it is near its foot, past a given height."""
        start = below + 0.75 * (self.bounds[1] - below)
        xs = [at.real for point in self.piece.shape.outline.flattened(0.5)
              if (at := self.local(point)).imag >= start]  # fmt: skip
        return max(xs) - min(xs) if xs else 0.0

    def moved(self, stretch: Amount, shift: Amount) -> tuple[TracedShape, tuple[LevelLine, ...]]:
        """The piece with every point moved, and its level lines where they have come to."""

        def move(point: Point) -> Point:
            at = self.local(point)
            x = at.real + stretch(at.imag) * (at.real - self.anchor(at.imag))
            return self.page(complex(x, at.imag + shift(at.imag)))

        shape = placed(self.piece.shape, move)
        drawn = self.piece.shape.marks
        straight = tuple(
            _grain(mark, move) if mark.kind == "grain" else moved
            for mark, moved in zip(drawn, shape.marks, strict=True)
        )
        levels = []
        for level in self.piece.levels:
            if level.line in self.heights:
                down = self.across * 1j * shift(self.heights[level.line])
                reach = (level.end - level.start) / 2
                levels.append(
                    LevelLine(line=level.line, start=level.start - reach + down, end=level.end + reach + down)
                )
        return replace(shape, marks=straight), tuple(levels)

    def _with_points(self) -> PieceToGrade:
        """A point on each movable edge where a level crosses it: there the edge can be set."""
        outline, held = self.piece.shape.outline, self.held
        still = set(held.sides) if held else set()
        nodes: list[Node] = []
        for node, side in zip(outline.nodes, outline.sides, strict=True):
            found = sorted(
                t
                for level in self.piece.levels
                if side not in still and level.line in self.heights
                for t in side.crossings(level.start, level.end)
                if min(abs(side.at(t) - side.start), abs(side.at(t) - side.end)) > NEAR_MM
            )
            places = [t for before, t in pairwise([-1.0, *found]) if t - before > 1e-6]
            nodes.append(
                Node(at=node.at, corner=node.corner, curved=node.curved or bool(places), edge=node.edge)
            )
            nodes += [Node(at=side.at(t), corner=False, curved=True) for t in places]
        shape = replace(self.piece.shape, outline=Outline(nodes=tuple(nodes)))
        return replace(self.piece, shape=shape)


def _grain(mark: Mark, move: Callable[[Point], Point]) -> Mark:
    """Moved as one: it keeps its direction to the last digit."""
    start, end = mark.points
    by = move((start + end) / 2) - (start + end) / 2
    return Mark(kind="grain", points=(start + by, end + by))
