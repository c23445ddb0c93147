"""Rows as the archive says them."""

from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime
from typing import Any

from django.db.models import Field, Model

from catalogue.lengths.calculation.errors import NotUnderstood
from catalogue.lengths.calculation.lengths import to_um
from catalogue.lengths.models import LengthField, TypedLength
from catalogue.photographs.models import Photo
from catalogue.plates.kinds import PLATE
from catalogue.references.kinds import REFERENCE
from catalogue.references.models.garment import ReferenceGarment
from catalogue.references.models.relation import Relation
from catalogue.sources.kinds import SOURCE
from catalogue.sources.models import Source
from catalogue.tracing.models import PlateScan
from catalogue.workroom.kinds import LISTS, Kind
from catalogue.workroom.models import Workroom

# Version 1 says nothing of scans, tracing and proportional drafts; `reading` says what 2 has no keys for.
FORMAT, VERSION = "plate-and-toile catalogue", 3
READS = (1, 2, 3)
# The name of a file in the archive; None where there is none, and the photograph or scan is left out.
FileOf = Callable[[Photo | PlateScan], str | None]
Said = dict[str, Any]
AT_A_TIME = 200


def catalogue_rows(workroom: Workroom, *, file_of: FileOf) -> Iterator[tuple[str, Iterator[Said]]]:
    """Each list of the workroom's catalogue with its rows, in an order that does not depend on the database.

    A few rows are held at a time. The rows of a list are to be taken before the next list is.
    """
    sources = Source.objects.of_workroom(workroom).order_by("key")
    references = ReferenceGarment.objects.of_workroom(workroom).for_archive().order_by("key")
    relations = Relation.objects.of_workroom(workroom).select_related("reference", "other").order_by("key")
    rows = {
        "sources": sources,
        "references": references,
        "relations": relations,
        "saved_filters": workroom.saved_filters.order_by("name"),
    }
    for name, kind in LISTS.items():
        of_list = rows[name].iterator(chunk_size=AT_A_TIME)
        yield name, (write_row(kind, row, file_of=file_of) for row in of_list)


def write_source(source: Source) -> Said:
    return write_row(SOURCE, source, file_of=lambda row: None)


def write_reference(reference: ReferenceGarment, *, file_of: FileOf) -> Said:
    return write_row(REFERENCE, reference, file_of=file_of)


def write_row(kind: Kind, row: Model, *, file_of: FileOf) -> Said:
    said: Said = {"key": str(row.key)} if kind.has_key else {}
    said |= {name: _value(row, column) for name, column in kind.fields().items()}
    for name in kind.points_to:
        other = getattr(row, name)
        said[name] = str(other.key) if other else None
    if kind.files:
        said["file"] = file_of(row)
    if kind is REFERENCE:
        said["tags"] = [tag.name for tag in row.tags.all()]
    for name, part in kind.parts.items():
        said[name] = list(_parts(part, getattr(row, name).all(), file_of))
    for name, part in kind.only.items():
        held = [getattr(row, name)] if hasattr(row, name) else []
        said[name] = next(_parts(part, held, file_of), None)
    if kind is PLATE and said["scan"] is None:
        _forget_tracing(said)
    if kind is REFERENCE:
        _forget_pictures_left_out(said)
    return said


def _parts(kind: Kind, rows: Any, file_of: FileOf) -> Iterator[Said]:
    for row in rows:
        said = write_row(kind, row, file_of=file_of)
        if not kind.files or said["file"]:
            yield said


def _forget_tracing(plate: Said) -> None:
    """Without its scan there is nothing that the pixels of an outline are pixels of."""
    plate["traced_levels"] = []
    for piece in plate["pieces"]:
        piece["traced"] = None


def _forget_pictures_left_out(said: Said) -> None:
    kept = {photo["key"] for photo in said["photos"]}
    for plate in said["plates"]:
        if plate["picture"] not in kept:
            plate["picture"] = None


def _value(row: Model, column: Field) -> Any:
    if isinstance(column, LengthField):
        return _length(column.value_from_object(row))
    value = getattr(row, column.name)
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat()
    return value.isoformat() if isinstance(value, date) else value


def _length(length: TypedLength | None) -> str | int | None:
    """The text as typed where it says all; else the micrometres."""
    if length is None:
        return None
    try:
        return length.text if length.text and to_um(length.exact_mm) == length.um else length.um
    except NotUnderstood:
        return length.um
