"""The pieces of one plate as a pattern at full size, traced or boxes of typed lengths; how they are sewn."""

from collections.abc import Sequence
from dataclasses import replace

from catalogue.lengths.calculation.errors import Faults
from catalogue.lengths.calculation.levels import LINES
from catalogue.plates.calculation.scale import ScaleNotUnderstood
from catalogue.plates.loading import scale_of
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.sides import nearest, outline_of, sides_of
from catalogue.tracing.calculation.tracing import LevelLine, Mark, TracedShape, level_widths
from catalogue.tracing.loading.outlines import levels_of, map_of
from fitting.comparing.loading.case import OutfitRows
from fitting.comparing.loading.draft import draft_measure_mm, growth_of
from fitting.outfits.models.garment import Garment
from fitting.pattern.calculation.grading.values import GradingJoin
from fitting.pattern.calculation.motion import enlarged
from fitting.pattern.calculation.sleeve_walk import is_sleeve
from fitting.pattern.calculation.working.edges import inset
from fitting.pattern.calculation.working.pattern import (
    Path,
    Pattern,
    PatternPiece,
    PatternSeam,
    SleeveSeam,
)
from fitting.pattern.calculation.working.rounds import each_edge_once, free_name
from fitting.pattern.calculation.working.sleeves import parts_of
from fitting.pattern.loading.traced_plate import traced_plate, traced_seams

BESIDE_MM = 3.0  # at full size: what a press on a page at 1:8 is off at most
BOX_MM = 1.0  # a box is never thinner, whatever was typed


def pattern_of_plate(plate: Plate, garment: Garment, rows: OutfitRows) -> tuple[Pattern, list[str]]:
    """Its pieces, its seams with the ease they have on the plate, its sleeves; and what to know of it."""
    try:
        scale_of(plate)
    except ScaleNotUnderstood as fault:
        return Pattern(pieces=()), [f"{plate}: {fault.sentence}"]
    traced = traced_plate(plate)
    growth = growth_of(plate, draft_measure_mm(plate, rows.used(garment)))
    lines = levels_of(plate, map_of(traced.calibration)) if traced.calibration else []
    found, doubts = [], []
    for piece in plate.pieces.all():
        if shape := traced.shapes.get(piece):
            made = piece_as_drawn(piece, enlarged(shape, growth), _enlarged(lines, growth))
            made, left = _without_allowance(made, plate)
            doubts += left
        else:
            made = _box(piece, plate, growth)
            doubts.append(f"{piece} is not traced: it is a box of its typed lengths.")
        found.append(_named_once(made, [one.name for one in found]))
    return _sewn(Pattern(pieces=tuple(found)), [join for _, join in traced_seams(traced)]), doubts


def _named_once(piece: PatternPiece, taken: Sequence[str]) -> PatternPiece:
    """On a plate two pieces, or two edges of a piece, may bear one name; on a pattern each has its own."""
    edges = [node.edge for node in piece.outline.nodes if node.edge]
    if len(set(edges)) < len(edges):
        piece = replace(piece, outline=outline_of(each_edge_once(piece.sides)))
    return replace(piece, name=free_name(piece.name, taken))


def _sewn(pattern: Pattern, joins: Sequence[GradingJoin]) -> Pattern:
    single = [join for join in joins if len(join.one) == 1 == len(join.other) and not is_sleeve(join)]
    seams = [
        PatternSeam(pieces=(join.one[0][0], join.other[0][0]), edges=(join.one[0][1], join.other[0][1]))
        for join in single
    ]
    eased = [replace(seam, ease_mm=pattern.off_mm(seam)) for seam in seams]
    sewn = replace(pattern, seams=tuple(seam for seam in eased if seam.ease_mm is not None))
    sleeves = [
        SleeveSeam(join=join, eases_mm=eases)
        for join in joins
        if is_sleeve(join) and (eases := parts_of(sewn, join))
    ]
    return replace(sewn, sleeves=tuple(sleeves))


