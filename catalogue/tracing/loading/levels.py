"""Levels of a plate that may be cut short on its pieces, and how each is asked to be moved."""

from dataclasses import dataclass

from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.calibration import CLICK_PX
from catalogue.tracing.calculation.cut_short import CutShort, levels_cut_short
from catalogue.tracing.calculation.tracing import click_doubt_mm
from catalogue.tracing.loading.outlines import current_calibration, faults_of, level_of, map_of, shape_of
from catalogue.tracing.models import TracedLevel, TracedPiece


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLevel:
    """`key` is what a page sends back to have the level moved."""

    piece: Piece
    row: TracedLevel
    cut: CutShort
    number: int

    @property
    def key(self) -> str:
        return f"{self.piece.pk}-{self.row.pk}-{self.number}"


def cut_levels(plate: Plate, *, only: Piece | None = None) -> list[CutLevel]:
    """On all traced pieces of the plate, or on one; nothing of a piece that cannot be measured at all."""
    calibration = current_calibration(plate)
    if calibration is None:
        return []
    flat, rows = map_of(calibration), list(plate.traced_levels.all())
    levels = [level_of(row, flat) for row in rows]
    traced = TracedPiece.objects.filter(piece__plate=plate).select_related("piece")
    found = []
    for one in traced.filter(piece=only) if only else traced:
        shape = shape_of(one, flat)
        if len(shape.outline.nodes) < 3 or faults_of(shape, levels):
            continue
        near_mm = click_doubt_mm(flat.mm_per_px(complex(one.nodes[0]["x"], one.nodes[0]["y"])), CLICK_PX)
        for number, cut in enumerate(levels_cut_short(shape, levels, near_mm)):
            row = next(row for row, level in zip(rows, levels, strict=True) if level is cut.level)
            found.append(CutLevel(piece=one.piece, row=row, cut=cut, number=number))
    return found
