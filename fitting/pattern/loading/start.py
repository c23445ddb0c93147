"""What a working pattern starts from: the pieces of its plates at full size; and what it rests on."""

import hashlib
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from catalogue.lengths.calculation.levels import LINES
from catalogue.plates.calculation.readings import PlateReadings
from catalogue.plates.loading import plate_values
from catalogue.plates.models.plate import Plate
from catalogue.workroom.models import User
from fitting.comparing.loading.case import OutfitRows, outfit_rows
from fitting.comparing.loading.readiness import CannotCompare, ready_case
from fitting.outfits.models.garment import Garment
from fitting.pattern.calculation.grading.values import GradingJoin
from fitting.pattern.calculation.working.pattern import (
    Pattern,
    PatternFastening,
    PatternPiece,
    PatternSeam,
    SleeveSeam,
)
from fitting.pattern.calculation.working.rounds import free_name
from fitting.pattern.loading.plate_pieces import pattern_of_plate
from fitting.pattern.loading.traced_plate import traced_plate


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
    sleeves: list[SleeveSeam] = []
    doubts: list[str] = []
    for plate in plates:
        found, said = pattern_of_plate(plate, garment, rows)
        names = {piece.name: _free_name(piece.name, plate, pieces) for piece in found.pieces}
        pieces += [replace(piece, name=names[piece.name]) for piece in found.pieces]
        seams += [
            replace(seam, pieces=(names[seam.pieces[0]], names[seam.pieces[1]])) for seam in found.seams
        ]
        sleeves += [replace(sleeve, join=_named(sleeve.join, names)) for sleeve in found.sleeves]
        doubts += said
    first = plates[0] if plates else None
    values = readings or (plate_values(first) if first else None)
    pattern = Pattern(
        pieces=tuple(pieces),
        seams=tuple(seams),
        sleeves=tuple(sleeves),
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
    return name if name not in names else free_name(f"{name} ({plate})", names)


def _named(join: GradingJoin, names: Mapping[str, str]) -> GradingJoin:
    one, other = (tuple((names[piece], edge) for piece, edge in run) for run in (join.one, join.other))
    return GradingJoin(one=one, other=other)


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
