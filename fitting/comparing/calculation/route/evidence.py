"""What the rules read about one route: the figures of a case and of its comparison, each under one name.

The routes rest on fitted lines; where a garment has loose ones alone, those stand in.
"""

import math
from dataclasses import dataclass
from functools import cached_property

from catalogue.lengths.calculation.lengths import System
from catalogue.lengths.calculation.units import INCH_MM
from catalogue.plates.calculation.sums import full_size_text
from fitting.comparing.calculation.case import Case, Patterns
from fitting.comparing.calculation.comparison import ComparedLines, LineComparison
from fitting.comparing.calculation.limits import Bounds
from fitting.comparing.calculation.routes import SKILL_OF, Route, SkillLevel
from fitting.comparing.calculation.verdict import HAIR_MM, SURE_ENOUGH, Verdict
from fitting.outfits.calculation.garment import Fit, Purpose

# The levels of the trunk: limbs are told apart. A grade goes by the first of them that a garment has: the
# bust or chest, of skirts and trousers the hip or seat.
TRUNK = ("bust", "chest", "hip", "seat", "under bust", "waist")
NAPE = "nape to waist"
# Common practice, no source.
ALIKE_WITHIN_MM = 1.5 * INCH_MM


@dataclass(frozen=True, kw_only=True)
class RouteEvidence:
    """Figures are None where there is nothing to read them from; lengths are millimetres."""

    case: Case
    comparison: ComparedLines
    route: Route
    system: System = "in"

    @property
    def purpose(self) -> Purpose:
        return self.case.purpose

    @property
    def lines_compared(self) -> int:
        return len(self.comparison.compared)

    @property
    def is_allowance_known(self) -> bool:
        return self.case.plate.allowance_mm is not None

    @property
    def unknown_seams(self) -> float:
        """Share of the seams that nobody knows and no miniature has shown."""
        return self.case.seams.unknown_share

    @cached_property
    def judged(self) -> tuple[LineComparison, ...]:
        """The lines that routes rest on: none while the allowance is not known."""
        return self.comparison.judged if self.is_allowance_known else ()

    @cached_property
    def fits(self) -> float | None:
        """The least chance of fitting as drawn."""
        return min((line.chances.fits for line in self.judged if line.chances), default=None)

    @cached_property
    def alterable(self) -> float | None:
        """The least chance of fitting or of being altered to fit."""
        return min((line.chances.alterable for line in self.judged if line.chances), default=None)

    @property
    def is_fit_likeliest(self) -> bool:
        return all(line.likeliest is Verdict.FITS_AS_DRAWN for line in self.judged)

    @property
    def fits_as_far_as_can_be_read(self) -> bool:
        """Whether it surely fits, or fitting is the likeliest everywhere and the rest could be altered."""
        if self.fits is None or self.alterable is None:
            return False
        return self.fits >= SURE_ENOUGH or (self.is_fit_likeliest and self.alterable >= SURE_ENOUGH)

    @cached_property
    def trunk_mm(self) -> dict[str, float]:
        """How far each fitted level of the trunk is off, that which a grade goes by first."""
        off_mm = {
            line.line: line.difference_mm
            for line in self.comparison.levels
            if line.fit is Fit.FITTED and self.is_allowance_known
        }
        return {level: off_mm[level] for level in TRUNK if level in off_mm}

    @property
    def graded_by(self) -> str:
        return next(iter(self.trunk_mm), "")

    @cached_property
    def remaining_mm(self) -> tuple[float, ...]:
        """What the other levels of the trunk are still off by once that which a grade goes by is right."""
        first_mm, *others_mm = self.trunk_mm.values() or (0.0,)
        return tuple(mm - first_mm for mm in others_mm)

    @property
    def least_remaining_mm(self) -> float:
        return min(self.remaining_mm, default=0.0)

    @property
    def most_remaining_mm(self) -> float:
        return max(self.remaining_mm, default=0.0)

    @property
    def is_alike(self) -> bool:
        """Whether what remains is all of one sign, or little."""
        least_mm, most_mm = self.least_remaining_mm, self.most_remaining_mm
        is_one_way = least_mm >= -HAIR_MM or most_mm <= HAIR_MM
        return is_one_way or max(-least_mm, most_mm) <= ALIKE_WITHIN_MM + HAIR_MM

    @property
    def can_be_altered_after(self) -> bool:
        """Whether what remains can be added or taken off."""
        bounds = self.bounds
        return (
            self.least_remaining_mm >= -bounds.add_mm - HAIR_MM
            and self.most_remaining_mm <= bounds.take_off_mm + HAIR_MM
        )

    @property
    def largest_mm(self) -> float | None:
        return max(map(abs, self.trunk_mm.values()), default=None)

    @property
    def far_mm(self) -> float:
        return self.case.limits.grade_far_mm

    @property
    def too_far_mm(self) -> float:
        return self.case.limits.grade_too_far_mm

    @property
    def bounds(self) -> Bounds:
        return self.case.limits.of_girths()

    @property
    def skill(self) -> SkillLevel:
        return self.case.skill(SKILL_OF[self.route])

    @property
    def has_stand(self) -> bool:
        return bool(self.case.stand_mm)

    def _stand_over_mm(self, *fits: Fit) -> list[float]:
        """Stand less wearer, at each level that lies so and that the stand was measured at."""
        stand_mm = self.case.stand_mm or {}
        levels = (one for one in self.comparison.levels if one.fit in fits and one.line in stand_mm)
        return [stand_mm[one.line] - one.body_mm for one in levels]

    @property
    def stand_larger_mm(self) -> float:
        """By how much the stand is larger than the wearer where it is so most, of the fitted levels."""
        return max(self._stand_over_mm(Fit.FITTED), default=0.0)

    @property
    def stand_smaller_mm(self) -> float:
        """By how much the stand is smaller than the wearer where it is so most: loose ones are a minimum."""
        return -min(self._stand_over_mm(Fit.FITTED, Fit.LOOSE), default=0.0)

    @property
    def padding_mm(self) -> float:
        """How thick the stand is to be padded all round where it is smallest against the wearer."""
        return self.stand_smaller_mm / (2 * math.pi)

    @property
    def stand_nape(self) -> str:
        """How the nape to waist of the stand differs, as the end of a sentence; empty where it does not."""
        nape = self.case.body.lengths.get(NAPE)
        stand_mm = (self.case.stand_mm or {}).get(NAPE)
        if nape is None or stand_mm is None or abs(stand_mm - nape.mm) <= HAIR_MM:
            return ""
        word = "longer" if stand_mm > nape.mm else "shorter"
        return f" Its nape to waist is {self.shown(abs(stand_mm - nape.mm))} {word}."

    @property
    def fits_within_mm(self) -> float:
        return self.case.limits.fits_mm

    @property
    def patterns_in_hand(self) -> Patterns:
        return self.case.patterns_in_hand

    @property
    def has_draft(self) -> bool:
        return self.case.has_draft

    @property
    def hours(self) -> float:
        return self.case.hours[self.route]

    @property
    def days_needed(self) -> float:
        return self.hours / self.case.hours_a_day

    @property
    def days_left(self) -> float | None:
        return self.case.days_left

    def shown(self, mm: float | None) -> str:
        return full_size_text(mm or 0.0, self.system)
