"""JSON from outside as plain values, with what no value may hold still to be told: a key twice, no number.

All of it is read here, whole (`load`) or value by value (`LongTable`); `Entry` tells faults by their path as
it goes, and `oddities` those of a value that is not read by entries.
"""

import json
from collections import Counter
from collections.abc import Iterator
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults

# Each mark is a value in memory, of up to 100 bytes however little it takes in the file.
MARKS, MOST_MARKS = "[{,:", 500_000


class NotStrictJson(ValueError):
    """Text that is no JSON, or cannot be read to its end; `sentence` says why."""

    def __init__(self, why: str, start: str = "This JSON cannot be read") -> None:
        self.sentence = f"{start}: {why}."
        super().__init__(self.sentence)


class RepeatedKeys(dict[str, Any]):
    """An object in which keys come `twice`; each has its last value."""

    twice: tuple[str, ...] = ()


class NoNumber(float):
    """NaN or an infinity, which JSON has no words for; `word` is the one that stood there."""

    word: str


def _table(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    said = dict(pairs)
    if len(said) == len(pairs):
        return said
    doubled = RepeatedKeys(said)
    doubled.twice = tuple(key for key, count in Counter(key for key, _ in pairs).items() if count > 1)
    return doubled


def _no_number(word: str) -> NoNumber:
    number = NoNumber(word)
    number.word = word
    return number


DECODER = json.JSONDecoder(object_pairs_hook=_table, parse_constant=_no_number)


def load(text: str) -> Any:
    """The values of JSON text. Raises Faults with one fault where it is no JSON."""
    try:
        refuse_too_many(text)
        value = DECODER.decode(text)
        json.dumps(value, ensure_ascii=False).encode()
        return value
    except json.JSONDecodeError as error:
        where = f"line {error.lineno}, column {error.colno}"
        raise Faults([Fault("file", f"This is not JSON: {error.msg} at {where}.")]) from error
    except (ValueError, RecursionError) as error:
        raise Faults([Fault("file", as_told(error).sentence)]) from error


def load_strictly(text: str) -> Any:
    """The same for who reads without entries: values of one meaning. Raises Faults with all that have two."""
    value = load(text)
    if faults := list(oddities(value, "")):
        raise Faults(faults)
    return value


def refuse_too_many(text: str) -> None:
    if sum(map(text.count, MARKS)) > MOST_MARKS:
        raise NotStrictJson(f"it holds more than {MOST_MARKS:,} values at once")


def as_told(fault: Exception) -> NotStrictJson:
    """What the decoder cannot read though it is JSON, in a sentence."""
    if isinstance(fault, NotStrictJson):
        return fault
    if isinstance(fault, UnicodeError):
        return NotStrictJson("it holds half a letter")
    if isinstance(fault, RecursionError):
        return NotStrictJson("it is nested too deeply")
    return NotStrictJson("it holds a number of thousands of digits")


def oddities(value: Any, path: str) -> Iterator[Fault]:
    """Every key that comes twice and every number that is none, in a value that is not read by entries."""
    left = [(path, value)]
    while left:
        where, one = left.pop()
        if isinstance(one, NoNumber):
            yield Fault(where, f"{one.word} is not a number.")
        for key in one.twice if isinstance(one, RepeatedKeys) else ():
            yield Fault(f"{where}.{key}", "This key comes twice.")
        if isinstance(one, dict):
            left += reversed([(f"{where}.{key}", inside) for key, inside in one.items()])
        elif isinstance(one, list):
            left += reversed([(f"{where}[{at}]", inside) for at, inside in enumerate(one)])
