"""The cutting line of a piece: its outline with its allowances, corners mirrored where a seam asks for it."""

from shapely import Polygon

from fitting.pattern.calculation.sheets.cutting_line import cutting_line
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece


def cutting_line_of(pattern: Pattern, piece: PatternPiece) -> Polygon:
    """Raises Faults where an allowance closes the piece round a hole."""
    allowance = piece.allowance
    return cutting_line(
        piece.outline, usual_mm=allowance.usual_mm, by_edge=allowance.by_edge, name=piece.name
    )
