"""Dates of old garments, as the Extended Date/Time Format of ISO 8601-2:2019 writes them.

The text is kept; its earliest and latest day are what searching and the time line use. Plain words are only
ever turned into an offer (`plain_dates`).
"""

import re
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from typing import Any, Literal

from catalogue.lengths.calculation.errors import DateNotUnderstood
from catalogue.sources.calculation.plain_dates import MONTH_NAMES, suggest_edtf

LONGEST_TEXT = 80
EXAMPLES = "type 1785, 1785~ for about 1785, 177X for the 1770s or 1750/1760"

# 1760S2, which the library takes for the year alone; 1760-1X, on which it breaks; and 1725-30, in the format
# a season of the southern half of the earth, by which a maker means the years 1725 to 1730.
_NOT_FOR_DRESS = re.compile(r"S|-[0-9]X|-X[0-9]|\b[0-9]{4}-(?:2[5-9]|3[0-9]|4[01])\b")

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
    return "about" if re.search(r"[~?%]", part) else "stated"


def _bounds(edtf: str) -> Bounds:
    parsed = _parse(edtf)
    if edtf[0] in "[{":
        # One by one: the library fails on some open ends in a set, and lets a part that runs backwards pass.
        spans = [_bounds(part.strip().replace("..", "/")) for part in edtf[1:-1].split(",")]
        firsts, lasts = [first for first, _ in spans], [last for _, last in spans]
        return _outermost(min, firsts), _outermost(max, lasts)
    # An end left blank is not known; the library would put it ten years off.
    earliest = None if edtf.startswith("/") else _day(parsed.lower_strict(), edtf)
    latest = None if edtf.endswith("/") else _day(parsed.upper_strict(), edtf)
    if earliest is None and latest is None:
        raise DateNotUnderstood(f"“{edtf}” is open at both ends: leave the date empty.")
    if earliest and latest and earliest > latest:
        raise DateNotUnderstood(f"“{edtf}” runs backwards: type the earlier date first.")
    return earliest, latest


def _parse(edtf: str) -> Any:
    # Imported here: the grammar takes a third of a second to build.
    from edtf import parse_edtf

    if not _NOT_FOR_DRESS.search(edtf):
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


def _day(bound: Any, edtf: str) -> date | None:
    if isinstance(bound, float):  # plus or minus infinity: an open end
        return None
    if not 1 <= bound.tm_year <= 9999:
        raise DateNotUnderstood(f"“{edtf}” is outside the years 1 to 9999.")
    try:
        return date(bound.tm_year, bound.tm_mon, bound.tm_mday)
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
