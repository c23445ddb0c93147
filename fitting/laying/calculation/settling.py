"""Sliding pieces along the cloth until each rests on another: mends tiny overlaps, and shortens a lay."""

import math
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache

from fitting.laying.calculation.strip import PlacedCopy, Strip, TurnedShape, length_of
from fitting.laying.calculation.trapezoids import forbidden

_NEAR = 1e-9
# Slanted edges that touch to the last digit are taken for an overlap now and then, by GEOS beneath shapely
# too. What is slid is left this far off; what lies on a straight edge already may go on touching it.
CLEAR_MM = 1e-5
_MOST_ROUNDS = 8
_GAIN_MM = 0.01
_REMEMBERED = 50_000


def settle(strip: Strip, lay: Sequence[PlacedCopy]) -> list[PlacedCopy]:
    """The lay on the cloth, free of overlap, and as short as sliding alone makes it."""
    settled = _all_lifted([strip.within(lying) for lying in lay])
    for _ in range(_MOST_ROUNDS):
        before = length_of(settled)
        settled = _dropped(settled)
        if before - length_of(settled) < _GAIN_MM:
            break
    return settled


def _all_lifted(lay: Sequence[PlacedCopy]) -> list[PlacedCopy]:
    """From the lowest up, each lifted off those below it where it lies over one."""
    placed: list[PlacedCopy] = []
    for lying in sorted(lay, key=lambda lying: lying.bottom):
        placed.append(lifted(lying, placed))
    return placed


def clear_of(edge: float) -> float:
    """Where a piece rests on another that ends there."""
    return edge + CLEAR_MM


def lifted(
    lying: PlacedCopy,
    others: Sequence[PlacedCopy],
    *,
    most: float = math.inf,
    above: Callable[[float], float] = clear_of,
) -> PlacedCopy:
    """Slid along the cloth no farther than until it lies over none of the others, or beyond `most`.

    `above`: the first place where it may lie from the end of another on.
    """
    beside = list(_beside(lying, others))
    between: dict[int, list[tuple[float, float]]] = {}
    y, before = lying.y, -math.inf
    while before < y <= most:
        before = y
        for at, other in enumerate(beside):
            if not _reaches(lying, y, other):
                continue
            if at not in between:
                between[at] = _forbidden(lying, other)
            over = (high for low, high in between[at] if low + _NEAR < y < high - _NEAR)
            y = next((above(high) for high in over), y)
    return lying.at(y=y)


def _dropped(lay: Sequence[PlacedCopy]) -> list[PlacedCopy]:
    """From the lowest up, each slid down onto what lies beneath it."""
    there = sorted(lay, key=lambda lying: lying.bottom)
    for at, lying in enumerate(there):
        others = [other for place, other in enumerate(there) if place != at]
        there[at] = lying.at(y=_landing(lying, others))
    return there


def _landing(lying: PlacedCopy, others: Sequence[PlacedCopy]) -> float:
    lowest = -lying.turned.low
    for other in sorted(_beside(lying, others), key=lambda other: -other.y - other.turned.spaced_high):
        if other.y + other.turned.spaced_high - lying.turned.spaced_low + CLEAR_MM <= lowest:
            break
        if other.y + other.turned.spaced_low - lying.turned.spaced_high >= lying.y:
            continue
        ends = [high for _, high in _forbidden(lying, other) if high <= lying.y + _NEAR]
        lowest = max(lowest, *(end + CLEAR_MM for end in ends)) if ends else lowest
    return min(lowest, lying.y)


def _forbidden(lying: PlacedCopy, other: PlacedCopy) -> list[tuple[float, float]]:
    between = _between(lying.turned, other.turned, lying.x - other.x)
    return [(low + other.y, high + other.y) for low, high in between]


@lru_cache(_REMEMBERED)
def _between(one: TurnedShape, other: TurnedShape, apart: float) -> list[tuple[float, float]]:
    """A search lays the same two beside each other again and again."""
    return forbidden(one.trapezoids, apart, other.trapezoids, 0.0)


def _beside(lying: PlacedCopy, others: Sequence[PlacedCopy]) -> Iterator[PlacedCopy]:
    """Those that share some of the cloth's width with the piece."""
    left, right = lying.x + lying.turned.spaced_left, lying.x + lying.turned.spaced_right
    for other in others:
        if other.x + other.turned.spaced_left < right and left < other.x + other.turned.spaced_right:
            yield other


def _reaches(lying: PlacedCopy, y: float, other: PlacedCopy) -> bool:
    return (
        y + lying.turned.spaced_low < other.y + other.turned.spaced_high
        and other.y + other.turned.spaced_low < y + lying.turned.spaced_high
    )
