"""Plain words that say a date, turned into the extended format: to be offered, and never applied.

A date is one (a year, a decade, a month …) or a span of two. What no form in the format would keep, as
"late 1870s", is not offered; halves and quarters of a century are, since they say their years.
"""

import re
from collections.abc import Callable
from datetime import date

_MONTHS = (
    "January February March April May June July August September October November December "
    "spring summer autumn winter"
)
MONTH_NAMES = {
    f"{number:02}": name
    for number, name in zip([*range(1, 13), *range(21, 25)], _MONTHS.split(), strict=True)
}
_NUMBERS = {
    short: number
    for number, name in MONTH_NAMES.items()
    for short in (name.casefold(), *((name.casefold()[:3],) if number < "13" else ()))
} | {"sept": "09", "fall": "23"}

_YEAR = r"([12][0-9]{3})"
_MONTH = rf"({'|'.join(sorted(_NUMBERS, key=len, reverse=True))})\.?"
_DAY = r"([0-3]?[0-9])(?:st|nd|rd|th)?"
_CENTURY = r"(1[1-9]|2[01])(?:st|th)[ -](?:century|cent\.|c\.?)"
_PARTS = {"first": 1, "1st": 1, "second": 2, "2nd": 2, "third": 3, "3rd": 3, "fourth": 4, "4th": 4}
_PART = rf"({'|'.join(_PARTS)}|last) (half|quarter) of the {_CENTURY}"

# Read top to bottom, against the whole text in lower case. The 1700s may be a decade or a century: not here.
_ONE: tuple[tuple[str, Callable[[re.Match[str]], str]], ...] = (
    (rf"(?:the )?(?:year )?{_YEAR}", lambda m: m[1]),
    (r"(?:the )?([12][0-9][1-9])0['’]?s", lambda m: f"{m[1]}X"),
    (r"([12][0-9]{2}x|[12][0-9]xx)", lambda m: m[1].upper()),
    (rf"(?:the )?{_CENTURY}", lambda m: f"{int(m[1]) - 1}XX"),
    (rf"(?:in )?{_MONTH},? (?:of )?{_YEAR}", lambda m: f"{m[2]}-{_NUMBERS[m[1]]}"),
    (rf"(?:on )?(?:the )?{_DAY} (?:of )?{_MONTH},? {_YEAR}", lambda m: _on_a_day(m[3], m[2], m[1])),
    (rf"(?:on )?{_MONTH} {_DAY},? {_YEAR}", lambda m: _on_a_day(m[3], m[1], m[2])),
)
_QUALIFIERS = (
    (r"(?:about|around|circa|approximately|approx\.?|ca?\.?)\s*", "~"),
    (r"(?:probably|perhaps|possibly)\s+", "?"),
    ("", ""),
)
_OPEN_OR_PART: tuple[tuple[str, Callable[[re.Match[str]], str | None]], ...] = (
    (rf"before {_YEAR}", lambda m: f"../{int(m[1]) - 1}"),
    (
        rf"(?:by|not after|no later than) {_YEAR}|{_YEAR} or (?:before|earlier)",
        lambda m: f"../{m[1] or m[2]}",
    ),
    (rf"after {_YEAR}", lambda m: f"{int(m[1]) + 1}/.."),
    (
        rf"(?:from|since|not before|no earlier than) {_YEAR}(?: on| onwards?)?|{_YEAR} or (?:after|later)",
        lambda m: f"{m[1] or m[2]}/..",
    ),
    (_PART, lambda m: _part_of_century(m[1], m[2], m[3])),
)
_SPAN = r"(?:between |from )?(.+?)\s*(?:-|–|—|\bto\b|\band\b|\buntil\b)\s*(.+)"
# 1750–60, and 1725-30; but 1801-05 is May 1801 in the format.
_SHORT_SPAN = rf"{_YEAR}(?:–|—|-(?=2[5-9]|[3-9]))([0-9][0-9])"


def suggest_edtf(plain_text: str) -> str | None:
    """The extended date for plain words: "about 1785" gives 1785~, "June 1785" gives 1785-06.

    None where the words say something that the format would lose.
    """
    words = " ".join(plain_text.casefold().split()).removeprefix("dated ")
    for pattern, build in _OPEN_OR_PART:
        if match := re.fullmatch(pattern, words):
            return build(match)
    for qualifier, mark in _QUALIFIERS:
        match = re.fullmatch(f"{qualifier}(.+)", words)
        if match and (offer := _one(match[1], mark) or _two(match[1], mark)):
            return offer
    return None


def _one(words: str, mark: str = "") -> str | None:
    for pattern, build in _ONE:
        match = re.fullmatch(pattern, words)
        if match and (edtf := build(match)):
            return edtf + mark
    return None


def _two(words: str, mark: str) -> str | None:
    if match := re.fullmatch(_SHORT_SPAN, words):
        return _span(f"{match[1]}{mark}", f"{match[1][:2]}{match[2]}{mark}")
    if (match := re.fullmatch(r"(.+) or (.+)", words)) and (ends := _ends(match[1], match[2], mark)):
        return f"[{ends[0]},{ends[1]}]" if _span(*ends) else None
    match = re.fullmatch(_SPAN, words)
    ends = _ends(match[1], match[2], mark) if match else None
    return _span(*ends) if ends else None


def _ends(first: str, last: str, mark: str) -> tuple[str, str] | None:
    """Both ends, each with the mark of the whole, or the last with one of its own."""
    own = next((sign for start, sign in _QUALIFIERS if start and re.match(start, last)), "")
    bare = re.sub(_QUALIFIERS[0][0], "", last, count=1) if own == "~" else last
    ends = _one(first, mark), _one(bare, own or mark)
    return (ends[0], ends[1]) if ends[0] and ends[1] else None


def _span(first: str, last: str) -> str | None:
    """The interval, if it runs forwards."""
    starts, ends = first.replace("X", "0"), last.replace("X", "9")
    together = min(len(starts.rstrip("~?")), len(ends.rstrip("~?")))
    return f"{first}/{last}" if starts[:together] <= ends[:together] else None


def _on_a_day(year: str, month: str, day: str) -> str:
    """The day, or nothing where the month has no such day."""
    try:
        return date(int(year), int(_NUMBERS[month]), int(day)).isoformat()
    except ValueError:
        return ""


def _part_of_century(which: str, size: str, century: str) -> str | None:
    parts = {"half": 2, "quarter": 4}[size]
    number = _PARTS.get(which, parts)
    first = 100 * (int(century) - 1) + (number - 1) * 100 // parts
    return f"{first}/{first + 100 // parts - 1}" if number <= parts else None
