"""Garments and readings as tables of comma-separated values, safe to open in a spreadsheet.

A cell that starts like a formula is led by an apostrophe, so that no program reckons or fetches what somebody
typed into a name (OWASP, CSV Injection: = + - @, tab and carriage return, and their full-width twins).
"""

import csv
from collections.abc import Iterable, Iterator
from typing import Any, TextIO

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.models import TypedLength
from catalogue.plates.models.piece import Reading
from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.models import Workroom

STARTS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠", "|", "%")
# Without it some spreadsheets take UTF-8 for an older encoding.
BYTE_ORDER_MARK = "\ufeff"
ROWS_AT_A_TIME = 500

GARMENTS = (
    *("key", "name", "kind", "garment", "date", "earliest", "latest", "place", "held by", "accession number"),
    *("materials", "technique", "fastened by", "tags", "sources", "plates", "photographs"),
)
READINGS = (
    *("garment key", "garment", "plate", "source", "page", "scale", "draft for", "seam allowance"),
    *("piece", "times cut", "drawn to a fold", "cloth", "level or length", "girth or length"),
    *("reading as typed", "reading in mm", "taken up as typed", "taken up in mm", "ends crossed"),
    "in parts or plain",
)


def write_garments(workroom: Workroom, to: TextIO) -> None:
    _write(to, GARMENTS, _garments(workroom))


def write_readings(workroom: Workroom, to: TextIO) -> None:
    _write(to, READINGS, _readings(workroom))


def safe(value: Any) -> Any:
    """The cell as it may stand in a spreadsheet. Numbers are numbers, a minus sign and all."""
    if not isinstance(value, str):
        return "" if value is None else value
    return f"'{value}" if value.lstrip(" \xa0").startswith(STARTS_A_FORMULA) else value


def _write(to: TextIO, heads: tuple[str, ...], rows: Iterable[Iterable[Any]]) -> None:
    to.write(BYTE_ORDER_MARK)
    table = csv.writer(to)
    table.writerow(heads)
    table.writerows([safe(value) for value in row] for row in rows)


def _garments(workroom: Workroom) -> Iterator[tuple[Any, ...]]:
    rows = ReferenceGarment.objects.of_workroom(workroom).oldest_first()
    rows = rows.prefetch_related("tags", "citations__source", "plates", "photos")
    for row in rows.iterator(chunk_size=ROWS_AT_A_TIME):
        yield (
            *(str(row.key), row.name, row.dress, row.kind, row.date_edtf, row.date_earliest, row.date_latest),
            *(row.place, row.holder, row.accession, row.materials, row.technique, row.fastening),
            "; ".join(tag.name for tag in row.tags.all()),
            "; ".join(str(citation) for citation in row.citations.all()),
            *(len(row.plates.all()), len(row.photos.all())),
        )


def _readings(workroom: Workroom) -> Iterator[tuple[Any, ...]]:
    rows = Reading.objects.of_workroom(workroom)
    rows = rows.select_related("piece__plate__reference", "piece__plate__source")
    rows = rows.order_by("piece__plate__reference__name", "piece__plate", "piece__order", "piece", "pk")
    for row in rows.iterator(chunk_size=ROWS_AT_A_TIME):
        piece, plate = row.piece, row.piece.plate
        yield (
            *(
                str(plate.reference.key),
                plate.reference.name,
                str(plate),
                str(plate.source or ""),
                plate.page,
            ),
            *(plate.scale_in_words, plate.drawn_for_in_words if plate.is_draft else "", plate.allowance),
            *(piece.name, piece.cut, "yes" if piece.on_fold else "no", piece.cloth),
            *(row.line, LINES[row.line].kind),
            *_cells(row.reading),
            *_cells(row.take_up),
            row.crossed_ends,
            ("plain" if row.is_plain else "in parts") if plate.is_draft else "",
        )


def _cells(length: TypedLength | None) -> tuple[str, float | None]:
    return (length.text, round(length.mm, 4)) if length else ("", None)
