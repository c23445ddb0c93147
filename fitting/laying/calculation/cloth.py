"""The cloth of a lay: the width there is to use, the turns its face allows, the length to buy."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from catalogue.lengths.calculation.errors import Fault
from fitting.laying.calculation.repeat import Repeat

EIGHTH_OF_A_YARD_MM = 114.3

# A length that is a whole number of steps stays one, whatever the last binary digit says, and though pieces
# that rest on one another are a hair apart.
_SLIP_MM = 5e-4
NO_REPEAT = Repeat()


class Direction(StrEnum):
    """Which turns of a piece look alike on this cloth; quarter turns leave the grain across."""

    ONE_WAY = "one-way"
    TWO_WAY = "two-way"
    ANY = "any quarter turn"

    @property
    def turns_deg(self) -> tuple[int, ...]:
        """The turns allowed, counter-clockwise."""
        return _TURNS[self]


_TURNS = {Direction.ONE_WAY: (0,), Direction.TWO_WAY: (0, 180), Direction.ANY: (0, 90, 180, 270)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloth:
    """A cloth as it is bought. Shrinkage is the part lost of each length: 0.05 is 5 in of 100.

    `selvedge_mm` is the width of one selvedge: neither is cut into. `unit_mm` is the step in which the shop
    sells; `gap_mm` keeps pieces apart from each other. A repeat that the cloth has is matched.
    """

    width_mm: float
    selvedge_mm: float = 0.0
    direction: Direction = Direction.ONE_WAY
    gap_mm: float = 0.0
    shrinkage_length: float = 0.0
    shrinkage_width: float = 0.0
    repeat: Repeat = NO_REPEAT
    unit_mm: float = EIGHTH_OF_A_YARD_MM

    def faults(self) -> Iterator[Fault]:
        """What no cloth can be, by the name of the value."""
        if self.width_mm <= 0:
            yield Fault("width", "A cloth has a width: this must be more than nothing.")
        elif 2 * self.selvedge_mm >= self.width_mm:
            yield Fault("selvedge", "The two selvedges leave no cloth between them.")
        for name, part in (("length", self.shrinkage_length), ("width", self.shrinkage_width)):
            if not 0 <= part < 1:
                yield Fault(f"shrinkage.{name}", "Shrinkage is a part of the whole: from 0 to less than 1.")
        if self.unit_mm <= 0:
            yield Fault("unit", "The shop's unit must be more than nothing.")
        for fault in self.repeat.faults(self.width_mm):
            yield Fault(f"repeat.{fault.where}", fault.sentence)

    @property
    def usable_width_mm(self) -> float:
        """Between the selvedges, once the cloth has shrunk: pieces are cut from shrunk cloth."""
        return (self.width_mm - 2 * self.selvedge_mm) * (1 - self.shrinkage_width)

    @property
    def repeat_laid(self) -> Repeat:
        """The repeat of the cloth once it has shrunk."""
        return self.repeat.shrunk(length=self.shrinkage_length, width=self.shrinkage_width)

    @property
    def turns_deg(self) -> tuple[int, ...]:
        """The turns in which a piece is matched.

        Turned end for end it would be only where its matching point is the middle of a motif, which nobody
        said: on cloth that repeats along its length all pieces lie one way up.
        """
        if self.repeat.along_mm > 0:
            return (0,)
        return tuple(turn for turn in self.direction.turns_deg if turn % 180 == 0 or not self.repeat.is_there)

    def length_to_buy_mm(self, length_mm: float) -> float:
        """The length before it shrinks, in whole repeats and one more where it is asked, then in the shop's
        unit.
        """
        needed_mm, repeat_mm = length_mm / (1 - self.shrinkage_length), self.repeat.along_mm
        if repeat_mm:
            needed_mm = _whole_steps(needed_mm, repeat_mm) + (repeat_mm if self.repeat.one_more else 0.0)
        return _whole_steps(needed_mm, self.unit_mm)


def _whole_steps(mm: float, step_mm: float) -> float:
    return round(math.ceil((mm - _SLIP_MM) / step_mm) * step_mm, 6)
