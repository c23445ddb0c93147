"""What is known of a garment before any box is filled: its plate at full size, the wearer, the comparison."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.models import NO_LENGTH, TypedLength
from catalogue.plates.calculation.girth import FullSize
from catalogue.plates.calculation.scale import ScaleNotUnderstood
from catalogue.plates.loading import plate_findings, scale_of
from catalogue.plates.models.piece import Reading, Seam
from catalogue.plates.models.plate import Plate
from catalogue.workroom.models import User
from fitting.comparing.loading.draft import draft_measure_mm, growth_of
from fitting.comparing.loading.maker import maker_values
from fitting.comparing.showing.explanation import words_of
from fitting.comparing.showing.standing import GarmentStanding, garment_as_it_stands
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogEntry
from fitting.pattern.calculation.alteration import PlateDifference
from fitting.pattern.calculation.seam_match import Stretch
from fitting.pattern.calculation.sums.garment import (
    USUAL_ALLOWANCE_MM,
    GarmentFigures,
    SeamFacts,
    TimedSeam,
)
from fitting.pattern.loading.piece_shapes import PieceShape, shapes_of
from fitting.pattern.loading.seam_walks import TracedGarment, WalkableSeams
from fitting.pattern.loading.traced_plate import traced_plate
from fitting.pattern.loading.version_facts import facts_of_version
from fitting.pattern.loading.wanted import wanted_of
from fitting.pattern.loading.working import working_pattern


@dataclass(frozen=True, slots=True, kw_only=True)
class GarmentFacts(GarmentFigures):
    """Besides, by line: `off` against the wearer. By piece: `widths_mm` by line, `shapes` traced.

    A proportional draft is drawn out for the wearer, its shapes as a whole. `kind`: what the reference is
    called, as a petticoat. `traced` is there once something is traced.
    """

    garment: Garment
    per_edge_mm: float
    kind: str = ""
    off: Mapping[str, PlateDifference] = field(default_factory=dict)
    widths_mm: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    shapes: Mapping[str, PieceShape] = field(default_factory=dict)
    walkable: WalkableSeams | None = None

    def traced_sleeve(self) -> Sequence[Stretch]:
        sleeve = self.walkable.sleeve() if self.walkable else None
        return sleeve.seam.stretches if sleeve else ()


def known_of(garment: Garment, *, by: User, at: datetime) -> GarmentFacts:
    """Read a garment once for all of its sheets."""
    standing = garment_as_it_stands(garment, by=by, at=at)
    answer = standing.answer
    compared = answer.lines if answer else {}
    body = {line: used.measure.mm for line, used in standing.used.lines.items()} if standing.used else {}
    eases = {ease.line: ease for ease in garment.eases.all()}
    maker = garment.outfit.maker or by
    known = GarmentFacts(
        garment=garment,
        per_edge_mm=maker_values(maker).limits.per_edge_mm,
        timed=_timed(garment, maker),
        body_mm=body,
        wanted_mm={line: mm + (eases[line].ease.mm if line in eases else 0.0) for line, mm in body.items()},
        off={
            line: PlateDifference(
                difference_mm=one.difference_mm,
                u_mm=one.u_mm,
                chances=tuple(one.chances[word] for word in words_of(one.chances)),
                verdict=one.verdict,
            )
            for line, one in compared.items()
            if one.chances
        },
    )
    known = _of_plate(known, garment, standing, by=by, at=at)
    working = working_pattern(garment)
    if working is None:
        return known
    wanted = wanted_of(garment, by=by, at=at)
    return replace(known, **facts_of_version(working, known.off, wanted, maker_values(maker).limits))


def _of_plate(
    known: GarmentFacts, garment: Garment, standing: GarmentStanding, *, by: User, at: datetime
) -> GarmentFacts:
    """With what its plate says; a garment without one, or whose plate has no scale, stays as known."""
    if not garment.plate_id:
        return known
    try:
        plate = Plate.objects.for_detail_page().get(pk=garment.plate_id)
        traced = TracedGarment(garment=garment, plate=traced_plate(plate), by=by, at=at)
        return _with_plate(known, plate, traced, draft_measure_mm(plate, standing.used))
    except ScaleNotUnderstood:
        return known


def _timed(garment: Garment, maker: User) -> TimedSeam | None:
    """The newest seam timed on this garment, else the newest at all."""
    timed = LogEntry.objects.of_workroom(garment.its_workroom()).timed_by(maker)
    entry = timed.filter(garment=garment).first() or timed.first()
    return entry and TimedSeam(day=entry.day, length_mm=entry.seam.mm, minutes=entry.seam_minutes)


def _with_plate(
    known: GarmentFacts, plate: Plate, traced: TracedGarment, draft_mm: float | None
) -> GarmentFacts:
    full: dict[str, FullSize] = {}
    for found in plate_findings(plate, body_mm=draft_mm).values():
        for line, finding in found.by_line.items():
            full.setdefault(line, finding.full_size)
    scale, growth = scale_of(plate), growth_of(plate, draft_mm)
    walked = {key: (one * growth, other * growth) for key, (one, other) in traced.lengths_mm().items()}
    return replace(
        known,
        kind=plate.reference.kind,
        usual_mm=(plate.allowance_length or NO_LENGTH).mm or USUAL_ALLOWANCE_MM,
        made_mm={line: one.mm for line, one in full.items()},
        flat_mm={
            line: sum(term.times * term.factor * term.reading.length_mm for term in one.terms)
            for line, one in full.items()
            if LINES[line].kind == "girth"
        },
        shapes=shapes_of(traced.plate, growth=growth),
        walkable=traced if traced.plate.shapes else None,
        seams=tuple(_seam(seam, scale.along * growth, walked) for seam in plate.seams.all()),
        widths_mm={
            piece.name: {
                reading.line: scale.across * (1.0 if reading.is_plain else growth) * _net_mm(reading)
                for reading in piece.readings.all()
                if LINES[reading.line].kind == "girth"
            }
            for piece in plate.pieces.all()
        },
    )


def _net_mm(reading: Reading) -> float:
    return reading.reading.mm - (reading.take_up or NO_LENGTH).mm


def _seam(seam: Seam, along: float, traced: Mapping[int, tuple[float, float]]) -> SeamFacts:
    def full_mm(length: TypedLength | None) -> float | None:
        return length and along * length.mm

    a_mm, b_mm = traced.get(seam.pk) or (full_mm(seam.length_a), full_mm(seam.length_b))
    return SeamFacts(
        piece_a=seam.piece_a.name,
        edge_a=seam.edge_a,
        piece_b=seam.piece_b.name,
        edge_b=seam.edge_b,
        a_mm=a_mm,
        b_mm=b_mm,
        is_eased=seam.is_eased,
        is_traced=seam.pk in traced,
        cut=max(seam.piece_a.cut, seam.piece_b.cut),
    )
