"""Laying pieces one after another: halves along the fold of folded cloth, pieces that match at a repeat.

The solver that nests knows no fixed place. So pieces are laid one after another, each where its top comes
lowest of all the places it may have; the order decides the length, and orders are tried until the search
ends: largest first, then the best so far with one piece laid sooner or later.
"""

import math
import time
from collections.abc import Callable, Sequence
from itertools import product
from random import Random

from fitting.laying.calculation.repeat import Lattice
from fitting.laying.calculation.search import SEED, Ending, Progress, SearchResult, Watch
from fitting.laying.calculation.settling import CLEAR_MM, lifted, settle
from fitting.laying.calculation.strip import AS_SHORT_MM, PlacedCopy, Strip, TurnedShape, length_of

_Ways = tuple[TurnedShape, ...]

_FIRST_ORDERS: tuple[Callable[[_Ways], float], ...] = (
    lambda ways: -ways[0].height,
    lambda ways: -ways[0].width * ways[0].height,
    lambda ways: -ways[0].width,
    lambda ways: -ways[0].height * (1 if ways[0].shape.at_fold else 1e-3),  # those at the fold first
)
_STEPS = 8  # places tried across the cloth, besides those beside another piece
# About what a try takes half a usual machine: each piece is tried beside every other.
_SECONDS_A_PIECE, _SECONDS_A_PAIR = 5e-4, 1e-4
_ELSEWHERE = 4  # one try in so many matches at another place of the repeat


def in_turn_lay(
    strip: Strip,
    places: Sequence[Lattice],
    *,
    seconds: float,
    known: tuple[Sequence[PlacedCopy], Lattice] | None = None,
    watch: Watch | None = None,
) -> SearchResult:
    """The shortest lay found, matched at one of `places`; the one `known` where none is shorter."""
    started, dice = time.monotonic(), Random(SEED)  # noqa: S311 - the same pieces, the same orders
    copies = [ways for ways in strip.shapes for _ in range(ways[0].shape.copies)]
    count = len(copies)
    tries = int(seconds / (_SECONDS_A_PIECE * count + _SECONDS_A_PAIR * count**2))
    tries = tries if known else max(1, tries)
    first = [(sorted(copies, key=size), place) for place, size in product(places, _FIRST_ORDERS)]
    first = first[: max(len(_FIRST_ORDERS), tries // 2)]
    best, best_order, best_place = list(known[0]) if known else [], copies, known[1] if known else places[0]
    seen: set[tuple[Lattice, tuple[_Ways, ...]]] = set()
    for tried in range(1, tries + 1):
        if tried <= len(first):
            order, place = first[tried - 1]
        else:
            order = _changed(best_order, dice)
            place = best_place if dice.randrange(_ELSEWHERE) else dice.choice(places)
        is_new = (place, tuple(order)) not in seen
        seen.add((place, tuple(order)))
        lay = _laid(strip, order, place) if is_new else []
        if lay and (not best or length_of(lay) <= length_of(best)):
            best, best_order, best_place = lay, order, place
        ran = time.monotonic() - started
        if length_of(best) <= strip.least_length + AS_SHORT_MM:
            return SearchResult(best, best_place, Ending.NONE_SHORTER)
        if tried < tries and ran >= seconds:
            return SearchResult(best, best_place, Ending.CLOCK)
        if watch and not watch(Progress(seconds=min(ran, seconds), of_seconds=seconds, lays=tried)):
            return SearchResult(best, best_place, Ending.STOPPED)
    return SearchResult(best, best_place, Ending.TRIES)


def _changed(order: Sequence[_Ways], dice: Random) -> list[_Ways]:
    """One piece laid earlier or later than it was."""
    changed = list(order)
    changed.insert(dice.randrange(len(order)), changed.pop(dice.randrange(len(order))))
    return changed


def _laid(strip: Strip, order: Sequence[_Ways], place: Lattice) -> list[PlacedCopy]:
    """In their order; slid together where that leaves them matched, a hair apart where they must be."""
    if not place.holds_y:
        return settle(strip, _in_order(strip, order, place, CLEAR_MM))
    lays = (_in_order(strip, order, place, apart) for apart in (0.0, CLEAR_MM))
    return next((lay for lay in lays if strip.is_sound(lay)), [])


def _in_order(strip: Strip, order: Sequence[_Ways], place: Lattice, apart: float) -> list[PlacedCopy]:
    placed: list[PlacedCopy] = []
    for ways in order:
        placed.append(_lowest(strip, ways, placed, place, apart))
    return placed


def _lowest(
    strip: Strip, ways: _Ways, placed: Sequence[PlacedCopy], place: Lattice, apart: float
) -> PlacedCopy:
    """Where its top comes lowest, then itself, then at the left."""
    matched = [one for one in ways if place.matches(one, strip.width)]
    best: PlacedCopy | None = None
    for one in matched or ways:
        xs = _across(strip, one, placed)
        if matched:
            xs = {column for at in xs for column in place.columns(one, at, strip.width)}
        for x in xs:
            most = best.top - one.high if best else math.inf
            spot = lifted(
                PlacedCopy(turned=one, x=x, y=place.lowest(one, x, -one.low)),
                placed,
                most=most,
                above=lambda edge, one=one, x=x: place.lowest(one, x, edge + apart),  # type: ignore[misc]
            )
            if best is None or (spot.top, spot.bottom, spot.x) < (best.top, best.bottom, best.x):
                best = spot
    assert best  # noqa: S101 - it has a way to lie, and there is a place to try
    return best


def _across(strip: Strip, one: TurnedShape, placed: Sequence[PlacedCopy]) -> set[float]:
    """Where to try it: at either edge of the cloth, beside every piece there, and in steps between."""
    first, last = -one.left, strip.width - one.right
    if one.shape.at_fold or last <= first:
        return {first}
    beside = [lying.x + lying.turned.spaced_right - one.spaced_left for lying in placed]
    beside += [lying.x + lying.turned.spaced_left - one.spaced_right for lying in placed]
    steps = (first + step * (last - first) / _STEPS for step in range(_STEPS))
    near = {round(x, 1): x for x in beside if first < x < last}
    return {*steps, last, *near.values()}
