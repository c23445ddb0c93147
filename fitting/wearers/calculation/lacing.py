"""How far a waist is laced in, and when that calls for a caution. No medical advice: a doctor's is."""

from dataclasses import dataclass
from typing import Self

from fitting.wearers.calculation.layers import BONED_MM

# Sixteen reenactors laced 3 in under their waist lost 9 % of tidal volume on average, 2 to 29 %; comfort was
# better up to a tenth of the waist. C. R. Gau, PhD thesis, Iowa State University, 1998 (abstract).
MOST_SHARE = 0.1
MOST_FOR_A_NEWCOMER_MM = 3 * 25.4
_MICROMETRE_MM = 0.001  # lengths are stored to it: it must not make a tenth more than a tenth


@dataclass(frozen=True, slots=True, kw_only=True)
class Lacing:
    """A waist without stays, and what is left of it inside them: that is what the body is asked to give."""

    natural_mm: float
    inside_mm: float
    is_newcomer: bool

    @property
    def reduction_mm(self) -> float:
        return self.natural_mm - self.inside_mm

    @classmethod
    def over_stays(cls, *, natural_mm: float, outside_mm: float, is_newcomer: bool) -> Self:
        """From a tape round the stays, which are thicker than nothing: inside, there is that much less."""
        return cls(natural_mm=natural_mm, inside_mm=outside_mm - BONED_MM, is_newcomer=is_newcomer)

    @property
    def share(self) -> float:
        return self.reduction_mm / self.natural_mm

    @property
    def percent(self) -> float:
        return 100 * self.share

    @property
    def needs_caution(self) -> bool:
        """Above a tenth of the waist; for somebody new to lacing also from 3 in on."""
        is_much_for_a_newcomer = self.reduction_mm >= MOST_FOR_A_NEWCOMER_MM - _MICROMETRE_MM
        return self.is_above_a_tenth or (self.is_newcomer and is_much_for_a_newcomer)

    @property
    def is_above_a_tenth(self) -> bool:
        return self.reduction_mm - MOST_SHARE * self.natural_mm > _MICROMETRE_MM
