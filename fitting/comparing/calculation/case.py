"""Everything that one assessment reads: a plate, the wearer as dressed beneath, what the maker has and wants.

Frozen, in millimetres. A stored comparison keeps one, so that it can be explained and reckoned again.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from catalogue.lengths.calculation.errors import Fault
from catalogue.plates.calculation.girth import Reckoning
from catalogue.plates.calculation.readings import PlateReadings
from fitting.comparing.calculation.limits import Limits
from fitting.comparing.calculation.routes import GUESSED_HOURS, Route, SkillLevel
from fitting.outfits.calculation.garment import Fit, Purpose
from fitting.wearers.calculation.body import Body


class Patterns(StrEnum):
    """The patterns in hand: none at all, some but without the parts needed, or one that has them."""

    NONE = "none"
    WITHOUT_PARTS = "without the parts"
    WITH_PARTS = "with the parts"


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamCount:
    """How many seams of the plate are known, and how. None at all: every seam is recorded."""

    recorded: int = 0
    inferred: int = 0
    tried: int = 0
    unknown: int = 0

    @property
    def unknown_share(self) -> float:
        total = self.recorded + self.inferred + self.tried + self.unknown
        return self.unknown / total if total else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One garment for one body. `ease_mm` and `fit` go by level or length; left out: 0 and fitted.

    `skills` goes by the words of `SKILL_OF`; left out: not asked. `stand_mm` are a stand's measures over the
    same state of dress; `has_draft`: the catalogue holds a proportional draft of this kind.
    """

    plate: PlateReadings
    body: Body
    ease_mm: Mapping[str, float] = field(default_factory=dict)
    fit: Mapping[str, Fit] = field(default_factory=dict)
    limits: Limits = field(default_factory=Limits)
    purpose: Purpose = Purpose.THIS_GARMENT
    seams: SeamCount = SeamCount()
    skills: Mapping[str, SkillLevel] = field(default_factory=dict)
    stand_mm: Mapping[str, float] | None = None
    patterns_in_hand: Patterns = Patterns.NONE
    has_draft: bool = False
    days_left: float | None = None
    hours_a_day: float = 2.0
    hours: Mapping[Route, float] = field(default_factory=lambda: dict(GUESSED_HOURS))

    @property
    def levels(self) -> tuple[str, ...]:
        """Levels that the measures name and some piece was read at, unless the garment is not there."""
        read = set(self.plate.levels)
        return tuple(name for name in self.body.girths if name in read and self._is_there(name))

    @property
    def lengths(self) -> tuple[str, ...]:
        return tuple(
            name for name in self.body.lengths if name in self.plate.lengths and self._is_there(name)
        )

    def fit_at(self, line: str) -> Fit:
        return self.fit.get(line, Fit.FITTED)

    def skill(self, name: str) -> SkillLevel:
        return self.skills.get(name, SkillLevel.NOT_ASKED)

    def ease_at_mm(self, line: str) -> float:
        return self.ease_mm.get(line, 0.0)

    def faults(self) -> tuple[Fault, ...]:
        """Faults, by path in the case: figures that no garment can have, as a girth of nothing."""
        return tuple(self._faults())

    def _is_there(self, line: str) -> bool:
        return self.fit_at(line) is not Fit.NOT_THERE

    def _faults(self) -> Iterator[Fault]:
        for line, measure in {**self.body.lengths, **self.body.girths}.items():
            if measure.mm + self.ease_at_mm(line) <= 0:
                yield Fault(f"ease.{line}", "Takes away more than the body measures there.")
        reckoning = Reckoning.of(self.plate)
        for level in self.levels:
            girth = reckoning.girth(level)
            if girth.drawn_mm <= girth.taken_by_seams_mm:
                yield Fault("seam_allowance.drawn", f"Takes up all the cloth that is drawn at {level}.")
            elif girth.mm <= 0:
                yield Fault("fastening.overlap", f"Takes up all the cloth there is at {level}.")
        for line in self.lengths:
            if reckoning.length(line).mm <= 0:
                yield Fault(f"lengths.{line}", "Comes to nothing once take-up and allowances are off.")
