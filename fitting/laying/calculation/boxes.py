"""The plain lay: pieces in boxes, each box as low on the cloth as it goes. Quick, and always sound.

A box holds one piece, or two alike of which the second is turned end for end and laid against the first: what
is cut corner to corner costs no more than its rectangle.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise, product
from math import hypot
from typing import NamedTuple

from shapely import MultiPoint, Polygon

from fitting.laying.calculation.piece import Outline, ring
from fitting.laying.calculation.repeat import Lattice
from fitting.laying.calculation.settling import CLEAR_MM, settle
from fitting.laying.calculation.strip import FITS_MM, PlacedCopy, Shape, Strip, TurnedShape, length_of

_SAVED = 0.99  # a pair is worth laying as one where its box is smaller than this part of two
_MOST_BOXES = 500  # laid in one order, over all places of a repeat: this lay is to be there at once
_FULL, _HALF_EMPTY = 0.95, 0.75  # a rectangle but for what a mitred corner lacks; a piece far from one


class _Step(NamedTuple):
    """A part of the skyline: between left and right everything below `height` is taken."""

    left: float
    right: float
    height: float


@dataclass(frozen=True, slots=True)
class _Box:
    """One piece or a pair, as it lies in a box whose lower left corner is at 0, 0."""

    width: float
    height: float
    parts: tuple[PlacedCopy, ...]

    @classmethod
    def of(cls, *parts: PlacedCopy) -> "_Box":
        left, low = min(one.x + one.turned.left for one in parts), min(one.bottom for one in parts)
        right, high = max(one.x + one.turned.right for one in parts), max(one.top for one in parts)
        moved = tuple(one.at(x=one.x - left, y=one.y - low) for one in parts)
        return cls(right - left, high - low, moved)

    def lying(self, left: float, low: float) -> list[PlacedCopy]:
        return [one.at(x=one.x + left, y=one.y + low) for one in self.parts]


class _Place(NamedTuple):
    """Where a box would lie; the best has the lowest top, then lies lowest, then leftmost."""

    top: float
    low: float
    left: float


_Ways = tuple[_Box, ...]  # of one and the same box: the turns it may have

# The order in which boxes are laid decides the length: each of these is tried, largest first.
_ORDERS: tuple[Callable[[_Box], float], ...] = (
    lambda one: one.height,
    lambda one: one.width,
    lambda one: one.width * one.height,
    lambda one: one.width + one.height,
)


def box_lay(strip: Strip, places: Sequence[Lattice]) -> tuple[list[PlacedCopy], Lattice]:
    """The shortest of the lays tried, gaps kept between pieces, none at the cloth's edge.

    Slid together where that leaves every piece matched. With the place at which they match.
    """
    alone = [_alone(turns) for turns in strip.shapes for _ in range(turns[0].shape.copies)]
    packs = [alone]
    if not any(place.repeat.is_there for place in places):
        packs.append([box for turns in strip.shapes for box in _paired(turns, strip)])
    few = places[: max(1, _MOST_BOXES // len(alone))]
    lays = [
        (_in_order(strip, boxes, order, place), place) for boxes, order, place in product(packs, _ORDERS, few)
    ]
    best, place = min(lays, key=lambda two: length_of(two[0]))
    return (best if place.holds_y else settle(strip, best)), place


def _alone(turns: Sequence[TurnedShape]) -> _Ways:
    return tuple(_Box.of(PlacedCopy(turned=one, x=0.0, y=0.0)) for one in turns)


def _paired(turns: Sequence[TurnedShape], strip: Strip) -> Iterator[_Ways]:
    """As many pairs as the copies make, and what is left over; all alone where a pair saves nothing."""
    alone, copies = _alone(turns), turns[0].shape.copies
    pairs = tuple(pair for one in turns if (pair := corner_to_corner(one, turns, strip.gap)))
    pairs = tuple(pair for pair in pairs if pair.width <= strip.width + FITS_MM)
    two = 2 * min(box.width * box.height for box in alone)
    if not pairs or min(box.width * box.height for box in pairs) > _SAVED * two:
        yield from [alone] * copies
        return
    yield from [pairs] * (copies // 2)
    yield from [alone] * (copies % 2)


def corner_to_corner(one: TurnedShape, turns: Sequence[TurnedShape], gap: float) -> _Box | None:
    """A piece and the same turned end for end, laid against it in the smallest box; None where none turns."""
    other = next((way for way in turns if (way.rotation_deg - one.rotation_deg) % 360 == 180), None)
    if other is None:
        return None
    hull = ring(MultiPoint(one.outline).convex_hull)
    pairs = (_against(one, other, edge, gap) for edge in pairwise((*hull, hull[0])))
    return min(pairs, key=lambda pair: pair.width * pair.height)


def is_corner_cut(outline: Outline) -> bool:
    """Whether two of it, the second turned end for end, make a rectangle that one alone leaves half empty."""
    shape = Shape(name="", outline=outline, mirrored=False, copies=2, turns_deg=(0, 180))
    ways = [TurnedShape(*way, 0.0) for way in shape.ways()]
    pair, area = corner_to_corner(ways[0], ways, 0.0), Polygon(outline).area
    alone = ways[0].width * ways[0].height
    return pair is not None and 2 * area > _FULL * pair.width * pair.height and area < _HALF_EMPTY * alone


def _against(one: TurnedShape, other: TurnedShape, edge: Outline, gap: float) -> _Box:
    """Turned about the middle of an edge of the hull, which lies between them, and moved off by the gap."""
    (x0, y0), (x1, y1) = edge
    long = hypot(x1 - x0, y1 - y0)
    out_x, out_y = (y1 - y0) / long, (x0 - x1) / long
    hair = CLEAR_MM if out_x and out_y else 0.0  # as slanted edges keep that settle
    moved = PlacedCopy(
        turned=other,
        x=x0 + x1 + gap * out_x,
        y=y0 + y1 + gap * out_y + (hair if out_y > 0 else -hair),
    )
    return _Box.of(PlacedCopy(turned=one, x=0.0, y=0.0), moved)


def _in_order(
    strip: Strip, boxes: Sequence[_Ways], order: Callable[[_Box], float], place: Lattice
) -> list[PlacedCopy]:
    # Boxes keep the gap to their right and above; on a strip wider by one gap none is kept at the right edge.
    skyline = [_Step(0.0, strip.width + strip.gap, 0.0)]
    lay = []
    for ways in sorted(boxes, key=lambda ways: -order(ways[0])):
        # Turned one way a piece may match where it does not turned another.
        matched = [box for box in ways if place.matches(box.parts[0].turned, strip.width)]
        found = [(at, box) for box in matched or ways for at in _places(skyline, box, strip, place)]
        at, box = min(found, key=lambda two: two[0])
        lay += box.lying(at.left, at.low)
        right, height = at.left + box.width + strip.gap, at.top + strip.gap
        skyline = list(_raised(skyline, _Step(at.left, right, height)))
    return lay


def _places(skyline: Sequence[_Step], box: _Box, strip: Strip, place: Lattice) -> Iterator[_Place]:
    """At the left end of every step, or where it matches; a box as wide as the strip always has the first."""
    end, lead = skyline[-1].right + FITS_MM, box.parts[0]
    lefts = {step.left for step in skyline}
    if place.matches(lead.turned, strip.width):
        places = (place.columns(lead.turned, left + lead.x, strip.width) for left in lefts)
        lefts = {x - lead.x for found in places for x in found}
    for left in lefts:
        right = left + box.width + strip.gap
        if left > 0 and right > end:
            continue
        covered = max(step.height for step in skyline if step.left < right and left < step.right)
        low = place.lowest(lead.turned, left + lead.x, covered + lead.y) - lead.y
        yield _Place(low + box.height, low, left)


def _raised(skyline: Sequence[_Step], box: _Step) -> Iterator[_Step]:
    """The skyline with a box on it, which may begin within a step."""
    is_laid = False
    for step in skyline:
        if step.right <= box.left or step.left >= box.right:
            yield step
            continue
        if step.left < box.left:
            yield _Step(step.left, box.left, step.height)
        if not is_laid:
            yield box
            is_laid = True
        if step.right > box.right:
            yield _Step(box.right, step.right, step.height)
