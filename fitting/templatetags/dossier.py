"""Figures in a printed table, whose heading names the unit."""

import re

from django import template

from catalogue.lengths.calculation.lengths import format_number
from catalogue.lengths.models import TypedLength
from catalogue.lengths.showing import Writing

register = template.Library()

_PARTS = re.compile(r"(?<=±) | (?=in\b|cm\b|%)|(?<=×) | (?=×)|(?<=\d) (?=\d+/\d)")


@register.filter
def number_for(mm: float | None, units: Writing) -> str:
    """A length without its unit; a dash where there is none."""
    return "–" if mm is None else format_number(mm, system=units.system, denominator=units.denominator)


@register.filter
def length_number_for(length: TypedLength | None, units: Writing) -> str:
    return number_for(length and length.um / 1000, units)


@register.filter
def signed_for(mm: float | None, units: Writing) -> str:
    """A difference without its unit, its sign always shown."""
    number = number_for(mm, units)
    return f"+{number}" if mm and mm > 0 and number.strip("0.") else number


@register.filter
def kept_together(text: str) -> str:
    """Words in which no line ends within a length: “2 × 8 × 15/32 in”, “± 3/8 in”."""
    return _PARTS.sub("\u00a0", text)
