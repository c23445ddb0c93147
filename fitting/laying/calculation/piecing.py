"""Piecing: a piece wider than the cloth, cut as several and joined along the warp.

As few parts as the cloth allows, each the full width of it but one small one. That one comes where a join
hides: at a side of the piece, under an arm or in a fold, the side where it takes less cloth. Both sides of a
line get the piece's allowance.
"""

import math
from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass
from itertools import count, pairwise

from shapely import Polygon, box

from fitting.laying.calculation.piece import LayPiece, Outline, OutlineNotUsable, ring
from fitting.laying.calculation.strip import FITS_MM, bounds

MOST_PARTS = 40
LEAST_PART_MM = 25.4  # a narrower part is more seam than cloth; common practice, no source
_NO_AREA_MM2 = 1e-3
_SLIP = 1e-9
_FAR = 1e7  # beyond any piece


@dataclass(frozen=True, slots=True, kw_only=True)
class PiecedPart:
    """One part as it is cut, in the coordinates of the whole piece."""

    name: str
    cut_outline: Outline


@dataclass(frozen=True, slots=True, kw_only=True)
class Piecing:
    """A piece, where it is joined (x in the piece's own coordinates), and its parts from the left."""

    piece: LayPiece
    lines_x_mm: tuple[float, ...]
    parts: tuple[PiecedPart, ...]


_TOO_NARROW = f"The cloth is too narrow: joining this piece would take more than {MOST_PARTS} parts."


def pieced(piece: LayPiece, width: float, *, taken: Container[str] = (), repeat_mm: float = 0.0) -> Piecing:
    """The piece in parts, none wider than `width`, none called by a name that is taken.

    Joins lie whole repeats apart where the cloth holds one, so that each part takes up the pattern where the
    last leaves it.

    Raises OutlineNotUsable where the cloth is too narrow.
    """
    net = Polygon(piece.outline)
    left, _, right, _ = bounds(piece.cut_outline)
    net_left, _, net_right, _ = bounds(piece.outline)
    apart = width - 2 * piece.allowance_mm
    if repeat_mm and apart >= repeat_mm:
        apart = repeat_mm * math.floor(apart / repeat_mm + _SLIP)
    from_left = _lines(left, right, (net_left, net_right), width, piece.allowance_mm, apart)
    from_right = _lines(-right, -left, (-net_right, -net_left), width, piece.allowance_mm, apart)
    at_right = from_left
    at_left = tuple(-x for x in reversed(from_right))
    left_part = net.intersection(_between(-_FAR, at_left[0])).area
    right_part = net.intersection(_between(at_right[-1], _FAR)).area
    lines = at_left if left_part < right_part - _NO_AREA_MM2 else at_right
    names = (name for at in count(1) if (name := f"{piece.name} part {at}") not in taken)
    parts = tuple(
        PiecedPart(name=name, cut_outline=part)
        for part, name in zip(_parts(piece, net, lines), names, strict=False)
    )
    if any(_width(part.cut_outline) > width + FITS_MM for part in parts):
        raise OutlineNotUsable(_TOO_NARROW)
    return Piecing(piece=piece, lines_x_mm=lines, parts=parts)


def _lines(
    left: float, right: float, net: tuple[float, float], width: float, allowance: float, apart: float
) -> tuple[float, ...]:
    """From the left, as far apart as the cloth allows; the last leaves a part that can be sewn."""
    if apart <= 0 or (right - left) / apart > MOST_PARTS:
        raise OutlineNotUsable(_TOO_NARROW)
    lines = [left + width - allowance]
    while right - lines[-1] + allowance > width + FITS_MM:
        lines.append(lines[-1] + apart)
    before = lines[-2] if len(lines) > 1 else net[0]
    if net[1] - 2 * LEAST_PART_MM > before:
        lines[-1] = min(lines[-1], net[1] - LEAST_PART_MM)
    return tuple(lines)


def _parts(piece: LayPiece, net: Polygon, lines: Sequence[float]) -> Iterator[Outline]:
    """Each strip between two lines, and its allowance; a hollow can leave several parts in one strip."""
    cut = Polygon(piece.cut_outline)
    for start, end in pairwise((-_FAR, *lines, _FAR)):
        inside = net.intersection(_between(start, end))
        with_allowance = cut.intersection(_between(start - piece.allowance_mm, end + piece.allowance_mm))
        for part in getattr(with_allowance, "geoms", [with_allowance]):
            if isinstance(part, Polygon) and part.intersection(inside).area > _NO_AREA_MM2:
                yield ring(part)


def _between(start: float, end: float) -> Polygon:
    return box(start, -_FAR, end, _FAR)


def _width(outline: Outline) -> float:
    left, _, right, _ = bounds(outline)
    return right - left