def _enlarged(lines: Sequence[LevelLine], by: float) -> list[LevelLine]:
    return [LevelLine(line=one.line, start=one.start * by, end=one.end * by) for one in lines]


def piece_as_drawn(piece: Piece, shape: TracedShape, lines: Sequence[LevelLine]) -> PatternPiece:
    """By its traced outline, with the levels that cross it."""
    levels: dict[str, Path] = {
        width.line: (width.spans[0][0], width.spans[-1][1]) for width in level_widths(shape, lines)
    }
    return PatternPiece(
        name=piece.name,
        outline=shape.outline,
        cut=piece.cut,
        mirrored=piece.cut % 2 == 0 and not piece.on_fold,
        levels=levels,
        marks=tuple(_on_outline(mark, shape.outline) for mark in shape.marks),
        cloth=piece.cloth,
        on_fold=piece.on_fold,
    )


def _on_outline(mark: Mark, outline: Outline) -> Mark:
    """A notch, or a foot of a dart, that was pressed beside the outline is meant to be on it."""
    if mark.kind not in ("notch", "dart"):
        return mark
    sides = sides_of(outline)
    ways = [(point, nearest(sides, point)) for point in mark.points]
    points = tuple(
        sides[place[0]].cubic.at(place[1]) if off <= BESIDE_MM else point for point, (place, off) in ways
    )
    return replace(mark, points=points)


def _without_allowance(piece: PatternPiece, plate: Plate) -> tuple[PatternPiece, list[str]]:
    """The seam lines of a piece that was drawn with its allowance; edges that cannot be taken in are told."""
    if plate.allowance == Plate.AllowanceKind.UNKNOWN:
        return piece, [f"Whether {piece.name} was drawn with seam allowance is not known: it is as drawn."]
    if plate.allowance != Plate.AllowanceKind.INCLUDED:
        return piece, []
    folds = [mark.points for mark in piece.marks if mark.kind == "fold"]
    on_fold = [
        name
        for name, edge in piece.edges.items()
        if any(_lies_along(edge.start, edge.end, points) for points in folds)
    ]
    try:
        seam_lines = inset(piece, plate.allowance_length.mm, on_fold)
        if not seam_lines.outline.faults(piece.name):
            return seam_lines, []
    except Faults:
        pass
    return piece, [f"{piece.name}: the allowance drawn on it could not be taken off. Look at its edges."]


def _lies_along(start: complex, end: complex, points: Sequence[complex]) -> bool:
    along = end - start
    return bool(along) and all(abs(((at - start) / along).imag) * abs(along) < 5.0 for at in points)


def _box(piece: Piece, plate: Plate, growth: float) -> PatternPiece:
    scale = scale_of(plate)
    read = {row.line: (1.0 if row.is_plain else growth) * row.reading.mm for row in piece.readings.all()}
    across = [mm * scale.across for line, mm in read.items() if LINES[line].kind == "girth"]
    along = [mm * scale.along for line, mm in read.items() if LINES[line].kind == "length"]
    along += [
        length.mm * scale.along
        for seam in plate.seams.all()
        for owner, length in ((seam.piece_a_id, seam.length_a), (seam.piece_b_id, seam.length_b))
        if owner == piece.pk and length
    ]
    width, height = max([BOX_MM, *across]), max([BOX_MM, *along])
    corners = (0j, complex(width), complex(width, height), complex(0, height))
    names = ("top", "right", "bottom", "left")
    return PatternPiece(
        name=piece.name,
        outline=Outline(nodes=tuple(Node(at=at, edge=name) for at, name in zip(corners, names, strict=True))),
        cut=piece.cut,
        mirrored=piece.cut % 2 == 0 and not piece.on_fold,
        cloth=piece.cloth,
        on_fold=piece.on_fold,
        is_box=True,
    )
