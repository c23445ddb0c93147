"""A pattern as the drawing that goes out as SVG or DXF: every piece at full size, clear of the others."""

import json
from dataclasses import replace

from catalogue.plates.models.piece import Piece
from catalogue.tracing.loading.drawing import MARGIN_MM, PieceTracing, PlateTracing
from fitting.pattern.calculation.motion import shifted
from fitting.pattern.calculation.sheets.cutting_line import ring_of
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece
from fitting.pattern.exchange.pattern_svg import kept_of_pattern, kept_of_piece
from fitting.pattern.loading.garment_patterns import own_cutting_line

DIGITS = 8  # of a place, in millimetres: what is read again is the same curve
_WIDEST_MM = 3000.0  # of a row of pieces
_APART_MM = 30.0


def drawing_of_pattern(pattern: Pattern) -> PlateTracing:
    """In rows, in the order of its pieces; each says by how much it was moved there."""
    drawn = []
    x = y = high = far = 0.0
    for piece in pattern.pieces:
        left, top, right, foot = _bounds(pattern, piece)
        if x and x + right - left > _WIDEST_MM:
            x, y, high = 0.0, y + high + _APART_MM, 0.0
        drawn.append(_drawn(pattern, piece, complex(x - left, y - top)))
        x, high = x + right - left + _APART_MM, max(high, foot - top)
        far = max(far, x - _APART_MM)
    return PlateTracing(
        pieces=tuple(drawn),
        levels=(),
        left=-MARGIN_MM,
        top=-MARGIN_MM,
        width=far + 2 * MARGIN_MM,
        height=y + high + 2 * MARGIN_MM,
        digits=DIGITS,
        kept=json.dumps(kept_of_pattern(pattern)),
    )


def _drawn(pattern: Pattern, piece: PatternPiece, moved: complex) -> PieceTracing:
    cut = own_cutting_line(pattern, piece)
    return PieceTracing(
        piece=Piece(name=piece.name, cut=piece.cut, cloth=piece.cloth, on_fold=piece.on_fold),
        shape=piece.shape,
        own_levels=piece.levels,
        cutting=tuple(complex(*place) for place in ring_of(cut)) if cut else (),
        moved=complex(round(moved.real, 3), round(moved.imag, 3)),
        kept=json.dumps(kept_of_piece(piece)),
    )


def _bounds(pattern: Pattern, piece: PatternPiece) -> tuple[float, float, float, float]:
    """Of its cutting line, where it has one of its own."""
    if cut := own_cutting_line(pattern, piece):
        return cut.bounds
    points = piece.outline.flattened(0.5)
    across, down = [at.real for at in points], [at.imag for at in points]
    return min(across), min(down), max(across), max(down)


def outlines_of_pattern(pattern: Pattern) -> PlateTracing:
    """The same pieces as a figure takes them: each where it is drawn, by its seam lines alone."""
    drawing = drawing_of_pattern(pattern)
    pieces = (
        PieceTracing(piece=drawn.piece, shape=shifted(drawn.shape, drawn.moved)) for drawn in drawing.pieces
    )
    return replace(drawing, pieces=tuple(pieces))
