"""One value out of a file that anybody may have written: as an archive says it, or a sentence why not."""

from datetime import UTC, date, datetime
from typing import Any
from uuid import UUID

from django.core.exceptions import ValidationError
from django.db.models import (
    BooleanField,
    DateField,
    DateTimeField,
    DecimalField,
    Field,
    FloatField,
    IntegerField,
    JSONField,
    UUIDField,
)

from catalogue.lengths.calculation.errors import NotUnderstood
from catalogue.lengths.models import LengthField, TypedLength, TypedText
from catalogue.workroom.kinds import KINDS
from catalogue.workroom.reader.faulty_value import FaultyValue, of_type, read_number, read_text

LONGEST_LENGTH_TEXT = TypedText().max_length
# A kilometre: no plate is larger, and no garment.
MOST_UM = 10**9


def read_value(column: Field, given: Any) -> Any:
    """Return the value as an archive writes it. Raises FaultyValue."""
    if given is None:
        if not column.null:
            raise FaultyValue("This may not be null.")
        return None
    if isinstance(column, LengthField):
        return _length(column, given)
    if isinstance(column, JSONField):
        KINDS[column.model].checks[column.name](given)
        return given
    if isinstance(column, UUIDField):
        return read_key(given)
    if isinstance(column, DecimalField):
        return str(_clean(column, read_text(given)))
    if isinstance(column, FloatField):
        return _clean(column, read_number(given))
    if isinstance(column, DateTimeField):
        return _moment(given)
    if isinstance(column, DateField):
        return _date(given)
    if isinstance(column, BooleanField):
        return of_type(given, bool, "true or false")
    if isinstance(column, IntegerField):
        return _clean(column, of_type(given, int, "a whole number"))
    return _clean(column, read_text(given))


def missing_value(column: Field) -> Any:
    """What a column that is not in the file gets. Raises FaultyValue where there must be something."""
    if isinstance(column, LengthField) and column.has_default():
        length = column.value_from_object(column.model())
        return length.text or length.um
    if column.has_default():
        default = column.get_default()
        return str(default) if isinstance(default, date | UUID) else default
    if column.null:
        return None
    if column.blank:
        return ""
    raise FaultyValue("This is missing.")


def read_key(given: Any) -> str:
    try:
        return str(UUID(read_text(given)))
    except ValueError as fault:
        sentence = (
            fault.sentence if isinstance(fault, FaultyValue) else "This is no key: 32 hexadecimal digits."
        )
        raise FaultyValue(sentence) from None


def _length(column: LengthField, given: Any) -> str | int:
    if isinstance(given, str):
        text = read_text(given)
        if len(text) > LONGEST_LENGTH_TEXT:
            raise FaultyValue(f"This has more than {LONGEST_LENGTH_TEXT} characters.")
        try:
            TypedLength.read(text, signed=column.signed)
        except NotUnderstood as fault:
            raise FaultyValue(fault.sentence) from None
        return text
    um = of_type(given, int, "a length as text with its unit, for example “3/4 in”, or whole micrometres")
    if not (-MOST_UM if column.signed else 0) <= um <= MOST_UM:
        raise FaultyValue("This is no length that a garment has.")
    return um


def _date(given: Any) -> str:
    try:
        return date.fromisoformat(read_text(given)).isoformat()
    except ValueError as fault:
        raise FaultyValue(
            fault.sentence if isinstance(fault, FaultyValue) else "This is no day: write it as 2026-11-25."
        ) from None


def _moment(given: Any) -> str:
    try:
        moment = datetime.fromisoformat(read_text(given))
        if moment.tzinfo is None:
            raise ValueError
        return moment.astimezone(UTC).isoformat()
    except FaultyValue:
        raise
    except (ValueError, OverflowError):
        raise FaultyValue("This is no moment: write it as 2026-11-25T10:00:00+00:00.") from None


def _clean(column: Field, value: Any) -> Any:
    """Length, range and choices as the column itself has them."""
    try:
        return column.clean(value, None)
    except ValidationError as fault:
        raise FaultyValue(" ".join(fault.messages)) from None
