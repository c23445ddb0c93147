"""What an outfit has cost, what is still to buy, what is left of its budget; cloth as shops write it."""

import math
from dataclasses import dataclass
from decimal import Decimal

from catalogue.lengths.calculation.lengths import System, format_number
from catalogue.lengths.calculation.units import INCH_MM

YARD_MM = 36 * INCH_MM
# Shops cut to an eighth of a yard, or to five centimetres; common practice, no source.
EIGHTH_MM = YARD_MM / 8
STEP_MM = 50.0
# A length that came of sums is not a whole eighth more for a rounding of floats.
SMALLEST = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Spending:
    """In the outfit's own money. `expected`: prices of what is still to buy. `budget` None: none was set."""

    budget: Decimal | None
    materials: Decimal
    other: Decimal
    expected: Decimal

    @property
    def spent(self) -> Decimal:
        return self.materials + self.other

    @property
    def left(self) -> Decimal | None:
        """Of the budget, once everything expected is paid too; negative where it will not do."""
        return None if self.budget is None else self.budget - self.spent - self.expected

    @property
    def is_over(self) -> bool:
        return self.left is not None and self.left < 0


def still_to_buy(needed: float | None, on_hand: float | None, bought: float | None) -> float:
    """Never less than nothing; what is not stated is none."""
    return max((needed or 0) - (on_hand or 0) - (bought or 0), 0)


def cloth_text(mm: float, system: System) -> str:
    """A length as one asks for it in a shop: rounded up, short ones to a whole inch or centimetre."""
    if system == "in":
        if mm < YARD_MM:
            return f"{math.ceil(mm / INCH_MM - SMALLEST)} in"
        eighths = math.ceil(mm / EIGHTH_MM - SMALLEST)
        # Eighths of a yard are written as eighths of an inch are.
        return f"{format_number(eighths / 8 * INCH_MM, system='in', denominator=8)} yd"
    if mm < 1000:
        return f"{math.ceil(mm / 10 - SMALLEST)} cm"
    return f"{math.ceil(mm / STEP_MM - SMALLEST) * STEP_MM / 1000:.2f} m"
