"""Rows as the archive says them."""

from collections.abc import Callable, Iterator
from datetime import date
from typing import Any

from django.db.models import Field, Model

from catalogue.exchange.kinds import LISTS, PHOTO, REFERENCE, SOURCE, Kind
from catalogue.measuring.errors import NotUnderstood
from catalogue.models import LengthField, Photo, ReferenceGarment, Relation, Source, Workroom
from catalogue.models.length import TypedLength

FORMAT, VERSION = "plate-and-toile catalogue", 1
# The name of a photograph's file in the archive; None where there is none, and the photograph is left out.
FileOf = Callable[[Photo], str | None]
AT_A_TIME = 200


def write_catalogue(workroom: Workroom, *, file_of: FileOf) -> dict[str, Any]:
    """Everything of the workroom's catalogue, in an order that does not depend on the database."""
    sources = Source.objects.of_workroom(workroom).order_by("key")
    references = ReferenceGarment.objects.of_workroom(workroom).for_archive().order_by("key")
    relations = Relation.objects.of_workroom(workroom).select_related("reference", "other").order_by("key")
    rows = {
        "sources": sources,
        "references": references.iterator(chunk_size=AT_A_TIME),
        "relations": relations,
        "saved_filters": workroom.saved_filters.order_by("name"),
    }
    written = {"format": FORMAT, "version": VERSION}
    for name, kind in LISTS.items():
        written[name] = [write_row(kind, row, file_of=file_of) for row in rows[name]]
    return written


def write_source(source: Source) -> dict[str, Any]:
    return write_row(SOURCE, source, file_of=lambda photo: None)


def write_reference(reference: ReferenceGarment, *, file_of: FileOf) -> dict[str, Any]:
    return write_row(REFERENCE, reference, file_of=file_of)


def write_row(kind: Kind, row: Model, *, file_of: FileOf) -> dict[str, Any]:
    said: dict[str, Any] = {"key": str(row.key)} if kind.has_key else {}
    said |= {name: _value(row, column) for name, column in kind.fields().items()}
    for name in kind.points_to:
        other = getattr(row, name)
        said[name] = str(other.key) if other else None
    if kind is PHOTO:
        said["file"] = file_of(row)
    if kind is REFERENCE:
        said["tags"] = [tag.name for tag in row.tags.all()]
    for name, part in kind.parts.items():
        said[name] = list(_parts(part, getattr(row, name).all(), file_of))
    if kind is REFERENCE:
        _forget_pictures_left_out(said)
    return said


def _parts(kind: Kind, rows: Any, file_of: FileOf) -> Iterator[dict[str, Any]]:
    for row in rows:
        said = write_row(kind, row, file_of=file_of)
        if kind is not PHOTO or said["file"]:
            yield said


def _forget_pictures_left_out(said: dict[str, Any]) -> None:
    kept = {photo["key"] for photo in said["photos"]}
    for plate in said["plates"]:
        if plate["picture"] not in kept:
            plate["picture"] = None


def _value(row: Model, column: Field) -> Any:
    if isinstance(column, LengthField):
        text = getattr(row, column.text_name) if column.has_text else ""
        return _length(getattr(row, column.name), text, signed=column.signed)
    value = getattr(row, column.name)
    return value.isoformat() if isinstance(value, date) else value


def _length(um: int | None, text: str, *, signed: bool) -> str | int | None:
    """The text as typed where it says all; else the micrometres."""
    try:
        return text if text and TypedLength.read(text, signed=signed).um == um else um
    except NotUnderstood:
        return um
