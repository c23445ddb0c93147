"""Grading: traced pieces made to a wearer's girths and lengths."""

from fitting.pattern.calculation.grading.grade import grade
from fitting.pattern.calculation.grading.values import (
    GradedJoin,
    GradedLine,
    GradedPiece,
    Grading,
    Join,
    PieceToGrade,
    WantedGirth,
)

__all__ = [
    "GradedJoin",
    "GradedLine",
    "GradedPiece",
    "Grading",
    "Join",
    "PieceToGrade",
    "WantedGirth",
    "grade",
]
