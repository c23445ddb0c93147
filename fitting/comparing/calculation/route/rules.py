"""The rules by which routes are judged, as a table read from top to bottom.

Thresholds are common practice, no source, unless said. A rule tells only where it bites.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

from fitting.comparing.calculation.case import Patterns
from fitting.comparing.calculation.route.evidence import ALIKE_WITHIN_MM, RouteEvidence
from fitting.comparing.calculation.routes import ENLARGEMENTS, SKILL_OF, Effect, Route, SkillLevel
from fitting.comparing.calculation.verdict import HAIR_MM, SURE_ENOUGH
from fitting.outfits.calculation.garment import Purpose

UNLIKELY = 0.25
SEAMS_GUESSED = 0.25

OUT, AGAINST, FOR = Effect.RULES_OUT, Effect.COUNTS_AGAINST, Effect.SPEAKS_FOR
AS_DRAWN, ALTER, GRADE, DRAPE, COMBINE, DRAFT, ADAPT = (
    (route,)
    for route in (
        *(Route.AS_DRAWN, Route.ALTER, Route.GRADE, Route.DRAPE),
        *(Route.COMBINE, Route.DRAFT, Route.ADAPT),
    )
)
ALL_BUT_STUDY = tuple(route for route in Route if route is not Route.STUDY)


@dataclass(frozen=True, slots=True)
class RouteRule:
    """`routes` it judges, `effect` where `applies`, the names of the figures it `reads`, and what it says.

    `though`: of what counts against a route, what to say of it in passing where the route is taken.
    """

    name: str
    routes: tuple[Route, ...]
    effect: Effect
    reads: tuple[str, ...]
    applies: Callable[[RouteEvidence], bool]
    sentence: Callable[[RouteEvidence], str]
    though: str = ""


def percent(chance: float | None) -> str:
    """Whole percents, never rounded up: what is short of a limit must not be shown as having reached it."""
    whole = math.floor((chance or 0.0) * 100)
    return f"{whole} %" if whole or not chance else "less than 1 %"


def exceeds(mm: float | None, limit_mm: float) -> bool:
    return mm is not None and mm > limit_mm + HAIR_MM


def likely(chance: float | None) -> bool:
    return chance is not None and chance >= SURE_ENOUGH


def unlikely(chance: float | None) -> bool:
    return chance is not None and chance < UNLIKELY


def between(chance: float | None) -> bool:
    return chance is not None and UNLIKELY <= chance < SURE_ENOUGH


# fmt: off
RULES: tuple[RouteRule, ...] = (
    RouteRule("purpose", ALL_BUT_STUDY, OUT, ("purpose",),
         lambda e: e.purpose is Purpose.STUDY,
         lambda e: "The garment is studied, not made: no pattern is needed."),
    RouteRule("purpose", (Route.STUDY,), FOR, ("purpose",),
         lambda e: e.purpose is Purpose.STUDY,
         lambda e: "The garment is studied, not made."),
    RouteRule("purpose", (Route.STUDY,), OUT, ("purpose",),
         lambda e: e.purpose is not Purpose.STUDY,
         lambda e: "A garment is to be made: study alone gives no pattern."),
    RouteRule("period look", ENLARGEMENTS, AGAINST, ("purpose",),
         lambda e: e.purpose is Purpose.PERIOD_LOOK,
         lambda e: "Only the look of the period is wanted, and the plate is one person's garment.",
         "the plate is one person's garment"),
    RouteRule("nothing compared", ENLARGEMENTS, OUT, ("lines_compared",),
         lambda e: e.lines_compared == 0,
         lambda e: "No level is both read on the plate and measured on the wearer."),
    RouteRule("allowance not known", ENLARGEMENTS, OUT, ("is_allowance_known",),
         lambda e: not e.is_allowance_known,
         lambda e: "Nobody knows yet whether the plate includes seam allowance: its size is not settled."),
    RouteRule("making-up unknown", ENLARGEMENTS, OUT, ("unknown_seams",),
         lambda e: e.unknown_seams > SEAMS_GUESSED,
         lambda e: f"How it goes together is unknown at {percent(e.unknown_seams)} of the seams: "
                   "try it in miniature first."),
    RouteRule("making-up unknown", ENLARGEMENTS, AGAINST, ("unknown_seams",),
         lambda e: 0 < e.unknown_seams <= SEAMS_GUESSED,
         lambda e: f"How it goes together is unknown at {percent(e.unknown_seams)} of the seams.",
         "how some of its seams go together is not known"),
    RouteRule("fits", AS_DRAWN, FOR, ("fits",),
         lambda e: likely(e.fits),
         lambda e: f"Everywhere it fits as drawn with a chance of {percent(e.fits)} or more."),
    RouteRule("fits", AS_DRAWN, FOR, ("fits", "is_fit_likeliest", "alterable"),
         lambda e: e.fits_as_far_as_can_be_read and not likely(e.fits),
         lambda e: "It fits, as near as this plate can be read: fitting is the likeliest everywhere, "
                   "and it could be altered. A toile will tell."),
    RouteRule("fits", AS_DRAWN, OUT, ("fits",),
         lambda e: unlikely(e.fits) and not e.fits_as_far_as_can_be_read,
         lambda e: f"The chance that it fits as drawn is {percent(e.fits)} where it is least."),
    RouteRule("fits", AS_DRAWN, AGAINST, ("fits", "is_fit_likeliest"),
         lambda e: between(e.fits) and not e.fits_as_far_as_can_be_read,
         lambda e: f"The chance that it fits as drawn is only {percent(e.fits)} where it is least.",
         "whether it fits is not sure"),
    RouteRule("alterable", ALTER, FOR, ("alterable", "fits"),
         lambda e: likely(e.alterable) and not e.fits_as_far_as_can_be_read,
         lambda e: f"Everywhere it can be altered to fit with a chance of {percent(e.alterable)} or more."),
    RouteRule("alterable", ALTER, AGAINST, ("alterable", "fits"),
         lambda e: likely(e.alterable) and e.fits_as_far_as_can_be_read,
         lambda e: "There is nothing to alter that this plate can show.",
         "there is nothing to alter that this plate can show"),
    RouteRule("alterable", ALTER, OUT, ("alterable",),
         lambda e: unlikely(e.alterable),
         lambda e: f"The chance that altering is enough is {percent(e.alterable)} where it is least."),
    RouteRule("alterable", ALTER, AGAINST, ("alterable",),
         lambda e: between(e.alterable),
         lambda e: f"The chance that altering is enough is only {percent(e.alterable)} where it is least.",
         "altering may not be enough"),
    RouteRule("alike", GRADE, OUT, ("graded_by", "least_remaining_mm", "most_remaining_mm"),
         lambda e: not e.is_alike and not e.can_be_altered_after,
         lambda e: f"The levels are not off alike: graded to fit at {e.graded_by}, it would still be off "
                   f"by {e.shown(e.least_remaining_mm)} to {e.shown(e.most_remaining_mm)} elsewhere, "
                   "more than can be altered."),
    RouteRule("alike", GRADE, AGAINST, ("graded_by", "least_remaining_mm", "most_remaining_mm"),
         lambda e: not e.is_alike and e.can_be_altered_after,
         lambda e: f"The levels are not off alike: graded to fit at {e.graded_by}, it must still be altered "
                   f"by {e.shown(e.least_remaining_mm)} to {e.shown(e.most_remaining_mm)} elsewhere, "
                   f"more than {e.shown(ALIKE_WITHIN_MM)}.",
         "it must be altered besides"),
    RouteRule("alike", GRADE, OUT, ("largest_mm", "too_far_mm"),
         lambda e: exceeds(e.largest_mm, e.too_far_mm),
         lambda e: f"One level is off by {e.shown(e.largest_mm)}, more than {e.shown(e.too_far_mm)}."),
    RouteRule("alike", GRADE, AGAINST, ("largest_mm", "far_mm"),
         lambda e: exceeds(e.largest_mm, e.far_mm) and not exceeds(e.largest_mm, e.too_far_mm),
         lambda e: f"One level is off by {e.shown(e.largest_mm)}, more than {e.shown(e.far_mm)}.",
         "that is far to grade"),
    RouteRule("alike", GRADE, AGAINST, ("alterable",),
         lambda e: likely(e.alterable),
         lambda e: "It fits or can be altered to fit: grading is not needed.",
         "it could be altered"),
    RouteRule("skills", tuple(SKILL_OF), OUT, ("skill",),
         lambda e: e.skill is SkillLevel.NONE,
         lambda e: f"The maker has not the skill yet: {SKILL_OF[e.route]}."),
    RouteRule("skills", tuple(SKILL_OF), AGAINST, ("skill",),
         lambda e: e.skill is SkillLevel.LEARNING,
         lambda e: f"The maker is still learning the skill: {SKILL_OF[e.route]}.",
         "the skill is still being learnt"),
    RouteRule("stand", DRAPE, AGAINST, ("has_stand",),
         lambda e: not e.has_stand,
         lambda e: "There is no stand: drape on the wearer as dressed beneath, with another pair of hands.",
         "on the wearer and with another pair of hands, since there is no stand"),
    RouteRule("stand", DRAPE, OUT, ("stand_larger_mm", "fits_within_mm"),
         lambda e: exceeds(e.stand_larger_mm, e.fits_within_mm),
         lambda e: f"The stand is larger than the wearer by {e.shown(e.stand_larger_mm)}: "
                   "it cannot be made smaller."),
    RouteRule("stand", DRAPE, AGAINST, ("stand_smaller_mm", "padding_mm"),
         lambda e: exceeds(e.stand_smaller_mm, 0.0),
         lambda e: f"The stand is smaller than the wearer by {e.shown(e.stand_smaller_mm)}: "
                   f"pad it by {e.shown(e.padding_mm)} all round.{e.stand_nape}",
         "the stand must be padded"),
    RouteRule("patterns in hand", COMBINE, OUT, ("patterns_in_hand",),
         lambda e: e.patterns_in_hand is not Patterns.WITH_PARTS,
         lambda e: "No pattern in hand has the parts that are needed."),
    RouteRule("draft", DRAFT, AGAINST, ("has_draft",),
         lambda e: not e.has_draft,
         lambda e: "The catalogue holds no proportional draft of this kind.",
         "no draft of its kind is in the catalogue"),
    RouteRule("patterns in hand", ADAPT, AGAINST, ("patterns_in_hand",),
         lambda e: e.patterns_in_hand is Patterns.NONE,
         lambda e: "No sized pattern is in hand: one must be found first.",
         "one must be found first"),
    RouteRule("days left", tuple(Route), AGAINST, ("hours", "days_needed", "days_left"),
         lambda e: e.days_left is not None and e.days_needed > e.days_left + 1e-9,
         lambda e: f"It takes about {e.hours:g} hours, {e.days_needed:.3g} days of work, "
                   f"and {e.days_left:g} {'day is' if e.days_left == 1 else 'are'} left.",
         "it takes longer than is left"),
)
# fmt: on
