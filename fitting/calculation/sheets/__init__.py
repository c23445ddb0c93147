"""Sheets: pieces at full size cut into pages, or in miniature on one."""

from fitting.pattern.calculation.sheets.cutting_line import cutting_line
from fitting.pattern.calculation.sheets.paper import PAPERS, Paper, Tiling, page_count
from fitting.pattern.calculation.sheets.sheet import (
    Allowances,
    Page,
    PieceToPrint,
    PrintedPiece,
    Sheet,
    full_size_sheet,
    miniature_sheet,
    notch_lines,
)

__all__ = [
    "PAPERS",
    "Allowances",
    "Page",
    "Paper",
    "PieceToPrint",
    "PrintedPiece",
    "Sheet",
    "Tiling",
    "cutting_line",
    "full_size_sheet",
    "miniature_sheet",
    "notch_lines",
    "page_count",
]
