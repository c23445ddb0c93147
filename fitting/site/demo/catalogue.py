"""The demo's sources, garments studied, plates and pictures; its plates scanned, calibrated and traced."""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile

from catalogue.finding.models import SavedFilter
from catalogue.lengths.models import TypedLength
from catalogue.photographs.actions import PictureNotes, SentPicture, add_photos
from catalogue.photographs.imaging import read_upload
from catalogue.photographs.models import Photo
from catalogue.plates.models.piece import Piece, Reading, Seam
from catalogue.plates.models.plate import Fastening, Plate
from catalogue.references.models.garment import PublishedMeasure, ReferenceGarment
from catalogue.references.models.question import Question
from catalogue.references.models.relation import Relation
from catalogue.sources.calculation.dates import DateSpan, read_date
from catalogue.sources.models import Citation, Source
from catalogue.tracing.actions.scan import cut_calibration, cut_scan, new_calibration
from catalogue.tracing.calculation.calibration import by_corners
from catalogue.tracing.models import Calibration, PlateScan, TracedLevel, TracedPiece
from catalogue.workroom.index.filing import file_references, file_sources
from catalogue.workroom.models import Workroom
from fitting.site.demo.told import Told, given

LEFT_IN = 2  # squares left free at each side of the rectangle that is clicked on: the larger, the better
MM_PER_IN = 25.4
Row = Mapping[str, Any]
Sources = Mapping[str, Source]
CREDIT, RIGHTS = "Drawn by this program for its demo workroom", "Free to use: invented, and drawn by code."


def load_sources(told: Told, workroom: Workroom) -> dict[str, Source]:
    return {
        row["key"]: Source.objects.create(
            workroom=workroom, **{name: value for name, value in row.items() if name != "key"}
        )
        for row in told.rows["sources"]
    }


def load_references(told: Told, workroom: Workroom, sources: Sources) -> dict[str, ReferenceGarment | Plate]:
    """Reference garments by their key, and each plate by `plate/` and its own."""
    made: dict[str, ReferenceGarment | Plate] = {}
    for row in told.rows["references"]:
        reference = made[row["key"]] = _reference(workroom, row, sources)
        for photo in row["photos"]:
            _photo(reference, told.folder / "pictures" / photo["file"], photo["view"], photo["caption"])
        for plate in row["plates"]:
            made[f"plate/{plate['key']}"] = _plate(told, reference, plate, sources)
    _ask_and_relate(told, made, sources)
    for saved in told.rows["saved_filters"]:
        SavedFilter.objects.create(workroom=workroom, **saved)
    file_sources(source.pk for source in sources.values())
    file_references(workroom.references.values_list("pk", flat=True))
    return made


def _reference(workroom: Workroom, row: Row, sources: Sources) -> ReferenceGarment:
    span = read_date(row["date_edtf"]) if row["date_edtf"] else DateSpan("", None, None)
    words = ("name", "dress", "kind", "date_edtf", "place", "holder", "accession", "materials")
    reference = ReferenceGarment.objects.create(
        workroom=workroom,
        date_earliest=span.earliest,
        date_latest=span.latest,
        **given(row, *words, "technique", "fastening", "construction_notes", "seam_evidence_note"),
    )
    for name in row["tags"]:
        reference.tags.add(workroom.tags.get_or_create(name=name)[0])
    for cited in row["citations"]:
        Citation.objects.create(
            reference=reference, source=sources[cited["source"]], **given(cited, "pages", "fact")
        )
    for measure in row["published_measures"]:
        PublishedMeasure.objects.create(
            reference=reference,
            line=measure["line"],
            source=sources[measure["source"]],
            value=TypedLength.of(measure["value"]),
            doubt=TypedLength.of(measure["doubt"]),
            **given(measure, "pages"),
        )
    return reference


def _ask_and_relate(told: Told, made: Mapping[str, Any], sources: Sources) -> None:
    for row in told.rows["questions"]:
        Question.objects.create(
            reference=made[row["reference"]],
            asked_on=told.day(row["asked_on"]),
            answered_on=told.day(row.get("answered_on")),
            source=sources.get(row.get("source")),
            **given(row, "text", "asked_by", "answer", "answered_by", "pages"),
        )
    for row in told.rows["relations"]:
        Relation.objects.create(
            reference=made[row["reference"]], other=made[row["other"]], **given(row, "kind", "note")
        )


def _photo(reference: ReferenceGarment, file: Path, view: str, caption: str) -> Photo:
    sent = SimpleUploadedFile(file.name, file.read_bytes())
    notes = PictureNotes(view=view, caption=caption, credit=CREDIT, rights=RIGHTS)
    picture = SentPicture(file=sent, prepared=read_upload(sent))
    return add_photos(reference=reference, pictures=[picture], notes=notes)[0]


