"""How many times larger the garment is than its plate.

However a book states it, as a ratio, in words, by a grid, by a bar or by one length known from elsewhere, a
scale is two factors: along the page, and across it where paper or a scan has stretched one way.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from catalogue.lengths.calculation.doubt import two_ended_reading_u
from catalogue.lengths.calculation.errors import NotUnderstood
from catalogue.lengths.calculation.lengths import LONGEST_TEXT, parse_length

# Standard uncertainty of the scale by what the plate was read from: our guess until it is calibrated.
RELATIVE_DOUBT: Mapping[str, float] = MappingProxyType({"book": 0.005, "copy": 0.015})

_RATIO = re.compile(r"\s*([0-9]{1,20}(?:\.[0-9]{1,20})?)\s*[:∶]\s*([0-9]{1,20}(?:\.[0-9]{1,20})?)\s*")
_EQUALS = re.compile(r"\s*(?:=|\bequals?\b|\bstands? for\b|\bto\b)\s*", re.IGNORECASE)


class ScaleNotUnderstood(NotUnderstood):
    """A scale that cannot be read, or that would enlarge to nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """Full size ÷ page. Lengths go `along` the page, girths `across`; both share the relative doubt."""

    along: float
    across: float
    relative_doubt: float = RELATIVE_DOUBT["book"]

    @classmethod
    def of(cls, factor: Fraction | float, *, relative_doubt: float = RELATIVE_DOUBT["book"]) -> "Scale":
        """The same factor both ways."""
        return cls(along=float(factor), across=float(factor), relative_doubt=relative_doubt)


def read_ratio(text: str) -> Fraction:
    """The factor of a ratio as printed, page first: 1:8 gives 8. Raises ScaleNotUnderstood."""
    match = _RATIO.fullmatch(text)
    if match is None:
        raise ScaleNotUnderstood(f"“{text}” is not a ratio: type the page first, as in 1:8.")
    page, real = Fraction(match[1]), Fraction(match[2])
    if not page or not real:
        raise ScaleNotUnderstood(f"“{text}” has a zero: both sides of a ratio are more than nothing.")
    return real / page


def read_words(text: str) -> Fraction:
    """The factor of “1 in = 8 in”, page first. Raises ScaleNotUnderstood or LengthNotUnderstood."""
    sides = _EQUALS.split(text.strip()) if len(text) < 3 * LONGEST_TEXT else []
    if len(sides) != 2:
        raise ScaleNotUnderstood(f"“{text}” is not a scale in words: type it as in 1 in = 8 in.")
    return from_known(*(parse_length(side) for side in sides))


def from_known(page_mm: Fraction, real_mm: Fraction) -> Fraction:
    """The factor from one length that is known at both sizes: a grid square, a bar, a measured edge.

    Raises ScaleNotUnderstood where either is nothing.
    """
    if page_mm <= 0 or real_mm <= 0:
        raise ScaleNotUnderstood(
            "A scale needs a length on the page and at full size, both more than nothing."
        )
    return real_mm / page_mm


def measured_relative_doubt(page_mm: float, division_mm: float) -> float:
    """The doubt of a scale taken from one length on the page, read with a rule of that division."""
    return two_ended_reading_u(division_mm) / page_mm
