"""The day bodice of the demo's drawings as rows: read, calibrated, traced, and its wearer measured."""

from catalogue.plates.models.piece import Piece, Seam
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.tracing import level_widths
from catalogue.tracing.models import TracedLevel, TracedPiece
from catalogue.workroom.models import Workroom
from fitting.outfits.models.garment import Garment
from fixtures.demo.draw.garments import day_bodice
from tests.makers.drafts import to_grade
from tests.makers.rows import (
    make_garment,
    make_measures,
    make_outfit,
    make_piece,
    make_plate,
    make_reference,
    make_scan,
    make_wearer,
)

MM_PER_PX, TIMES = 0.5, 8  # make_scan's, and a plate of 1:8
MEASURES = {"bust": "38 in", "waist": "26 in", "nape to waist": "15 3/4 in", "upper arm": "13 1/2 in"}

SEAMS = (
    ("front", "under-arm seam", "under-arm", "under-arm seam"),
    ("upper sleeve", "whole head", "front", "whole armhole"),
    ("front", "shoulder", "back", "shoulder"),
    ("under-arm", "side seam", "side back", "side seam"),
    ("side back", "back seam", "back", "back seam"),
    ("upper sleeve", "hind arm seam", "under sleeve", "hind arm seam"),
    ("upper sleeve", "fore arm seam", "under sleeve", "fore arm seam"),
)


def make_traced_bodice(workroom: Workroom, **garment) -> Garment:
    """Over one-piece measures, without ease: what is wanted is what was measured."""
    plate = make_plate(make_reference(workroom))
    make_scan(plate)
    for draft in day_bodice.PLATE.pieces:
        _make_piece(plate, draft)
    pieces = {piece.name: piece for piece in plate.pieces.all()}
    for one, edge, other, other_edge in SEAMS:
        Seam.objects.create(
            plate=plate, piece_a=pieces[one], edge_a=edge, piece_b=pieces[other], edge_b=other_edge
        )
    wearer = make_wearer(workroom)
    measures = make_measures(wearer, MEASURES)
    outfit = make_outfit(workroom, wearer=wearer)
    return make_garment(outfit, plate=plate, measures=measures, **garment)


def _make_piece(plate: Plate, draft) -> Piece:
    traced = to_grade(draft)
    readings = {
        width.line: f"{width.width_mm / TIMES:.4f} mm" for width in level_widths(traced.shape, traced.levels)
    }
    lengths = {line: f"{mm / TIMES:.4f} mm" for line, mm in traced.shape.lengths_mm().items()}
    piece = make_piece(plate, draft.name, {**readings, **lengths}, cut=draft.cut, on_fold=draft.on_fold)
    for width in level_widths(traced.shape, traced.levels):
        row = piece.readings.get(line=width.line)
        row.take_up_um = round(1000 * width.take_up_mm / TIMES)
        row.save()
    nodes = [
        {**_px(node.at), "corner": node.corner, "curved": node.curved, "edge": node.edge}
        for node in traced.shape.outline.nodes
    ]
    marks = [
        {"kind": mark.kind, "line": mark.line, "points": [list(_px(at).values()) for at in mark.points]}
        for mark in traced.shape.marks
    ]
    TracedPiece.objects.create(piece=piece, nodes=nodes, marks=marks)
    for level in traced.levels:
        points = [list(_px(at).values()) for at in (level.start, level.end)]
        TracedLevel.objects.create(plate=plate, line=level.line, points=points)
    return piece


def _px(at: complex) -> dict[str, float]:
    return {"x": at.real / MM_PER_PX, "y": at.imag / MM_PER_PX}
