"""A value out of a file that anybody may have written, where it is not what it should be."""

from typing import Any, TypeVar

# Long enough for any note; a text of more is no note.
LONGEST_TEXT = 100_000
MOST_NUMBER = 1e7  # no scan is so many pixels wide, and no garment so many millimetres
Wanted = TypeVar("Wanted")


class FaultyValue(ValueError):
    """One value of a file is not what it should be; `sentence` says why."""

    def __init__(self, sentence: str) -> None:
        self.sentence = sentence
        super().__init__(sentence)


def of_type(given: Any, wanted: type[Wanted], words: str) -> Wanted:
    # In Python true is a whole number too.
    if not isinstance(given, wanted) or (wanted is int and isinstance(given, bool)):
        raise FaultyValue(f"Must be {words}.")
    return given


def read_text(given: Any) -> str:
    text = of_type(given, str, "text in quotation marks")
    if "\x00" in text:
        raise FaultyValue("Holds a null character, which no text has.")
    try:
        text.encode()
    except UnicodeEncodeError:
        raise FaultyValue("Holds half a character.") from None
    if len(text) > LONGEST_TEXT:
        raise FaultyValue(f"Is longer than {LONGEST_TEXT:,} characters.")
    return text


def read_number(given: Any, most: float = MOST_NUMBER) -> int | float:
    """A plain number. Raises FaultyValue."""
    # In Python true is a number too.
    if isinstance(given, bool) or not isinstance(given, int | float):
        raise FaultyValue("Must be a number.")
    if not abs(given) <= most:  # neither is what is no number
        raise FaultyValue("Is larger than any number that a scan has.")
    return given
