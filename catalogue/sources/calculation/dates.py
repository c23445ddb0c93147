"""Dates of old garments, as the Extended Date/Time Format of ISO 8601-2:2019 writes them.

The text is kept; its earliest and latest day are what searching and the time line use. Plain words are only
ever turned into an offer (`plain_dates`).
"""

import re
from calendar import monthrange
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, Literal

from catalogue.lengths.calculation.errors import DateNotUnderstood
from catalogue.sources.calculation.plain_dates import MONTH_NAMES, suggest_edtf

LONGEST_TEXT = 80
EXAMPLES = "type 1785, 1785~ for about 1785, 177X for the 1770s or 1750/1760"

# What the format writes where a month stands, as first month and number of months: seasons without and with
# a hemisphere, quarters, thirds and halves of a year (ISO 8601-2:2019, 4.8). It leaves open which months a
# season has; they are the meteorologists' here, and a winter runs into the year after its own.
_PARTS_OF_A_YEAR = {
    21: (3, 3), 22: (6, 3), 23: (9, 3), 24: (12, 3), 25: (3, 3), 26: (6, 3), 27: (9, 3), 28: (12, 3),
    29: (9, 3), 30: (12, 3), 31: (3, 3), 32: (6, 3), 33: (1, 3), 34: (4, 3), 35: (7, 3), 36: (10, 3),
    37: (1, 4), 38: (5, 4), 39: (9, 4), 40: (1, 6), 41: (7, 6),
}  # fmt: skip
# Three forms that the library does not read, or reads as something else: a doubtful part of a year
# (1884-24~), a year of which so many digits count (1760S2), a month or day known by one digit (1760-1X).
_PART_OF_A_YEAR = re.compile(r"([0-9]{4})-(2[1-9]|3[0-9]|4[01])[~?%]?")
_DIGITS_THAT_COUNT = re.compile(r"([0-9]{4})S([1-4])[~?%]?")
_ONE_DIGIT = re.compile(r"([0-9]{4})-([01]X|X[0-9]|[01][0-9])(?:-([0-3]X|X[0-9]|[0-3][0-9]))?[~?%]?")

Bounds = tuple[date | None, date | None]


@dataclass(frozen=True, slots=True)
class DateSpan:
    """A date text with the first and last day it allows; None where it is open or not known at that end."""

    edtf: str
    earliest: date | None
    latest: date | None


End = Literal["stated", "about", "open"]


@dataclass(frozen=True, slots=True, kw_only=True)
class DateEnds:
    first: End
    last: End


def read_date(text: str) -> DateSpan:
    """Read a date in the extended format. Raises DateNotUnderstood, whose sentence says what to type."""
    edtf = text.strip()
    if not edtf or len(edtf) > LONGEST_TEXT:
        raise DateNotUnderstood(f"Type a date of up to {LONGEST_TEXT} characters: {EXAMPLES}.")
    return DateSpan(edtf, *_bounds(edtf))


def ends_of(edtf: str) -> DateEnds:
    """How each end of a date is known: stated, about (about, probably or perhaps), or open.

    The ends of a decade or a century are stated: what is not known is where between them the garment lies.
    """
    inside = edtf.strip("[]{}")
    parts = re.split(r"/|\.\.|,", inside)
    first, last = parts[0].strip(), parts[-1].strip()
    return DateEnds(first=_end(first), last=_end(last))


def _end(part: str) -> End:
    if not part:
        return "open"
    return "about" if re.search(r"[~?%S]", part) else "stated"


def _bounds(edtf: str) -> Bounds:
    if re.fullmatch(r"\[.+\]|\{.+\}", edtf):
        # One by one, as the ends of an interval: the library fails on some open and some doubtful ones.
        spans = [_interval(part.strip().replace("..", "/")) for part in edtf[1:-1].split(",")]
        firsts, lasts = [first for first, _ in spans], [last for _, last in spans]
        return _outermost(min, firsts), _outermost(max, lasts)
    return _interval(edtf)


def _interval(edtf: str) -> Bounds:
    first, slash, last = edtf.partition("/")
    if not slash:
        return _single(edtf)
    earliest = None if first in ("", "..") else _single(first)[0]
    latest = None if last in ("", "..") else _single(last)[1]
    if earliest is None and latest is None:
        raise DateNotUnderstood(f"“{edtf}” is open at both ends: leave the date empty.")
    if earliest and latest and earliest > latest:
        raise DateNotUnderstood(f"“{edtf}” runs backwards: type the earlier date first.")
    return earliest, latest


