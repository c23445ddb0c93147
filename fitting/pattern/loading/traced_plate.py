"""The traced pieces of a plate at full size, with their level lines and their seams."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from catalogue.plates.calculation.readings import PlateReadings
from catalogue.plates.models.piece import Piece, Seam
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.tracing import TracedShape
from catalogue.tracing.loading.outlines import current_calibration, levels_of, map_of, shape_of
from catalogue.tracing.models import Calibration, TracedPiece
from fitting.pattern.calculation.grading.values import GradingJoin, PieceToGrade

WHOLE = "whole "


@dataclass(frozen=True, slots=True, kw_only=True)
class TracedPlate:
    """`shapes` by piece: those whose outline is whole and sound, in the order of the plate."""

    plate: Plate
    calibration: Calibration | None
    shapes: Mapping[Piece, TracedShape]

    @property
    def edge_names(self) -> list[str]:
        """Every edge name once, in the order in which they come."""
        names = (edge.name for shape in self.shapes.values() for edge in shape.outline.edges())
        return list(dict.fromkeys(name for name in names if name))


def traced_plate(plate: Plate) -> TracedPlate:
    """Prefetch as `Plate.objects.for_detail_page`."""
    calibration = current_calibration(plate)
    if calibration is None:
        return TracedPlate(plate=plate, calibration=None, shapes={})
    flat = map_of(calibration)
    rows = {
        row.piece_id: row for row in TracedPiece.objects.filter(piece__plate=plate).select_related("piece")
    }
    found = {piece: shape_of(rows[piece.pk], flat) for piece in plate.pieces.all() if piece.pk in rows}
    return TracedPlate(
        plate=plate,
        calibration=calibration,
        shapes={piece: shape for piece, shape in found.items() if not shape.faults()},
    )


def pieces_to_grade(traced: TracedPlate, readings: PlateReadings) -> list[PieceToGrade]:
    """Those that `readings` counts, each going round as often as it is counted there."""
    if traced.calibration is None:
        return []
    levels = tuple(levels_of(traced.plate, map_of(traced.calibration)))
    return [
        PieceToGrade(
            shape=shape,
            levels=levels,
            round_body=2 * piece.cut if piece.on_fold else piece.cut,
            round_limb=(piece.cut if piece.cut % 2 else piece.cut // 2) * (2 if piece.on_fold else 1),
        )
        for piece, shape in traced.shapes.items()
        if piece.name in {drawn.name for drawn in readings.pieces}
    ]


def joins_of(traced: TracedPlate) -> list[GradingJoin]:
    return [join for _, join in traced_seams(traced)]


def traced_seams(traced: TracedPlate) -> list[tuple[Seam, GradingJoin]]:
    """Its seams whose edges are all traced. “Whole armhole” stands for the armhole of every piece."""
    edges = {
        piece.name: {edge.name for edge in shape.outline.edges()} for piece, shape in traced.shapes.items()
    }
    found = []
    for seam in traced.plate.seams.all():
        one = _run(seam.piece_a.name, seam.edge_a, edges)
        other = _run(seam.piece_b.name, seam.edge_b, edges)
        if one and other and one != other:
            found.append((seam, GradingJoin(one=one, other=other)))
    return found


def _run(piece: str, edge: str, edges: Mapping[str, Sequence[str] | set[str]]) -> tuple[tuple[str, str], ...]:
    if edge in edges.get(piece, ()):
        return ((piece, edge),)
    if not edge.startswith(WHOLE):
        return ()
    part = edge.removeprefix(WHOLE)
    return tuple(
        (name, found) for name, names in edges.items() for found in sorted(names) if found.endswith(part)
    )
