"""The line of a level across a piece, in several parts once a step has parted it: its reach and its cloth."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TypeAlias

from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.folds import folds_of
from catalogue.tracing.calculation.outline import Outline
from catalogue.tracing.calculation.tracing import LevelLine, Mark, TracedShape, width_at

Path: TypeAlias = tuple[Point, ...]

_SLACK_MM = 1e-6


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
    parts = list(pairwise(path))
    last = len(parts) - 1
    return [
        _reaching_out(outline, start, end, at_start=number == 0, at_end=number == last)
        for number, (start, end) in enumerate(parts)
    ]


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
