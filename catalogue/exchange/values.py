"""One value out of a file that anybody may have written: as an archive says it, or a sentence why not."""

from datetime import date
from typing import Any
from uuid import UUID

from django.core.exceptions import ValidationError
from django.db.models import BooleanField, DateField, Field, IntegerField

from catalogue.measuring.errors import NotUnderstood
from catalogue.models import LengthField
from catalogue.models.length import TypedLength, TypedText

LONGEST_LENGTH_TEXT = TypedText().max_length
# A kilometre: no plate is larger, and no garment.
MOST_UM = 10**9
# Long enough for any note; a text of more is no note.
LONGEST_TEXT = 100_000


class Faulty(ValueError):
    """`sentence` says what is wrong with one value."""

    def __init__(self, sentence: str) -> None:
        self.sentence = sentence
        super().__init__(sentence)


def read_value(column: Field, given: Any) -> Any:
    """Return the value as an archive writes it. Raises Faulty."""
    if given is None:
        if not column.null:
            raise Faulty("May not be null.")
        return None
    if isinstance(column, LengthField):
        return _length(column, given)
    if isinstance(column, DateField):
        return _date(given)
    if isinstance(column, BooleanField):
        return _of_type(given, bool, "true or false")
    if isinstance(column, IntegerField):
        return _clean(column, _of_type(given, int, "a whole number"))
    return _clean(column, read_text(given))


def missing_value(column: Field) -> Any:
    """What a column that is not in the file gets. Raises Faulty where there must be something."""
    if isinstance(column, LengthField) and column.has_text and column.has_default():
        return column.model._meta.get_field(column.text_name).get_default() or column.get_default()
    if column.has_default():
        return column.get_default()
    if column.null:
        return None
    if column.blank:
        return ""
    raise Faulty("Is missing.")


def read_text(given: Any) -> str:
    text = _of_type(given, str, "text in quotation marks")
    if "\x00" in text:
        raise Faulty("Holds a null character, which no text has.")
    try:
        text.encode()
    except UnicodeEncodeError:
        raise Faulty("Holds half a character.") from None
    if len(text) > LONGEST_TEXT:
        raise Faulty(f"Is longer than {LONGEST_TEXT:,} characters.")
    return text


def read_key(given: Any) -> str:
    try:
        return str(UUID(read_text(given)))
    except ValueError as fault:
        sentence = fault.sentence if isinstance(fault, Faulty) else "Is not a key: 32 hexadecimal digits."
        raise Faulty(sentence) from None


def _length(column: LengthField, given: Any) -> str | int:
    if isinstance(given, str):
        text = read_text(given)
        if len(text) > LONGEST_LENGTH_TEXT:
            raise Faulty(f"Has more than {LONGEST_LENGTH_TEXT} characters.")
        try:
            TypedLength.read(text, signed=column.signed)
        except NotUnderstood as fault:
            raise Faulty(fault.sentence) from None
        return text
    um = _of_type(given, int, "a length in quotation marks, as “3/4 in”, or whole micrometres")
    if not (-MOST_UM if column.signed else 0) <= um <= MOST_UM:
        raise Faulty("Is no length that a garment has.")
    return um


def _date(given: Any) -> str:
    try:
        return date.fromisoformat(read_text(given)).isoformat()
    except ValueError as fault:
        raise Faulty(
            fault.sentence if isinstance(fault, Faulty) else "Is not a day: write it as 2026-11-25."
        ) from None


def _of_type(given: Any, wanted: type, words: str) -> Any:
    # In Python true is a whole number too.
    if not isinstance(given, wanted) or (wanted is int and isinstance(given, bool)):
        raise Faulty(f"Must be {words}.")
    return given


def _clean(column: Field, value: Any) -> Any:
    """Length, range and choices as the column itself has them."""
    try:
        return column.clean(value, None)
    except ValidationError as fault:
        raise Faulty(" ".join(fault.messages)) from None
