"""What an outfit has cost, what is still to buy, what is left of its budget; cloth as shops write it."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from catalogue.lengths.calculation.lengths import System, format_number
from catalogue.lengths.calculation.units import INCH_MM

YARD_MM = 36 * INCH_MM
# Shops cut to an eighth of a yard, or to five centimetres; common practice, no source.
EIGHTH_MM = YARD_MM / 8
STEP_MM = 50.0
# What a price may be for, and the shop's own unit where that is a length.
PRICE_FOR: Mapping[str, str] = {
    "": "all that is still to buy",
    "m": "a metre",
    "yd": "a yard",
    "piece": "a piece",
}
BY_THE_LENGTH: Mapping[str, System] = {"m": "cm", "yd": "in"}
# Below it a shop cuts to a whole inch or centimetre.
UNIT_MM: Mapping[System, float] = {"in": YARD_MM, "cm": 1000.0}
# A length that came of sums is not a whole eighth more for a rounding of floats.
SMALLEST = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Spending:
    """In the money of the outfit. `expected`: prices of what is still to buy. `budget` None: none was set."""

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


def expected_price(
    price: Decimal | None, *, price_for: str, to_buy_mm: float, to_buy_count: int
) -> Decimal | None:
    """What is still to be paid, to the hundredth: a length as the shop cuts it. None: no price is known.

    `price_for`: a key of PRICE_FOR.
    """
    if price is None or not price_for:
        return price
    if price_for == "piece":
        return price * to_buy_count
    system = BY_THE_LENGTH[price_for]
    units = round(cut_mm(to_buy_mm, system) / UNIT_MM[system], 6)
    return (price * Decimal(repr(units))).quantize(Decimal("0.01"), ROUND_HALF_UP)


def cut_mm(mm: float, system: System) -> float:
    """A length as a shop cuts it: rounded up, a short one to a whole inch or centimetre."""
    short, step = (INCH_MM, EIGHTH_MM) if system == "in" else (10.0, STEP_MM)
    least = short if mm < UNIT_MM[system] else step
    return math.ceil(mm / least - SMALLEST) * least


def cloth_text(mm: float, system: System) -> str:
    """A length as one asks for it in a shop."""
    cut = cut_mm(mm, system)
    if mm < UNIT_MM[system]:
        return f"{cut / INCH_MM:.0f} in" if system == "in" else f"{cut / 10:.0f} cm"
    if system == "in":
        # Eighths of a yard are written as eighths of an inch are.
        return f"{format_number(cut / 36, system='in', denominator=8)} yd"
    return f"{cut / 1000:.2f} m"
