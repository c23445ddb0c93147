"""Lengths as whoever reads them writes them: inches as fractions, or centimetres."""

from dataclasses import dataclass
from typing import Any

from catalogue.lengths.calculation.lengths import System, format_length
from catalogue.lengths.models import TypedLength


def length_for(length: TypedLength | None, reader: Any) -> str:
    """A length of a row as text in the unit of who reads; a dash where there is none."""
    return mm_for(length and length.um / 1000, reader)


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
