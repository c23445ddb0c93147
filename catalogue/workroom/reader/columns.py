"""What a row said in an archive holds in the database."""

from datetime import date, datetime
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.db.models import DateField, DateTimeField, DecimalField, Field, UUIDField

from catalogue.lengths.models import LengthField, TypedLength
from catalogue.workroom.kinds import Kind


def columns_of(kind: Kind, said: dict[str, Any]) -> dict[str, Any]:
    """The row's own columns; `said` was read without a fault."""
    held: dict[str, Any] = {"key": UUID(said["key"])} if kind.has_key else {}
    for name, column in kind.fields().items():
        if isinstance(column, LengthField):
            length = TypedLength.of(said[name], signed=column.signed)
            held |= {name: length} if column.length_name else {column.name: length and length.um}
        else:
            held[name] = None if said[name] is None else _held(column, said[name])
    return held | kind.derived(said)


def _held(column: Field, value: Any) -> Any:
    for kind, read in _READ.items():
        if isinstance(column, kind):
            return read(value)
    return value


# The first that fits: a moment is a kind of day.
_READ = {
    DateTimeField: datetime.fromisoformat,
    DateField: date.fromisoformat,
    DecimalField: Decimal,
    UUIDField: UUID,
}
