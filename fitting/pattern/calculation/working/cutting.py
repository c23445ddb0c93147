"""The cutting line of a piece: its outline with its allowances, corners mirrored where a seam asks for it.

A seam that is pressed open lays its allowance back on the piece. So that it then ends at the neighbours'
cutting lines, neither short of them nor past them, its ends are cut as the mirror image of what lies inside.
"""

from collections.abc import Iterator

from shapely import Polygon, difference, intersection, union_all
from shapely.affinity import affine_transform

from catalogue.tracing.calculation.curve import Point, chord
from fitting.pattern.calculation.sheets.cutting_line import MITRE_LIMIT, cutting_line
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece

_GRID_MM, _SLIT_MM = 1e-6, 1e-3


def cutting_line_of(pattern: Pattern, piece: PatternPiece) -> Polygon:
    """Raises Faults where an allowance closes the piece round a hole."""
    allowance = piece.allowance
    mitred = cutting_line(
        piece.outline, usual_mm=allowance.usual_mm, by_edge=allowance.by_edge, name=piece.name
    )
    cut = mitred
    for corner, along, out in _mirrored_corners(pattern, piece):
        cut = _with_mirrored(cut, mitred, corner, along, out)
    return cut


def _mirrored_corners(pattern: Pattern, piece: PatternPiece) -> Iterator[tuple[Point, Point, Point]]:
    """Each end of an edge whose seam asks for it: where, which way the edge runs there, its allowance."""
    for seam in pattern.seams:
        for name, edge in zip(seam.pieces, seam.edges, strict=True):
            if not seam.mirrored_corners or name != piece.name or edge not in piece.edges:
                continue
            allowance_mm = piece.allowance.by_edge.get(edge, piece.allowance.usual_mm)
            first, last = piece.edges[edge].sides[0], piece.edges[edge].sides[-1]
            ends = (
                (first.start, chord(first.start, first.at(1e-3))),
                (last.end, chord(last.at(0.999), last.end)),
            )
            if allowance_mm > 0:
                yield from ((corner, way, way * piece.outward * allowance_mm) for corner, way in ends)


def _with_mirrored(cut: Polygon, mitred: Polygon, corner: Point, along: Point, out: Point) -> Polygon:
    """What lies past the seam line at a corner, made the mirror image of what lies within it."""
    reach = along * MITRE_LIMIT * abs(out)
    within = intersection(mitred, _box(corner, reach, -out), grid_size=_GRID_MM)
    mirrored = affine_transform(within, _reflection(corner, along))
    rest = difference(cut, _box(corner, reach, out), grid_size=_GRID_MM)
    # Both are drawn a little over the line on which they meet, so that rounding leaves no slit between them.
    made = union_all([one.buffer(_SLIT_MM, join_style="mitre") for one in (rest, mirrored)])
    made = made.buffer(-_SLIT_MM, join_style="mitre").simplify(_SLIT_MM)
    return made if isinstance(made, Polygon) else cut


def _box(corner: Point, along: Point, across: Point) -> Polygon:
    points = (corner - along, corner + along, corner + along + across, corner - along + across)
    return Polygon([(point.real, point.imag) for point in points])


def _reflection(corner: Point, along: Point) -> list[float]:
    """The matrix of a reflection in the line through the corner, as shapely takes it."""
    turn = along * along
    shift = corner - turn * corner.conjugate()
    return [turn.real, turn.imag, turn.imag, -turn.real, shift.real, shift.imag]
