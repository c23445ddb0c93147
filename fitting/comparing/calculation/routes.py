"""The routes to a pattern, and the words in which each is judged."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType


class Route(StrEnum):
    """The ways to the pattern, in the order in which they are shown."""

    AS_DRAWN = "enlarge as drawn"
    ALTER = "enlarge and alter"
    GRADE = "enlarge and grade"
    DRAPE = "drape on a stand"
    COMBINE = "combine patterns"
    DRAFT = "draft from measures"
    ADAPT = "adapt a sized pattern"
    STUDY = "study only"


class Standing(StrEnum):
    OPEN = "open"
    AGAINST = "against"
    RULED_OUT = "ruled out"


class Effect(StrEnum):
    RULES_OUT = "rules out"
    COUNTS_AGAINST = "counts against"
    SPEAKS_FOR = "speaks for"


class SkillLevel(StrEnum):
    """`NOT_ASKED` tells for nothing: what a maker has not been asked they may well be able to do."""

    NONE = "none"
    LEARNING = "learning"
    WORKING = "working"
    NOT_ASKED = "not asked"


ENLARGEMENTS = (Route.AS_DRAWN, Route.ALTER, Route.GRADE)

# The skill that a route asks for, by the word a maker states it with.
SKILL_OF: Mapping[Route, str] = MappingProxyType(
    {
        Route.ALTER: "alter",
        Route.GRADE: "grade",
        Route.DRAPE: "drape",
        Route.COMBINE: "combine",
        Route.DRAFT: "draft",
    }
)

# Those of which the plate's own pieces, enlarged, are where the pattern begins.
ENLARGING = (Route.AS_DRAWN, Route.ALTER, Route.GRADE)

# Our guesses, until the maker's own logged median of three or more takes their place.
GUESSED_HOURS: Mapping[Route, float] = MappingProxyType(
    {
        Route.AS_DRAWN: 3,
        Route.ALTER: 6,
        Route.GRADE: 10,
        Route.DRAPE: 8,
        Route.COMBINE: 7,
        Route.DRAFT: 9,
        Route.ADAPT: 4,
        Route.STUDY: 1,
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """One rule that told for or against a route: its name, the figures it read, and a sentence.

    `though`: what to say of it in passing where the route is taken all the same.
    """

    rule: str
    effect: Effect
    read: Mapping[str, float | str]
    sentence: str
    though: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RouteJudgement:
    route: Route
    standing: Standing
    reasons: tuple[Reason, ...]
    hours: float

    @property
    def is_spoken_for(self) -> bool:
        return any(reason.effect is Effect.SPEAKS_FOR for reason in self.reasons)
