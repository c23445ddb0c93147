"""What the newest version of a working pattern says in place of the plate: girths, seams, pieces."""

from collections.abc import Mapping
from typing import Any

from catalogue.lengths.calculation.levels import LINES
from fitting.comparing.calculation.limits import Limits
from fitting.comparing.calculation.verdict import chances_of, verdict_of
from fitting.outfits.calculation.garment import Fit
from fitting.pattern.calculation.alteration import PlateDifference
from fitting.pattern.calculation.seam_match import MATCHES_MM
from fitting.pattern.calculation.sums.garment import SeamFacts
from fitting.pattern.calculation.working.pattern import Pattern, PatternSeam
from fitting.pattern.loading.piece_shapes import shape_of_piece
from fitting.pattern.loading.seam_walks import VersionSeams
from fitting.pattern.loading.wanted import Wanted, WantedLine
from fitting.pattern.loading.working import WorkingPattern


def facts_of_version(
    working: WorkingPattern, off: Mapping[str, PlateDifference], wanted: Wanted, limits: Limits
) -> dict[str, Any]:
    """By the fields of `GarmentFacts`. `off` is that of the plate: of it the doubt stays."""
    pattern = working.pattern
    girths = _girths(pattern)
    again = {
        line: _again(was, girths[line], wanted.lines[line], limits)
        for line, was in off.items()
        if line in girths and line in wanted.lines
    }
    return {
        "off": {**off, **again},
        "shapes": {piece.name: shape_of_piece(piece) for piece in pattern.pieces},
        "seams": tuple(_seam_of(pattern, seam) for seam in pattern.seams if pattern.off_mm(seam) is not None),
        "widths_mm": {
            piece.name: {line: mm for line, mm in piece.measures.levels.items() if line in LINES}
            for piece in pattern.pieces
        },
        "walkable": VersionSeams(working=working),
    }


def _girths(pattern: Pattern) -> dict[str, float]:
    """None of them where a piece that goes round is a box: nobody has drawn its levels."""
    if any(piece.is_box and piece.cloth in pattern.counted for piece in pattern.pieces):
        return {}
    return {line: mm for line, mm in pattern.girths().items() if line in LINES}


def _again(was: PlateDifference, girth_mm: float, wanted: WantedLine, limits: Limits) -> PlateDifference:
    """The same doubt about another difference: steps have made the pattern another."""
    difference_mm = girth_mm - wanted.mm
    is_loose = wanted.fit is Fit.LOOSE
    chances = chances_of(difference_mm, was.u_mm, limits.of_girths(), is_loose=is_loose)
    return PlateDifference(
        difference_mm=difference_mm,
        u_mm=was.u_mm,
        chances=tuple(chances.by_verdict("girth").values()),
        verdict=verdict_of(chances, "girth"),
    )


def _seam_of(pattern: Pattern, seam: PatternSeam) -> SeamFacts:
    (one, edge), (other, other_edge) = zip(seam.pieces, seam.edges, strict=True)
    pieces = pattern.piece(one), pattern.piece(other)
    return SeamFacts(
        piece_a=one,
        edge_a=edge,
        piece_b=other,
        edge_b=other_edge,
        a_mm=pieces[0].measures.edges[edge],
        b_mm=pieces[1].measures.edges[other_edge],
        is_eased=abs(seam.ease_mm or 0.0) > MATCHES_MM,
        is_traced=True,
        cut=max(piece.cut for piece in pieces),
    )
