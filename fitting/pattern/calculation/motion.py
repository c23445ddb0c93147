"""Traced shapes enlarged, moved and turned; where one meets its own other half."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise

from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.outline import Edge, Outline
from catalogue.tracing.calculation.tracing import LevelLine, TracedShape

_ON_FOLD_MM = 5.0


def enlarged(shape: TracedShape, factor: float) -> TracedShape:
    """Enlarged about the corner of the page, marks and all."""
    return placed(shape, lambda point: point * factor)


def shifted(shape: TracedShape, by: Point) -> TracedShape:
    return placed(shape, lambda point: point + by)


def upright(shape: TracedShape, levels: Sequence[LevelLine] = ()) -> tuple[TracedShape, list[LevelLine]]:
    """Turned so that its grain stands upright, the way that is shorter, and its level lines with it.

    A piece without a grain stays as it lies on the page.
    """
    turn = upright_turn(shape)
    lines = [LevelLine(line=one.line, start=one.start * turn, end=one.end * turn) for one in levels]
    return placed(shape, lambda point: point * turn), lines


def upright_turn(shape: TracedShape) -> Point:
    """What its points are multiplied by to make its grain stand upright."""
    grain = next((mark.points for mark in shape.marks if mark.kind == "grain"), None)
    down = chord(grain[0], grain[1]) if grain else 1j
    if down.imag < 0:
        down = -down
    return 1j * (down or 1j).conjugate()


def placed(shape: TracedShape, place: Callable[[Point], Point]) -> TracedShape:
    """Every point somewhere else; what is a corner, curved or named stays so."""
    nodes = tuple(
        replace(
            node,
            at=place(node.at),
            handles=node.handles and (place(node.handles[0]), place(node.handles[1])),
        )
        for node in shape.outline.nodes
    )
    marks = tuple(replace(mark, points=tuple(map(place, mark.points))) for mark in shape.marks)
    return TracedShape(name=shape.name, outline=Outline(nodes=nodes), marks=marks)


def fold_edge(shape: TracedShape) -> Edge | None:
    """The edge along which a fold is marked."""
    folds = [mark.points for mark in shape.marks if mark.kind == "fold"]
    edges = shape.outline.edges()
    return next((edge for edge in edges for fold in folds if _lies_on(edge, fold)), None)


def _lies_on(edge: Edge, points: Sequence[Point]) -> bool:
    drawn = [edge.sides[0].start, *(p for side in edge.sides for p in side.flattened(24))]
    return all(min(_off(point, *two) for two in pairwise(drawn)) <= _ON_FOLD_MM for point in points)


def _off(point: Point, start: Point, end: Point) -> float:
    if start == end:
        return abs(point - start)
    place = ((point - start) / (end - start)).real
    return abs(point - start - (end - start) * min(1.0, max(0.0, place)))
