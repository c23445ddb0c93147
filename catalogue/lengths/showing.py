"""Lengths as whoever reads them writes them: inches as fractions, or centimetres."""

from dataclasses import dataclass
from typing import Any

from catalogue.lengths.calculation.lengths import System, format_length


def length_for(um: int | None, reader: Any) -> str:
    """Micrometres as text in the unit of who reads; a dash where there are none."""
    return "–" if um is None else mm_for(um / 1000, reader)


def mm_for(mm: float | None, reader: Any) -> str:
    """Millimetres as text in the unit of who reads; a dash where there are none."""
    if mm is None:
        return "–"
    system = getattr(reader, "system", "in")
    return format_length(mm, system=system, denominator=getattr(reader, "denominator", 16))


@dataclass(frozen=True, slots=True, kw_only=True)
class Writing:
    """How lengths are written for one reader."""

    system: System
    denominator: int = 16

    def length(self, mm: float) -> str:
        return format_length(mm, system=self.system, denominator=self.denominator)
