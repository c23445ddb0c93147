"""Lengths as whoever reads them writes them: inches as fractions, or centimetres."""

from typing import Any

from catalogue.measuring.lengths import format_length


def length_for(um: int | None, reader: Any) -> str:
    """Micrometres as text in the unit of who reads; a dash where there are none."""
    return "–" if um is None else mm_for(um / 1000, reader)


def mm_for(mm: float | None, reader: Any) -> str:
    """Millimetres as text in the unit of who reads; a dash where there are none."""
    if mm is None:
        return "–"
    system = getattr(reader, "system", "in")
    return format_length(mm, system=system, denominator=getattr(reader, "denominator", 16))
