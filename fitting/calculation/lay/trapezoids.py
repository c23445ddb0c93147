"""Outlines cut into upright trapezoids: they tell how far apart along the cloth two shapes must be."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from fitting.calculation.lay.piece import Outline

# Edges this near to upright have no width to meet over: rounding, not cloth.
_NO_WIDTH = 1e-9


class Trapezoid(NamedTuple):
    """Cloth between two uprights: its lower and upper edge at the left and at the right."""

    left: float
    right: float
    low_left: float
    low_right: float
    high_left: float
    high_right: float


def trapezoids(outline: Outline) -> tuple[Trapezoid, ...]:
    """The outline cut at the x of every corner, from left to right."""
    xs = _distinct(sorted(x for x, _ in outline))
    crossed: list[list[tuple[float, float]]] = [[] for _ in xs[1:]]
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if x0 > x1:
            x0, y0, x1, y1 = x1, y1, x0, y0
        if x1 - x0 <= _NO_WIDTH:
            continue
        slope = (y1 - y0) / (x1 - x0)
        first = bisect_left(xs, x0 - _NO_WIDTH)
        for at in range(first, bisect_left(xs, x1 - _NO_WIDTH)):
            crossed[at].append((y0 + slope * (xs[at] - x0), y0 + slope * (xs[at + 1] - x0)))
    return tuple(
        Trapezoid(left, right, *low, *high)
        for left, right, edges in zip(xs, xs[1:], crossed, strict=False)
        for low, high in _pairs(sorted(edges, key=sum))
    )


def forbidden(
    moving: Sequence[Trapezoid], x: float, fixed: Sequence[Trapezoid], fixed_x: float
) -> list[tuple[float, float]]:
    """Between which differences of y a moving shape lies over a fixed one, each at its own x; in order."""
    found = sorted(_meetings(moving, fixed, x - fixed_x))
    joined = found[:1]
    for low, high in found[1:]:
        if low < joined[-1][1]:
            joined[-1] = (joined[-1][0], max(joined[-1][1], high))
        else:
            joined.append((low, high))
    return joined


def _meetings(
    moving: Sequence[Trapezoid], fixed: Sequence[Trapezoid], across: float
) -> Iterator[tuple[float, float]]:
    first = 0
    for upper in moving:
        left, right = upper[0] + across, upper[1] + across
        while first < len(fixed) and fixed[first][1] <= left:
            first += 1
        for lower in fixed[first:]:
            if lower[0] >= right - _NO_WIDTH:
                break
            shared_left, shared_right = max(left, lower[0]), min(right, lower[1])
            if shared_right - shared_left <= _NO_WIDTH:
                continue
            here, there = _edges_at(upper, shared_left - across), _edges_at(upper, shared_right - across)
            below, beyond = _edges_at(lower, shared_left), _edges_at(lower, shared_right)
            yield (
                min(below[0] - here[1], beyond[0] - there[1]),
                max(below[1] - here[0], beyond[1] - there[0]),
            )


def _edges_at(trapezoid: Trapezoid, x: float) -> tuple[float, float]:
    left, right, low_left, low_right, high_left, high_right = trapezoid
    part = (x - left) / (right - left)
    return low_left + part * (low_right - low_left), high_left + part * (high_right - high_left)


def _distinct(values: Sequence[float]) -> list[float]:
    kept = [values[0]]
    for value in values[1:]:
        if value - kept[-1] > _NO_WIDTH:
            kept.append(value)
    return kept


def _pairs(edges: Sequence[tuple[float, float]]) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    yield from zip(edges[::2], edges[1::2], strict=False)
