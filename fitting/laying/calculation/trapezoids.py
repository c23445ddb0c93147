"""Outlines cut into upright trapezoids: they tell how far apart along the cloth two shapes must be."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitting.laying.calculation.piece import Outline

Rows = NDArray[np.float64]
Places = NDArray[np.intp]

# Edges this near to upright have no width to meet over: rounding, not cloth.
_NO_WIDTH = 1e-9


@dataclass(frozen=True, slots=True)
class Trapezoids:
    """Cloth between uprights, from left to right: one row for each trapezoid.

    `sides` are its left and right x; `low` and `high` the lower and upper edge at each of them.
    """

    sides: Rows
    low: Rows
    high: Rows


def trapezoids(outline: Outline) -> Trapezoids:
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
    found = [
        ((left, right), low, high)
        for left, right, edges in zip(xs, xs[1:], crossed, strict=False)
        for low, high in _pairs(sorted(edges, key=sum))
    ]
    return Trapezoids(*(np.array(rows) for rows in zip(*found, strict=True)))


def forbidden(moving: Trapezoids, x: float, fixed: Trapezoids, fixed_x: float) -> list[tuple[float, float]]:
    """Between which differences of y a moving shape lies over a fixed one, each at its own x; in order."""
    one, other = _that_meet(moving.sides + (x - fixed_x), fixed.sides)
    left = np.maximum(moving.sides[one, 0] + (x - fixed_x), fixed.sides[other, 0])
    right = np.minimum(moving.sides[one, 1] + (x - fixed_x), fixed.sides[other, 1])
    wide = right - left > _NO_WIDTH
    one, other = one[wide], other[wide]
    if not len(one):
        return []
    shared = np.stack((left[wide], right[wide]), axis=1)
    low, high = _edges_at(moving, one, shared - (x - fixed_x))
    fixed_low, fixed_high = _edges_at(fixed, other, shared)
    return _joined((fixed_low - high).min(axis=1), (fixed_high - low).max(axis=1))


def _that_meet(sides: Rows, fixed: Rows) -> tuple[Places, Places]:
    """Which trapezoids of one shape share some width with which of another."""
    first = np.searchsorted(fixed[:, 1], sides[:, 0], side="right")
    counts = np.maximum(np.searchsorted(fixed[:, 0], sides[:, 1], side="left") - first, 0)
    ends = np.cumsum(counts)
    one = np.repeat(np.arange(len(sides)), counts)
    return one, np.arange(len(one)) - np.repeat(ends - counts - first, counts)


def _edges_at(shape: Trapezoids, rows: Places, xs: Rows) -> tuple[Rows, Rows]:
    """The lower and upper edge of each row at its two x."""
    left, right = shape.sides[rows, :1], shape.sides[rows, 1:]
    part = (xs - left) / (right - left)
    low, high = shape.low[rows], shape.high[rows]
    return low[:, :1] + part * np.diff(low), high[:, :1] + part * np.diff(high)


def _joined(lows: Rows, highs: Rows) -> list[tuple[float, float]]:
    order = np.argsort(lows)
    lows, highs = lows[order], np.maximum.accumulate(highs[order])
    starts = np.flatnonzero(np.append(True, lows[1:] >= highs[:-1]))
    ends = np.append(starts[1:], len(lows)) - 1
    return list(zip(lows[starts].tolist(), highs[ends].tolist(), strict=True))


def _distinct(values: Sequence[float]) -> list[float]:
    kept = [values[0]]
    for value in values[1:]:
        if value - kept[-1] > _NO_WIDTH:
            kept.append(value)
    return kept


def _pairs(edges: Sequence[tuple[float, float]]) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    yield from zip(edges[::2], edges[1::2], strict=False)
