"""What the rules read about one route: the figures of a case and of its comparison, each under one name.

The routes rest on fitted lines; where a garment has loose ones alone, those stand in.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from catalogue.lengths.calculation.lengths import System
from catalogue.plates.calculation.sums import full_size_text
from fitting.comparing.calculation.case import Case, Fit
from fitting.comparing.calculation.comparison import Comparison, LineComparison
from fitting.comparing.calculation.routes import SKILL_OF, Purpose, Route, Skill
from fitting.comparing.calculation.verdict import HAIR_MM, Verdict


@dataclass(frozen=True, kw_only=True)
class Evidence:
    """Figures are None where there is nothing to read them from; lengths are millimetres."""

    case: Case
    comparison: Comparison
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
        """What the fit of the whole rests on: fitted lines, or the loose ones where a garment has no other.

        Empty while the allowance is not known: no route rests on either result.
        """
        if not self.is_allowance_known:
            return ()
        return _fitted_else_all(self.comparison.compared)

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

    @cached_property
    def differences_mm(self) -> tuple[float, ...]:
        """How far each fitted level is off."""
        levels = tuple(line for line in self.comparison.levels if line.chances is not None)
        return tuple(line.difference_mm for line in _fitted_else_all(levels)) if self.judged else ()

    @property
    def signs(self) -> str:
        """Which way the fitted levels are off: smaller, larger, both or neither."""
        smaller = any(difference < -HAIR_MM for difference in self.differences_mm)
        larger = any(difference > HAIR_MM for difference in self.differences_mm)
        return {(True, True): "both", (True, False): "smaller", (False, True): "larger"}.get(
            (smaller, larger), "neither"
        )

    @property
    def spread_mm(self) -> float | None:
        return max(self.differences_mm) - min(self.differences_mm) if self.differences_mm else None

    @property
    def largest_mm(self) -> float | None:
        return max(map(abs, self.differences_mm), default=None)

    @property
    def skill(self) -> Skill:
        return self.case.skills.get(SKILL_OF[self.route], Skill.NONE)

    @property
    def has_stand(self) -> bool:
        return bool(self.case.stand_mm)

    @cached_property
    def stand_over_mm(self) -> dict[str, float]:
        """Stand less wearer, at each level compared that the stand was measured at."""
        stand_mm = self.case.stand_mm or {}
        levels = [line for line in self.comparison.levels if line.chances is not None]
        return {line.line: stand_mm[line.line] - line.body_mm for line in levels if line.line in stand_mm}

    @property
    def stand_larger_mm(self) -> float:
        """By how much the stand is larger than the wearer where it is so most."""
        return max(self.stand_over_mm.values(), default=0.0)

    @property
    def stand_smaller_mm(self) -> float:
        """By how much the stand is smaller than the wearer where it is so most."""
        return -min(self.stand_over_mm.values(), default=0.0)

    @property
    def padding_mm(self) -> float:
        """How thick the stand is to be padded all round where it is smallest against the wearer."""
        return self.stand_smaller_mm / (2 * math.pi)

    @property
    def fits_within_mm(self) -> float:
        return self.case.limits.fits_mm

    @property
    def patterns_in_hand(self) -> bool:
        return self.case.patterns_in_hand

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


def _fitted_else_all(lines: Iterable[LineComparison]) -> tuple[LineComparison, ...]:
    lines = tuple(lines)
    return tuple(line for line in lines if line.fit is Fit.FITTED) or lines
