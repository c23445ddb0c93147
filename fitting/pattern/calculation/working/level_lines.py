"""The line of a level across a piece, in several parts once a step has parted it: its reach and its cloth."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TypeAlias

from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.folds import folds_of
from catalogue.tracing.calculation.outline import Edge, Outline
from catalogue.tracing.calculation.sides import Side, nearest
from catalogue.tracing.calculation.tracing import LevelLine, Mark, TracedShape, width_at

Path: TypeAlias = tuple[Point, ...]

ON_OUTLINE_MM = 0.1
_SLACK_MM = 1e-6
_ALONG_MM = 1e-3


def cloth_mm(shape: TracedShape, path: Path) -> float:
    """The cloth along a level, less what is taken up; a line that ends within counts to the outline."""
    parts = reaching(shape.outline, path)
    # What a mark takes up of a line of several parts may lie on more than one of them.
    in_parts = len(parts) > 1
    each = replace(shape, marks=()) if in_parts else shape
    if not in_parts:
        parts = [_a_little_over(*parts[0])]
    widths = [width_at(each, LevelLine(line="", start=start, end=end)) for start, end in parts]
    cloth = sum(width.width_mm - width.take_up_mm for width in widths)
    return cloth - _taken_up(shape.marks, parts) if in_parts else cloth


def _a_little_over(start: Point, end: Point) -> tuple[Point, Point]:
    """A line may end on the very leg of a dart that a piece was cut along."""
    slack = chord(start, end) * _SLACK_MM
    return start - slack, end + slack


def _taken_up(marks: Sequence[Mark], parts: Sequence[tuple[Point, Point]]) -> float:
    path = [parts[0][0], *(end for _, end in parts)]
    return sum(
        mark.count * fold.taken_up(path)
        for mark in marks
        for fold in folds_of(mark.kind, mark.points, is_straight=mark.is_straight)
    )


def reaching(outline: Outline, path: Path) -> list[tuple[Point, Point]]:
    """The parts of a level, its free ends drawn on to the outline where they lie within the piece."""
    parts = [_within(outline, start, end) for start, end in pairwise(path)]
    last = len(parts) - 1
    return [
        _reaching_out(outline, start, end, at_start=number == 0, at_end=number == last)
        for number, (start, end) in enumerate(parts)
    ]


def _within(outline: Outline, start: Point, end: Point) -> tuple[Point, Point]:
    """A part that runs along a straight side, as a waist does along a waist edge, is taken just inside it."""
    way = chord(start, end)
    for side in outline.sides:
        ends = [((at - start) * way.conjugate()) for at in (side.start, side.end)]
        if not side.is_straight or max(abs(at.imag) for at in ends) > _ALONG_MM:
            continue
        low, high = sorted(at.real for at in ends)
        if high > _ALONG_MM and low < abs(end - start) - _ALONG_MM:
            inside = chord(side.start, side.end) * 1j * outline.turns * 2 * _ALONG_MM
            return start + inside, end + inside
    return start, end


def _reaching_out(
    outline: Outline, start: Point, end: Point, *, at_start: bool, at_end: bool
) -> tuple[Point, Point]:
    along = end - start
    places = sorted(
        ((outline.sides[index].at(t) - start) / along).real for index, t in outline.crossings(start, end)
    )
    low, high = 0.0, 1.0
    for here, there in zip(places[::2], places[1::2], strict=False):
        if at_start and here < 0 < there:
            low = here
        if at_end and here < 1 < there:
            high = there
    return start + along * low, start + along * high


def sewn_mm(edge: Edge, marks: Sequence[Mark]) -> float:
    """An edge as it is sewn: its drawn length, less the mouths of darts and pleats that stand on it."""
    sides = [Side(cubic=cubic) for cubic in edge.sides]
    folded = 0.0
    for mark in marks:
        if mark.kind in ("dart", "pleat"):
            feet = [point for point in mark.points if nearest(sides, point)[1] <= ON_OUTLINE_MM]
            folded += mark.count * abs(feet[1] - feet[0]) if len(feet) == 2 else 0.0
    return edge.length - folded
