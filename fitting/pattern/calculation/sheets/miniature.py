"""Pieces small on one page: at the scale that is asked for, or at the largest that the paper takes."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.sheets.paper import MARGIN_MM, Paper, Tiling
from fitting.pattern.calculation.sheets.sheet import (
    Allowances,
    PieceToPrint,
    Sheet,
    made_ready,
    shelved,
)

_TIMES_SMALLER = tuple(half / 2 for half in range(2, 81))  # 1, 1.5, 2 … 40
_FOOT_MM = 12.0  # of a roll, for its test square


def miniature_sheet(
    pieces: Sequence[PieceToPrint], *, paper: Paper, scale: float, allowance_mm: float
) -> Sheet:
    """The pieces on one page. `scale` is page ÷ full size; the allowance is the page's own.

    Raises Faults where they do not fit, with the largest scale that does.
    """
    if sheet := _on_one_page(pieces, paper, scale, allowance_mm):
        return sheet
    best = largest_scale(pieces, paper=paper, allowance_mm=allowance_mm)
    way_out = f"1 to {1 / best:g} is the largest that does" if best else "take a larger"
    raise Faults(
        [Fault("paper", f"At this scale the pieces do not lie on one page of {paper.name}: {way_out}.")]
    )


def largest_scale(pieces: Sequence[PieceToPrint], *, paper: Paper, allowance_mm: float) -> float | None:
    """The largest at which they lie on one page, by halves of “1 to so many”; None where none is."""

    def fits(times: float) -> bool:
        return _on_one_page(pieces, paper, 1 / times, allowance_mm) is not None

    at = bisect_left(_TIMES_SMALLER, True, key=fits)
    return 1 / _TIMES_SMALLER[at] if at < len(_TIMES_SMALLER) else None


def _on_one_page(
    pieces: Sequence[PieceToPrint], paper: Paper, scale: float, allowance_mm: float
) -> Sheet | None:
    small = [
        replace(piece.placed(lambda point: point * scale), words=piece.words[:1], own_cut=None)
        for piece in pieces
    ]
    ready = made_ready(small, Allowances(usual_mm=allowance_mm, by_edge={}))
    is_roll = paper.name == "roll"
    for page in (paper,) if is_roll else (paper, paper.turned):
        placed, (width_mm, height_mm) = shelved(ready, page.prints_mm[0])
        if width_mm <= page.prints_mm[0] and height_mm <= page.prints_mm[1]:
            if is_roll:
                page = Paper.roll(paper.width_mm, height_mm + 2 * MARGIN_MM + _FOOT_MM)
            tiling = Tiling(width_mm=page.prints_mm[0], height_mm=page.prints_mm[1], paper=page, overlap_mm=0)
            return Sheet(pieces=placed, tiling=tiling, scale=scale)
    return None
