"""A value out of a file that anybody may have written, where it is not what it should be."""

import json
from typing import Any, TypeVar

from catalogue.workroom.reader.strict_json import NoNumber

# Long enough for any note; a text of more is no note.
LONGEST_TEXT = 100_000
MOST_NUMBER = 1e7  # no scan is so many pixels wide, and no garment so many millimetres
LONGEST_SHOWN = 40
Wanted = TypeVar("Wanted")


class FaultyValue(ValueError):
    """One value of a file is not what it should be; `sentence` says why."""

    def __init__(self, sentence: str) -> None:
        self.sentence = sentence
        super().__init__(sentence)


def unfit(given: Any, what: str) -> str:
    """The sentence of every reader about a value that is another than it should be."""
    return f"This must be {what}; {_shown(given)} is not."


def _shown(given: Any) -> str:
    if isinstance(given, dict):
        return "a table"
    if isinstance(given, list):
        return "a list"
    if isinstance(given, NoNumber):
        return given.word
    return in_short(json.dumps(given, ensure_ascii=False), LONGEST_SHOWN)


def in_short(words: str, most: int) -> str:
    """On one line, whatever was typed."""
    line = " ".join(words.split())
    return line if len(line) <= most else f"{line[:most]}…"


def of_type(given: Any, wanted: type[Wanted], words: str) -> Wanted:
    # In Python true is a whole number too.
    if not isinstance(given, wanted) or (wanted is int and isinstance(given, bool)):
        raise FaultyValue(unfit(given, words))
    return given


def read_text(given: Any) -> str:
    text = of_type(given, str, "text in quotes")
    if "\x00" in text:
        raise FaultyValue("This holds a null character, which no text has.")
    try:
        text.encode()
    except UnicodeEncodeError:
        raise FaultyValue("This holds half a character.") from None
    if len(text) > LONGEST_TEXT:
        raise FaultyValue(f"This is longer than {LONGEST_TEXT:,} characters.")
    return text


def read_number(given: Any, most: float = MOST_NUMBER) -> int | float:
    """A plain number. Raises FaultyValue."""
    # In Python true is a number too.
    if isinstance(given, bool) or not isinstance(given, int | float):
        raise FaultyValue(unfit(given, "a number"))
    if not abs(given) <= most:  # neither is what is no number
        raise FaultyValue("This is larger than any number that a scan has.")
    return given
