"""The plain lay: every piece in its box, each box as low on the cloth as it goes. Quick, and always sound."""

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from fitting.laying.calculation.settling import settle
from fitting.laying.calculation.strip import FITS_MM, Lying, Strip, Turned, length_of


class _Step(NamedTuple):
    """A part of the skyline: between left and right everything below `height` is taken."""

    left: float
    right: float
    height: float


class _Place(NamedTuple):
    """Where a box would lie; the best has the lowest top, then lies lowest, then leftmost."""

    top: float
    low: float
    left: float


# The order in which boxes are laid decides the length: each of these is tried, largest first.
_ORDERS: tuple[Callable[[Turned], float], ...] = (
    lambda one: one.height,
    lambda one: one.width,
    lambda one: one.width * one.height,
    lambda one: one.width + one.height,
)


def box_lay(strip: Strip) -> list[Lying]:
    """The shortest of the lays tried, settled; gaps kept between pieces, none at the cloth's edge."""
    return settle(strip, min((_in_order(strip, order) for order in _ORDERS), key=length_of))


def _in_order(strip: Strip, order: Callable[[Turned], float]) -> list[Lying]:
    copies = [turns for turns in strip.shapes for _ in range(turns[0].shape.copies)]
    # Boxes keep the gap to their right and above; on a strip wider by one gap none is kept at the right edge.
    skyline = [_Step(0.0, strip.width + strip.gap, 0.0)]
    lay = []
    for turns in sorted(copies, key=lambda turns: -order(turns[0])):
        best = {one: min(_places(skyline, one.width + strip.gap, one.height)) for one in turns}
        one = min(best, key=lambda one: best[one])
        place = best[one]
        lay.append(Lying(turned=one, x=place.left - one.left, y=place.low - one.low))
        right, height = place.left + one.width + strip.gap, place.top + strip.gap
        skyline = list(_raised(skyline, _Step(place.left, right, height)))
    return lay


def _places(skyline: Sequence[_Step], width: float, height: float) -> Iterator[_Place]:
    """At the left end of every step; a box as wide as the strip always has the first."""
    end = skyline[-1].right + FITS_MM
    for at, step in enumerate(skyline):
        if at and step.left + width > end:
            break
        covered = (one.height for one in skyline[at:] if one.left < step.left + width)
        low = max(covered)
        yield _Place(low + height, low, step.left)


def _raised(skyline: Sequence[_Step], box: _Step) -> Iterator[_Step]:
    for step in skyline:
        if step.right <= box.left or step.left >= box.right:
            yield step
            continue
        if step.left == box.left:
            yield box
        if step.right > box.right:
            yield _Step(box.right, step.right, step.height)