def _single(edtf: str) -> Bounds:
    if (match := _PART_OF_A_YEAR.fullmatch(edtf)) and not _is_span_of_years(match[1], match[2]):
        start, months = _PARTS_OF_A_YEAR[int(match[2])]
        years_on, month = divmod(start - 1 + months, 12)
        first, next_part = (int(match[1]), start), (int(match[1]) + years_on, month + 1)
        return _day(*first, 1, edtf), _day(*next_part, 1, edtf) - timedelta(days=1)
    if match := _DIGITS_THAT_COUNT.fullmatch(edtf):
        open_digits: int = 10 ** (4 - int(match[2]))
        first_year = int(match[1]) // open_digits * open_digits
        return _day(first_year, 1, 1, edtf), _day(first_year + open_digits - 1, 12, 31, edtf)
    if "X" in edtf[5:].replace("XX", "") and (match := _ONE_DIGIT.fullmatch(edtf)):
        return _days_that_match(edtf, *match.groups())
    parsed = _parse(edtf)
    (y1, m1, d1, *_), (y2, m2, d2, *_) = parsed.lower_strict(), parsed.upper_strict()
    return _day(y1, m1, d1, edtf), _day(y2, m2, d2, edtf)


def _is_span_of_years(year: str, part: str) -> bool:
    """By 1725-30 a maker means the years 1725 to 1730, by 1884-33 nobody does."""
    return part > "24" and part > year[2:]


def _days_that_match(edtf: str, year: str, month: str, day: str | None) -> Bounds:
    mask = re.compile(f"{month}-{day or 'XX'}".replace("X", "[0-9]"))
    new_year = _day(int(year), 1, 1, edtf)
    days = [
        new_year.replace(month=m, day=d)
        for m in range(1, 13)
        for d in range(1, monthrange(int(year), m)[1] + 1)
    ]
    matching = [each for each in days if mask.fullmatch(f"{each:%m-%d}")]
    if not matching:
        raise DateNotUnderstood(f"“{edtf}” names a day that its month does not have.")
    return matching[0], matching[-1]


def _parse(edtf: str) -> Any:
    # Imported here: the grammar takes a third of a second to build.
    from edtf import parse_edtf

    if not re.search(r"[\[{S/]|^Y|-[0-9]X|-X[0-9]", edtf) and not _PART_OF_A_YEAR.fullmatch(edtf):
        # Beside its own error the library raises whatever its classes stumble over.
        with suppress(Exception):
            return parse_edtf(edtf)
    raise DateNotUnderstood(f"“{edtf}” is not a date as the catalogue writes them: {_instead(edtf)}")


def _instead(typed: str) -> str:
    """What to type in its place, as the end of a sentence."""
    if offer := suggest_edtf(typed):
        return f"did you mean {offer}?"
    if re.search(r"\b(early|mid|middle|late)\b", typed, re.IGNORECASE):
        return "it has no early, mid or late, so type the years that you take it for, as 1770/1799."
    if re.search(r"\b(un(dated|known)|no date|n\.\s?d\b)", typed, re.IGNORECASE):
        return "leave the date empty where it is not known."
    return f"{EXAMPLES}."


def _day(year: int, month: int, day: int, edtf: str) -> date:
    if not 1 <= year <= 9999:
        raise DateNotUnderstood(f"“{edtf}” is outside the years 1 to 9999.")
    try:
        return date(year, month, day)
    except ValueError:  # the library takes each February for one of 29 days
        raise DateNotUnderstood(f"“{edtf}” names a day that its month does not have.") from None


def _outermost(choose: Callable[[list[date]], date], days: list[date | None]) -> date | None:
    known = [day for day in days if day is not None]
    return choose(known) if len(known) == len(days) else None


_SINGLE = re.compile(r"([0-9]{2}XX|[0-9]{3}X|[0-9]{4})(?:-([0-9]{2}))?(?:-([0-9]{2}))?([~?%]?)")
_DOUBT = {"": "", "~": "about ", "?": "probably ", "%": "perhaps about "}


def describe(edtf: str) -> str:
    """A date in plain words: "about 1785", "1770s", "1750 to 1760"; a rarer form is shown as written."""
    if match := re.fullmatch(r"([\[{])(.+)[\]}]", edtf):
        joint = " or " if match[1] == "[" else " and "
        parts = [describe(part.strip().replace("..", "/")) for part in match[2].split(",")]
        return joint.join(filter(None, (", ".join(parts[:-1]), parts[-1])))
    start, slash, end = edtf.partition("/")
    if not slash:
        return _describe_single(edtf)
    if start in ("", ".."):
        return f"{_describe_single(end)} or before"
    if end in ("", ".."):
        return f"{_describe_single(start)} or after"
    return f"{_describe_single(start)} to {_describe_single(end)}"


def _describe_single(edtf: str) -> str:
    match = _SINGLE.fullmatch(edtf)
    if match is None or (match[2] and match[2] not in MONTH_NAMES):
        return edtf
    year, month, day, doubt = match.groups()
    if year.endswith("XX"):
        year = _century(int(year[:2]) + 1)
    elif year.endswith("X"):
        year = f"{year[:3]}0s"
    the = "the " if doubt and "X" in match[1] else ""
    return _DOUBT[doubt] + the + " ".join(filter(None, (day and str(int(day)), MONTH_NAMES.get(month), year)))


def _century(number: int) -> str:
    ending = "th" if 10 < number % 100 < 14 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending} century"
