"""Lengths as people type and read them: mixed fractions of an inch, centimetres, nails, pouces and lignes.

Text becomes exact millimetres here, once, by our own reading of it; `units` says what a unit is worth. Typed
text never reaches pint, which reads "1 1/2 in" as 0.5 in and can hang on a power. Where text could be read in
two ways it is refused with a sentence: a wrong length cuts cloth.
"""

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from catalogue.lengths.calculation.errors import LengthNotUnderstood
from catalogue.lengths.calculation.units import find_unit, mm_per

LONGEST_TEXT = 60
LONGEST_MM = 100_000  # no plate, wearer or cloth comes near 100 m: something else was meant

System = Literal["in", "cm"]

# Marks without width come along with text copied from a page.
_NO_WIDTH: dict[int, str] = dict.fromkeys(map(ord, "\u00ad\u200b\u200e\u200f\u2060\ufeff"), "")
# 1½ is one and a half: the space keeps the whole number from running into the fraction.
_PLAIN: dict[int, str] = (
    {ord(sign): " " + unicodedata.normalize("NFKC", sign) + " " for sign in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"}
    | {ord("‐"): "-", ord("‑"): "-"}
    | _NO_WIDTH
)

_PART = re.compile(
    r"""\s*
    (?: (?P<whole>[0-9]{1,9}) (?:-\s?|\s+)                                     # 1 1/2  1-1/2
        (?P<top>[0-9]{1,9}) \s?[/⁄∕]\s? (?P<bottom>[0-9]{1,9})
      | (?P<only_top>[0-9]{1,9}) \s?[/⁄∕]\s? (?P<only_bottom>[0-9]{1,9})        # 19/16
      | (?P<decimal>[0-9]{1,9}[.,][0-9]{1,9} | \.[0-9]{1,9})                    # 14.5  14,5
      | (?P<number>[0-9]{1,9})
    ) (?![0-9])
    \s* (?P<unit> ''|′′|’’ | ["″”“'′’]
      | (?!e[+-]?[0-9]) (?!(?:to|or)\b) [^\W\d_]+ (?: \s+ (?!(?:to|or)\b) [^\W\d_]+)* \.? )?
    \s* (?: , (?=\s*[0-9]))? \s*                                             # 5 ft, 2 in
    """,
    re.VERBOSE | re.IGNORECASE,
)
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")


@dataclass(frozen=True, slots=True)
class _Part:
    """A number with the unit that follows it, as in the two parts of 5 ft 2 in."""

    number: Fraction
    unit: str  # empty: a bare number
    whole: bool


def parse_length(
    text: str, *, unit: str | None = None, sixteenths: bool = False, signed: bool = False
) -> Fraction:
    """Read typed text as exact millimetres.

    `unit` is the unit that the field states for a bare number; without one a bare number is refused.
    With `sixteenths` a bare whole number is read off a rule in sixteenths of an inch: 19 is 1 3/16 in.
    With `signed` a leading minus is allowed, as for ease.
    Raises LengthNotUnderstood, whose sentence says what could not be read and what to type.
    """
    sign, parts = _read(text, signed=signed)
    if not parts[0].unit:
        return sign * _within_reason(_bare_mm(parts[0], unit, sixteenths), text)
    _check_order(parts)
    total = sum((part.number * mm_per(part.unit) for part in parts), Fraction())
    return sign * _within_reason(total, text)


def canonical_text(
    text: str, unit: str | None = None, sixteenths: bool = False, *, signed: bool = False
) -> str:
    """The text as typed with its unit written out, so that it reads the same anywhere: 19 becomes 19/16 in.

    `parse_length(canonical_text(…))` is exactly `parse_length(text, …)`. Raises as `parse_length` does.
    """
    parse_length(text, unit=unit, sixteenths=sixteenths, signed=signed)
    typed = " ".join(text.translate(_NO_WIDTH).split())
    _, parts = _read(text, signed=signed)
    if parts[0].unit:
        return typed
    return f"{typed}/16 in" if sixteenths and parts[0].whole else f"{typed} {unit}"


def to_um(mm: Fraction) -> int:
    """The nearest whole micrometre, as lengths are stored."""
    return round(mm * 1000)


def format_length(mm: Fraction | float, *, system: System = "in", denominator: int = 16) -> str:
    """A length as it is read: "1 3/16 in", "−1/2 in", or in centimetres "36.8 cm"."""
    return f"{format_number(mm, system=system, denominator=denominator)} {system}"


def format_number(mm: Fraction | float, *, system: System = "in", denominator: int = 16) -> str:
    """The number of `format_length` without its unit, for a column whose heading names the unit.

    Inches go to the nearest 1/`denominator`, centimetres to one decimal; halves away from zero, as on a rule.
    """
    steps = abs(Fraction(mm)) / mm_per(system) * (denominator if system == "in" else 10)
    count = int(steps + Fraction(1, 2))
    minus = "−" if mm < 0 and count else ""
    if system == "cm":
        return f"{minus}{count // 10}.{count % 10}"
    whole, rest = divmod(count, denominator)
    fraction = str(Fraction(rest, denominator)) if rest else ""
    return minus + (f"{whole} {fraction}".rstrip() if whole or not rest else fraction)


def _read(text: str, *, signed: bool) -> tuple[int, list[_Part]]:
    """The sign and the numbered parts of a text, left to right; at least one part."""
    if len(text) > LONGEST_TEXT:
        raise LengthNotUnderstood(
            f"That is too long for a length: type no more than {LONGEST_TEXT} characters."
        )
    plain = text.translate(_PLAIN).strip()
    sign = 1
    if plain[:1] in tuple("-−–+"):
        if not signed:
            raise LengthNotUnderstood(f"“{text}” starts with a sign: type a plain length, without + or −.")
        sign = 1 if plain[0] == "+" else -1
        plain = plain[1:].lstrip()
    parts: list[_Part] = []
    at = 0
    while at < len(plain) or not parts:
        match = _PART.match(plain, at)
        if match is None:
            raise _not_understood(text, plain, at)
        parts.append(_Part(_number(match), match["unit"] or "", match["number"] is not None))
        at = match.end()
    if len(parts) > 1 and not all(part.unit for part in parts):
        raise LengthNotUnderstood(f"“{text}” has a number without a unit beside another: type one length.")
    return sign, parts


def _number(match: re.Match[str]) -> Fraction:
    if match["number"]:
        return Fraction(int(match["number"]))
    if decimal := match["decimal"]:
        if _THOUSANDS.fullmatch(decimal):
            joined, pointed = decimal.replace(",", ""), decimal.replace(",", ".")
            raise LengthNotUnderstood(f"“{decimal}” could be {joined} or {pointed}: type one of the two.")
        return Fraction(decimal.replace(",", "."))
    top, bottom = int(match["top"] or match["only_top"]), int(match["bottom"] or match["only_bottom"])
    if bottom == 0:
        raise LengthNotUnderstood(f"“{top}/0” is not a fraction: nothing is divided into 0 parts.")
    if match["whole"] is None:
        return Fraction(top, bottom)
    if top >= bottom:
        raise LengthNotUnderstood(
            f"“{match['whole']} {top}/{bottom}”: after a whole number the fraction must be less than one."
        )
    return Fraction(int(match["whole"]) * bottom + top, bottom)


def _bare_mm(part: _Part, unit: str | None, sixteenths: bool) -> Fraction:
    if sixteenths and part.whole:
        return part.number / 16 * mm_per("in")
    if unit is None:
        raise LengthNotUnderstood(
            f"{part.number} of what? Type the unit too, for example 1 1/2 in or 14.5 cm."
        )
    return part.number * mm_per(unit)


def _check_order(parts: list[_Part]) -> None:
    """Parts run from the larger unit to the smaller, each once, in units that are counted together."""
    units = [find_unit(part.unit) for part in parts]
    for larger, smaller in pairwise(units):
        if larger.family != smaller.family or not larger.family:
            raise LengthNotUnderstood(
                f"{larger.name} and {smaller.name} are not counted together: type one length."
            )
        if mm_per(larger.name) <= mm_per(smaller.name):
            raise LengthNotUnderstood(
                f"{smaller.name} after {larger.name}: type one length, larger unit first, as in 5 ft 2 in."
            )


def _within_reason(mm: Fraction, text: str) -> Fraction:
    if mm > LONGEST_MM:
        raise LengthNotUnderstood(f"“{text.strip()}” is over 100 m: check the number and the unit.")
    return mm


# Read top to bottom: what text that is no length most likely was, and what to type in its place.
_LIKELY = (
    (r"\s*", "Type a length, for example 1 1/2 in or 14.5 cm."),
    (r".*([0-9]e[+-]?[0-9]|[*^=]).*", "“{}” is a calculation: type the number it comes to."),
    (r".*[0-9]{10}.*", "“{}” has more digits than any rule can show."),
    (r".*[\w.\"″”'′’]\s*([-–—~]|\.\.+|…|\b(to|or)\b)\s*[0-9.].*", "“{}” is a range: type one length."),
    (r"[^0-9]*", "There is no number in “{}”: type a length, for example 1 1/2 in or 14.5 cm."),
)  # fmt: skip
_LIKELY_PATTERNS = tuple((re.compile(p, re.IGNORECASE | re.DOTALL), s) for p, s in _LIKELY)


def _not_understood(text: str, plain: str, at: int) -> LengthNotUnderstood:
    for pattern, sentence in _LIKELY_PATTERNS:
        if pattern.fullmatch(plain):
            return LengthNotUnderstood(sentence.format(text.strip()))
    return LengthNotUnderstood(
        f"“{plain[at:]}” was not understood: type a length, for example 1 1/2 in or 14.5 cm."
    )
