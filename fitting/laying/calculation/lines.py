"""Pieces as they are cut: each edge with its allowance, the grain along the cloth.

A plate is drawn with y downwards, a lay with y along the cloth, away from its start: pieces are turned over
from the one to the other, never mirrored. A piece drawn to a fold is opened, or stays half on folded cloth.
"""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from shapely import Polygon, affinity, box

from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.tracing import Mark, TracedShape
from fitting.laying.calculation.piece import Outline, ring
from fitting.pattern.calculation.motion import fold_edge, placed, upright
from fitting.pattern.calculation.sheets.cutting_line import cutting_line
from fitting.pattern.calculation.sheets.sheet import Allowances

# A chalk line is wider; a row and its drawings need no more points than that.
CHALK_MM = 0.1
_JOINED_MM = 0.1  # halves that meet at a fold are one piece, whatever the last digits say
_FAR_MM = 1e6
_STRAIGHT = 0.99  # from end to end, as a part of its length
_ALONG = math.radians(2)  # a fold this near to the grain lies along it


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """The sewing and the cutting line of a piece; `is_half`: its fold is its left side, at x = 0.

    `match`: the point that lies at one place of a repeat; None for its lowest.
    """

    outline: Outline
    cut_outline: Outline
    is_half: bool
    match: tuple[float, float] | None = None


def lines_of(
    shape: TracedShape,
    *,
    allowances: Allowances,
    turn_deg: float,
    is_on_fold: bool,
    half: bool,
    match: Point | None = None,
    own_cut: tuple[Point, ...] = (),
) -> Lines | None:
    """A traced piece on open cloth, or for folded cloth `half` of it where its fold lies along the grain.

    `turn_deg` is for a piece without a grain line. `own_cut`: its cutting line, in place of the allowances.
    None where no fold is marked to open it at, or its halves do not meet there.
    Raises Faults where its allowance closes it round a hole.
    """
    # Its matching point and its cutting line go where its marks go.
    carried = [Mark(kind="length", points=points) for points in (() if match is None else (match,), own_cut)]
    there = _along_the_cloth(replace(shape, marks=(*carried, *shape.marks)), turn_deg)
    fold = _fold_of(there) if is_on_fold else None
    if is_on_fold and fold is None:
        return None
    is_half = half and fold is not None and abs(math.sin(cmath.phase(chord(*fold)) - math.pi / 2)) < _ALONG
    if fold and is_half:
        there = placed(there, lambda at: (at - fold[0]) * 1j / chord(*fold))
    sewing = Polygon([(at.real, at.imag) for at in there.outline.flattened()])
    own = there.marks[1].points
    cutting = Polygon([(at.real, at.imag) for at in own]) if own else _cutting(there, allowances)
    both = [_laid(one, sewing, fold, is_half=is_half) for one in (sewing, cutting)]
    if not all(isinstance(one, Polygon) for one in both):
        return None
    net, cut = (one.simplify(CHALK_MM) for one in both)
    left, low = (0.0 if is_half else net.bounds[0]), net.bounds[1]
    # A piece that was opened stands about the foot of its fold.
    about = complex(left, low) + (fold[0] if fold and not is_half else 0)
    matched = _rounded([((at - about).real, (at - about).imag) for at in there.marks[0].points])
    outline, cut_outline = (_rounded(ring(affinity.translate(one, -left, -low))) for one in (net, cut))
    return Lines(
        outline=outline, cut_outline=cut_outline, is_half=is_half, match=matched[0] if matched else None
    )


def _cutting(shape: TracedShape, allowances: Allowances) -> Polygon:
    return cutting_line(
        shape.outline, usual_mm=allowances.usual_mm, by_edge=allowances.by_edge, name=shape.name
    )


def box_lines(width_mm: float, length_mm: float, *, allowance_mm: float, half: bool) -> Lines:
    """The box that stands for a piece without an outline; `width_mm` is that of the whole piece."""
    right = width_mm / 2 if half else width_mm
    net = box(0, 0, right, length_mm)
    left = 0.0 if half else -allowance_mm
    cut = box(left, -allowance_mm, right + allowance_mm, length_mm + allowance_mm)
    return Lines(outline=ring(net), cut_outline=ring(cut), is_half=half)


def _along_the_cloth(shape: TracedShape, turn_deg: float) -> TracedShape:
    if any(mark.kind == "grain" for mark in shape.marks):
        shape, turn_deg = upright(shape)[0], 0.0
    turn = cmath.rect(1, math.radians(turn_deg))
    return placed(shape, lambda at: (at * turn).conjugate())


def _fold_of(shape: TracedShape) -> tuple[Point, Point] | None:
    """The lower and the upper end of the edge at the fold; where no straight one lies there, of the mark."""
    ends = next((mark.points for mark in shape.marks if mark.kind == "fold"), ())
    if edge := fold_edge(shape):
        sides = (edge.sides[0].start, edge.sides[-1].end)
        ends = sides if abs(sides[1] - sides[0]) > _STRAIGHT * edge.length else ends
    if not ends or ends[0] == ends[1]:
        return None
    low, high = sorted(ends, key=lambda at: (at.imag, at.real))
    return low, high


def _laid(polygon: Polygon, sewing: Polygon, fold: tuple[Point, Point] | None, *, is_half: bool) -> Polygon:
    """Whole as it is, half where its fold stands at x = 0, or opened at its fold."""
    if fold is None:
        return polygon
    return _right_of_fold(polygon, sewing) if is_half else _opened(polygon, sewing, fold)


def _right_of_fold(polygon: Polygon, sewing: Polygon) -> Polygon:
    """Cut off at the fold, which stands at x = 0; a piece that lies to its left is the same turned over."""
    if sewing.centroid.x < 0:
        polygon = affinity.scale(polygon, xfact=-1, origin=(0, 0))
    return polygon.intersection(box(0, -_FAR_MM, _FAR_MM, _FAR_MM))


def _opened(polygon: Polygon, sewing: Polygon, fold: tuple[Point, Point]) -> Polygon:
    """Both halves, without what an allowance adds beyond the fold."""
    turn = 90 - math.degrees(cmath.phase(chord(*fold)))
    origin = (fold[0].real, fold[0].imag)
    upright_one, upright_sewing = (
        affinity.translate(affinity.rotate(one, turn, origin=origin), -origin[0], -origin[1])
        for one in (polygon, sewing)
    )
    half = _right_of_fold(upright_one, upright_sewing)
    grown = [
        one.buffer(_JOINED_MM, join_style="mitre")
        for one in (half, affinity.scale(half, xfact=-1, origin=(0, 0)))
    ]
    whole = grown[0].union(grown[1]).buffer(-_JOINED_MM, join_style="mitre")
    return affinity.rotate(whole, -turn, origin=(0, 0))


def _rounded(outline: Sequence[tuple[float, float]]) -> Outline:
    return tuple((round(x, 3), round(y, 3)) for x, y in outline)
