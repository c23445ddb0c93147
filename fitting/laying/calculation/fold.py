"""Laying on folded cloth: halves of pieces along the fold, the rest in what they leave.

The solver that nests knows no fixed place. So pieces are laid one after another, each where its top comes
lowest; the order decides the length, and orders are tried until the time is up: largest first, then the best
so far with one piece laid sooner or later.
"""

import math
import time
from collections.abc import Callable, Sequence
from itertools import count
from random import Random

from fitting.laying.calculation.nesting import SEED, Progress, Watch
from fitting.laying.calculation.settling import CLEAR_MM, lifted, settle
from fitting.laying.calculation.strip import AS_SHORT_MM, Lying, Strip, Turned, length_of

_Ways = tuple[Turned, ...]

_FIRST_ORDERS: tuple[Callable[[_Ways], float], ...] = (
    lambda ways: -ways[0].height,
    lambda ways: -ways[0].width * ways[0].height,
    lambda ways: -ways[0].width,
    lambda ways: -ways[0].height * (1 if ways[0].shape.at_fold else 1e-3),  # those at the fold first
)
_STEPS = 8  # places tried across the cloth, besides those beside another piece


def fold_lay(strip: Strip, *, seconds: float, watch: Watch | None = None) -> list[Lying]:
    """The shortest lay found in the time, at least one; less time where none can be shorter."""
    started, dice = time.monotonic(), Random(SEED)  # noqa: S311 - the same pieces, the same orders
    copies = [ways for ways in strip.shapes for _ in range(ways[0].shape.copies)]
    orders = [sorted(copies, key=size) for size in _FIRST_ORDERS]
    best, best_order, ran = list[Lying](), copies, 0.0
    for lays in count(1):
        order = orders[lays - 1] if lays <= len(orders) else _changed(best_order, dice)
        lay = settle(strip, _in_order(strip, order))
        if not best or length_of(lay) <= length_of(best):
            best, best_order = lay, order
        ran = time.monotonic() - started
        if ran >= seconds or length_of(best) <= strip.least_length + AS_SHORT_MM:
            break
        if watch and not watch(Progress(seconds=ran, of_seconds=seconds, lays=lays)):
            break
    return best


def _changed(order: Sequence[_Ways], dice: Random) -> list[_Ways]:
    """One piece laid earlier or later than it was."""
    changed = list(order)
    changed.insert(dice.randrange(len(order)), changed.pop(dice.randrange(len(order))))
    return changed


def _in_order(strip: Strip, order: Sequence[_Ways]) -> list[Lying]:
    placed: list[Lying] = []
    for ways in order:
        placed.append(_lowest(strip, ways, placed))
    return placed


def _lowest(strip: Strip, ways: _Ways, placed: Sequence[Lying]) -> Lying:
    """Where its top comes lowest, then itself, then at the left."""
    best: Lying | None = None
    for one in ways:
        for x in _across(strip, one, placed):
            most = best.top - one.high if best else math.inf
            spot = lifted(Lying(turned=one, x=x, y=-one.low), placed, most=most)
            if best is None or (spot.top, spot.bottom, spot.x) < (best.top, best.bottom, best.x):
                best = spot
    assert best  # noqa: S101 - it has a way to lie, and there is a place to try
    return best


def _across(strip: Strip, one: Turned, placed: Sequence[Lying]) -> set[float]:
    """Where to try it: at either edge of the cloth, beside every piece there, and in steps between."""
    first, last = -one.left, strip.width - one.right
    if one.shape.at_fold or last <= first:
        return {first}
    beside = [lying.x + lying.turned.spaced_right - one.spaced_left + CLEAR_MM for lying in placed]
    beside += [lying.x + lying.turned.spaced_left - one.spaced_right - CLEAR_MM for lying in placed]
    steps = (first + step * (last - first) / _STEPS for step in range(_STEPS))
    near = {round(x, 1): x for x in beside if first < x < last}
    return {*steps, last, *near.values()}