def _plate(told: Told, reference: ReferenceGarment, row: Row, sources: Sources) -> Plate:
    caption = f"Plate: {row['title']}, drawn to scale over inch squares."
    plate = Plate.objects.create(
        reference=reference,
        source=sources[row["source"]],
        picture=_photo(reference, told.folder / "plates" / f"{row['key']}.png", Photo.View.PLATE, caption),
        **given(row, "title", "page", "scale_kind", "ratio", "read_from", "allowance", "is_half", "notes"),
        **given(row, "kind", "drawn_for_line", "drawn_for_half"),
        drawn_for=TypedLength.of(row.get("drawn_for")),
        page_length=TypedLength.of(row.get("page_length")),
        real=TypedLength.of(row.get("real_length")),
        allowance_length=TypedLength.of(row.get("allowance_length")),
        rule=TypedLength.of(row["rule"]),
        drawing=TypedLength.of(row["drawing"]),
    )
    for fastened in row["fastenings"]:
        widths = {name: TypedLength.of(fastened.get(name)) for name in ("overlap", "gap")}
        Fastening.objects.create(plate=plate, line=fastened["line"], **widths)
    read = {piece["name"]: piece for piece in told.plate(row["key"])["pieces"]}
    pieces = {name: _piece(plate, order, piece) for order, (name, piece) in enumerate(read.items(), start=1)}
    for seam in row["seams"]:
        _seam(plate, seam, pieces, read)
    trace_plate(told, plate, row["key"])
    return plate


def _piece(plate: Plate, order: int, row: Row) -> Piece:
    words = given(row, "name", "cut", "on_fold", "cloth", "grain", "notes")
    piece = Piece.objects.create(plate=plate, order=order, **words)
    for line, text in row.get("readings", {}).items():
        Reading.objects.create(
            piece=piece,
            line=line,
            crossed_ends=row.get("crossed_ends", {}).get(line, 0),
            is_plain=line in row.get("plain", ()),
            reading=TypedLength.of(text),
            take_up=TypedLength.of(row.get("take_up", {}).get(line)),
        )
    return piece


def _seam(plate: Plate, row: Row, pieces: Mapping[str, Piece], read: Mapping[str, Row]) -> Seam:
    sides = {}
    for side in ("a", "b"):
        piece, edge = row[side]
        sides |= {f"piece_{side}": pieces[piece], f"edge_{side}": edge}
        if not row.get("is_unread"):
            sides[f"length_{side}"] = TypedLength.of(read[piece]["edges"][edge])
    return Seam.objects.create(plate=plate, **sides, **given(row, "how", "evidence", "is_eased"))


def trace_plate(told: Told, plate: Plate, key: str) -> None:
    """Keep the plate's picture as its scan, calibrated by its squares, with every piece and level traced."""
    traced = json.loads((told.folder / "plates" / f"{key}.traced.json").read_text(encoding="utf-8"))
    scan = PlateScan(plate=plate, stem=f"demo-{key}-{plate.pk}", heartbeat=told.at)
    scan.folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    scan.original.write_bytes((told.folder / "plates" / f"{key}.png").read_bytes())
    scan.save()
    # Cut here and not by a process of their own: the demo opens when they are there.
    cut_scan(scan.pk, looks_for_grid=False)
    scan.refresh_from_db()
    _calibrated(scan, traced["square_px"], told)
    pieces = {piece.name: piece for piece in plate.pieces.all()}
    for row in traced["pieces"]:
        TracedPiece.objects.create(piece=pieces[row["name"]], nodes=row["nodes"], marks=row["marks"])
    for level in traced["levels"]:
        TracedLevel.objects.create(plate=plate, line=level["line"], points=level["points"])


def _calibrated(scan: PlateScan, square_px: float, told: Told) -> Calibration:
    across, down = (int(side / square_px) - 2 * LEFT_IN for side in scan.size)
    right, foot = LEFT_IN + across, LEFT_IN + down
    places = [(LEFT_IN, LEFT_IN), (right, LEFT_IN), (right, foot), (LEFT_IN, foot)]
    corners = [complex(x * square_px, y * square_px) for x, y in places]
    found = by_corners(corners, across_mm=across * MM_PER_IN, down_mm=down * MM_PER_IN, size=scan.size)
    given = {
        "points": [[at.real, at.imag] for at in corners],
        "lengths": {"across": f"{across} in", "down": f"{down} in"},
    }
    calibration = new_calibration(
        scan=scan, way=Calibration.Way.CORNERS, found=found, given=given, by=None, at=told.at
    )
    cut_calibration(calibration.pk)
    calibration.refresh_from_db()
    return calibration
