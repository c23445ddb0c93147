"""What a row said in an archive holds in the database."""

from datetime import date, datetime
from typing import Any
from uuid import UUID

from django.db.models import DateField, DateTimeField

from catalogue.lengths.models import LengthField, TypedLength
from catalogue.workroom.kinds import Kind


def columns_of(kind: Kind, said: dict[str, Any]) -> dict[str, Any]:
    """The row's own columns; `said` was read without a fault."""
    held: dict[str, Any] = {"key": UUID(said["key"])} if kind.has_key else {}
    for name, column in kind.fields().items():
        value = said[name]
        if isinstance(column, LengthField):
            length = TypedLength.of(value, signed=column.signed)
            held |= {name: length} if column.length_name else {column.name: length and length.um}
        elif isinstance(column, DateTimeField):
            held[name] = datetime.fromisoformat(value)
        elif isinstance(column, DateField):
            held[name] = date.fromisoformat(value) if value else None
        else:
            held[name] = value
    return held | kind.derived(said)
