"""The day bodice of the demo's drawings as a working pattern, without a database."""

from dataclasses import replace

from catalogue.tracing.calculation.tracing import level_widths
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece, PatternSeam
from fixtures.demo.draw.garments import day_bodice
from tests.makers.drafts import to_grade


def drawn(draft) -> PatternPiece:
    traced = to_grade(draft)
    levels = {
        width.line: (width.spans[0][0], width.spans[-1][1])
        for width in level_widths(traced.shape, traced.levels)
    }
    shape = traced.shape
    return PatternPiece(
        name=draft.name, outline=shape.outline, cut=draft.cut, mirrored=draft.cut == 2, levels=levels,
        marks=shape.marks, on_fold=draft.on_fold,
    )  # fmt: skip


def with_straight_dart(piece: PatternPiece) -> PatternPiece:
    """Its first dart ends at its point: the one beneath the waist is left out."""
    dart = next(mark for mark in piece.marks if mark.kind == "dart")
    point = dart.points[1]
    waist = next(side for side in piece.sides if side.edge == "hem")
    feet = [waist.cubic.at(t) for t in (0.4, 0.5)]
    return replace(piece, marks=(replace(dart, points=(feet[0], point, feet[1])), *piece.marks[1:]))


SEAMS = (
    PatternSeam(pieces=("front", "under-arm"), edges=("under-arm seam", "under-arm seam")),
    PatternSeam(pieces=("under-arm", "side back"), edges=("side seam", "side seam")),
)
PIECES = [drawn(piece) for piece in day_bodice.PLATE.pieces]
PATTERN = Pattern(
    pieces=tuple(with_straight_dart(piece) if piece.name == "front" else piece for piece in PIECES),
    seams=SEAMS,
)
