"""Levels and marks of a piece that is parted: each goes with its side; one that is crossed gains points."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TypeAlias

from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.sides import SAME_MM
from catalogue.tracing.calculation.tracing import Mark
from fitting.pattern.calculation.working.level_lines import ON_OUTLINE_MM, Path

Line: TypeAlias = tuple[Point, Point]
Move: TypeAlias = Callable[[Point], Point]


def right_of(point: Point, line: Line) -> float:
    """How far a point lies to the right of a line, seen along it on a page whose y runs down."""
    return ((point - line[0]) * chord(*line).conjugate()).imag


def path_parted(path: Sequence[Point], line: Line, move: Move, over: Line | None) -> Path:
    """A level or mark that goes with its side; where the line crosses it, it gains a point on either side."""
    found: list[Point] = []

    def add(*points: Point) -> None:
        for point in points:
            if not found or abs(point - found[-1]) > SAME_MM:
                found.append(point)

    for run, moves in _runs(path, line):
        add(*(map(move, run) if moves else _clipped(run, over)))
    return tuple(found)


def left_of(path: Sequence[Point], line: Line) -> Path:
    """What of a path lies left of a line or on it, with the place where it crosses."""
    return tuple(point for run, moves in _runs(path, line) if not moves for point in run)


def _runs(path: Sequence[Point], line: Line) -> list[tuple[list[Point], bool]]:
    """The path in turns on either side of the line, each with the places where it crosses."""
    runs: list[tuple[list[Point], bool]] = []
    for point in path:
        moves = right_of(point, line) > SAME_MM
        if not runs:
            runs.append(([point], moves))
        elif runs[-1][1] == moves:
            runs[-1][0].append(point)
        else:
            before = runs[-1][0][-1]
            here, there = right_of(before, line), right_of(point, line)
            crossing = before + (point - before) * (here / (here - there))
            runs[-1][0].append(crossing)
            runs.append(([crossing, point], moves))
    return runs


def _clipped(run: list[Point], over: Line | None) -> list[Point]:
    """What of a path on the staying side is not covered by a lap."""
    if over is None:
        return run
    kept: list[Point] = []
    for index, point in enumerate(run):
        here = right_of(point, over)
        if index:
            before = right_of(run[index - 1], over)
            if (before > 0) != (here > 0):
                kept.append(run[index - 1] + (point - run[index - 1]) * (before / (before - here)))
        if here <= 0:
            kept.append(point)
    return kept


def mark_parted(mark: Mark, line: Line, move: Move, over: Line | None) -> Mark | None:
    """None where a lap covers it. Grain, folds and pleats keep their two ends; darts gain points."""
    if mark.kind in ("grain", "fold", "pleat"):
        lines = [_two_ends(path_parted(ends, line, move, over)) for ends in _pairs(mark.points)]
        return replace(mark, points=tuple(p for ends in lines for p in ends)) if all(lines) else None
    points = path_parted(mark.points, line, move, over)
    fewest = {"notch": 1, "dart": 3}.get(mark.kind, 2)
    if len(points) < fewest:
        return None
    gained = len(points) != len(mark.points)
    return replace(mark, points=points, is_straight=mark.is_straight or (gained and not mark.is_bowed))


def _pairs(points: Sequence[Point]) -> list[Sequence[Point]]:
    return [points[index : index + 2] for index in range(0, len(points), 2)]


def _two_ends(path: Path) -> Path:
    """A line that was parted: from end to end where it is still straight, else its longest part."""
    if len(path) <= 2:
        return path if len(path) == 2 else ()
    ends = (path[0], path[-1])
    if max(abs(right_of(point, ends)) for point in path[1:-1]) <= ON_OUTLINE_MM:
        return ends
    return max(pairwise(path), key=lambda part: abs(part[1] - part[0]))
