"""What a working pattern starts from: the pieces of its plates at full size; and what it rests on."""

import hashlib
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from catalogue.lengths.calculation.errors import Faults
from catalogue.lengths.calculation.levels import LINES
from catalogue.plates.calculation.readings import PlateReadings
from catalogue.plates.calculation.scale import ScaleNotUnderstood
from catalogue.plates.loading import plate_values, scale_of
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import LevelLine, TracedShape, level_widths
from catalogue.tracing.loading.outlines import levels_of, map_of
from catalogue.workroom.models import User
from fitting.comparing.loading.case import OutfitRows, outfit_rows
from fitting.comparing.loading.draft import draft_measure_mm, growth_of
from fitting.comparing.loading.readiness import CannotCompare, ready_case
from fitting.outfits.models.garment import Garment
from fitting.pattern.calculation.motion import enlarged
from fitting.pattern.calculation.working.edges import inset
from fitting.pattern.calculation.working.pattern import (
    Path,
    Pattern,
    PatternFastening,
    PatternPiece,
    PatternSeam,
)
from fitting.pattern.loading.traced_plate import traced_plate, traced_seams

BOX_MM = 1.0  # a box is never thinner, whatever was typed


@dataclass(frozen=True, slots=True, kw_only=True)
class Beginning:
    """`doubts`: what the maker should know of it, in a sentence each. Without pieces it cannot be begun."""

    pattern: Pattern
    rests_on: Mapping[str, Any]
    doubts: tuple[str, ...]


def plates_of(garment: Garment) -> list[Plate]:
    """The plate that it is compared with, then those of all references that it draws on."""
    plates = Plate.objects.for_detail_page()
    own = list(plates.filter(pk=garment.plate_id))
    of_references = plates.filter(reference__in=[row.reference_id for row in garment.references.all()])
    return [*own, *of_references.exclude(pk=garment.plate_id)]


def beginning_of(garment: Garment, plates: Sequence[Plate], *, by: User, at: datetime) -> Beginning:
    """The pieces of these plates as one pattern; a name that is there already bears its plate's, too."""
    rows = outfit_rows(garment.outfit, by=by, at=at)
    readings = _readings_compared(garment, rows)
    pieces: list[PatternPiece] = []
    seams: list[PatternSeam] = []
    doubts: list[str] = []
    for plate in plates:
        found, sewn, said = _of_plate(plate, garment, rows)
        names = {piece.name: _free_name(piece.name, plate, pieces) for piece in found}
        pieces += [replace(piece, name=names[piece.name]) for piece in found]
        seams += [replace(seam, pieces=(names[seam.pieces[0]], names[seam.pieces[1]])) for seam in sewn]
        doubts += said
    first = plates[0] if plates else None
    values = readings or (plate_values(first) if first else None)
    pattern = Pattern(
        pieces=tuple(pieces),
        seams=tuple(seams),
        overlap=_fastening(values, "overlap"),
        gap=_fastening(values, "lacing_gap"),
        of_one_limb=frozenset(line.key for line in LINES.values() if line.kind == "girth" and line.has_sides),
    )
    return Beginning(pattern=pattern, rests_on=rests_on(garment, plates, rows), doubts=tuple(doubts))


def _readings_compared(garment: Garment, rows: OutfitRows) -> PlateReadings | None:
    """The plate as it is compared, with the garment's own lacing gap; None where it cannot be."""
    try:
        return ready_case(rows.garment(garment.pk), rows).case.plate
    except CannotCompare:
        return None


def _fastening(values: PlateReadings | None, which: str) -> PatternFastening:
    if values is None:
        return PatternFastening()
    width = getattr(values, which)
    return PatternFastening(usual_mm=width.everywhere_mm, by_level=dict(width.at_mm))


def _free_name(name: str, plate: Plate, taken: Sequence[PatternPiece]) -> str:
    names = {piece.name for piece in taken}
    return name if name not in names else f"{name} ({plate})"


def _of_plate(
    plate: Plate, garment: Garment, rows: OutfitRows
) -> tuple[list[PatternPiece], list[PatternSeam], list[str]]:
    try:
        scale_of(plate)
    except ScaleNotUnderstood as fault:
        return [], [], [f"{plate}: {fault.sentence}"]
    traced = traced_plate(plate)
    growth = growth_of(plate, draft_measure_mm(plate, rows.used(garment)))
    lines = levels_of(plate, map_of(traced.calibration)) if traced.calibration else []
    found, doubts = [], []
    for piece in plate.pieces.all():
        if shape := traced.shapes.get(piece):
            made = _drawn(piece, enlarged(shape, growth), _enlarged(lines, growth))
            made, left = _without_allowance(made, plate)
            doubts += left
        else:
            made = _box(piece, plate, growth)
            doubts.append(f"{piece} is not traced: it is a box of its typed lengths.")
        found.append(made)
    seams = [
        PatternSeam(pieces=(one[0][0], other[0][0]), edges=(one[0][1], other[0][1]))
        for _, join in traced_seams(traced)
        if len(one := join.one) == 1 == len(other := join.other)
    ]
    pattern = Pattern(pieces=tuple(found))
    eased = [replace(seam, ease_mm=pattern.off_mm(seam)) for seam in seams]
    return found, [seam for seam in eased if seam.ease_mm is not None], doubts


def _enlarged(lines: Sequence[LevelLine], by: float) -> list[LevelLine]:
    return [LevelLine(line=one.line, start=one.start * by, end=one.end * by) for one in lines]


def _drawn(piece: Piece, shape: TracedShape, lines: Sequence[LevelLine]) -> PatternPiece:
    levels: dict[str, Path] = {
        width.line: (width.spans[0][0], width.spans[-1][1]) for width in level_widths(shape, lines)
    }
    return PatternPiece(
        name=piece.name,
        outline=shape.outline,
        cut=piece.cut,
        mirrored=piece.cut % 2 == 0 and not piece.on_fold,
        levels=levels,
        marks=shape.marks,
        cloth=piece.cloth,
        on_fold=piece.on_fold,
    )


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


def rests_on(garment: Garment, plates: Sequence[Plate], rows: OutfitRows) -> dict[str, Any]:
    """How each plate and the measures are now: what they are called, and a checksum that tells a change."""
    used = rows.used(garment)
    found: dict[str, Any] = {
        f"plate {plate.key}": {"called": f"the plate {plate}", "as": _checksum(_plate_as_it_is(plate))}
        for plate in plates
    }
    if used:
        taken = {line: [one.measure.mm, one.measure.doubt_mm] for line, one in used.lines.items()}
        found["measures"] = {
            "called": f"the measures of {used.measures.taken_on:%-d %B %Y}",
            "as": _checksum(taken),
        }
    return found


def _plate_as_it_is(plate: Plate) -> Any:
    traced = traced_plate(plate)
    outlines = {
        piece.name: [[node.at.real, node.at.imag, node.curved, node.edge] for node in shape.outline.nodes]
        for piece, shape in traced.shapes.items()
    }
    readings = [
        [piece.name, piece.cut, piece.on_fold, row.line, row.reading_um, row.take_up_um]
        for piece in plate.pieces.all()
        for row in piece.readings.all()
    ]
    return [outlines, readings]


def _checksum(value: Any) -> str:
    return hashlib.sha256(json.dumps(value, sort_keys=True).encode()).hexdigest()
