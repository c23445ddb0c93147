"""The next step: the first thing to do that would change what is recommended, else the first act of that.

Each step is tried on the figures before it is named, except where only doing it can tell.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TypeAlias

from catalogue.lengths.calculation.lengths import System
from catalogue.plates.calculation.sums import page_text
from fitting.comparing.calculation.case import Case, Patterns
from fitting.comparing.calculation.comparison import ComparedLines, LineComparison
from fitting.comparing.calculation.route.judgement import judge_routes, recommend
from fitting.comparing.calculation.routes import SKILL_OF, Route, SkillLevel
from fitting.comparing.calculation.verdict import Verdict
from fitting.outfits.calculation.garment import Purpose

UNSETTLED = (Verdict.WITHIN_ALTERING, Verdict.TOO_CLOSE_TO_CALL)
# What a toile is hardly ever to show need not be reckoned with: our guess.
HARDLY_EVER = 0.05


class StepKind(StrEnum):
    ALLOWANCE = "settle the allowance"
    READ = "read a level"
    SKILL = "say a skill"
    MINIATURE = "make the miniature"
    MEASURE = "measure again"
    FINER_RULE = "read with a finer rule"
    TOILE = "make a toile"
    ACT = "first act of the route"


@dataclass(frozen=True, slots=True, kw_only=True)
class NextStep:
    """One plain sentence, and what it is about. `skill`: which one is to be said."""

    kind: StepKind
    sentence: str
    skill: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubts:
    """One case as it stands, with the route that it recommends now."""

    case: Case
    comparison: ComparedLines
    recommended: Route
    system: System

    def would_change(self, *, case: Case | None = None, comparison: ComparedLines | None = None) -> bool:
        """Whether another route would be recommended."""
        judged = judge_routes(case or self.case, comparison or self.comparison)
        return recommend(judged) is not self.recommended


TryStep: TypeAlias = Callable[[Doubts], NextStep | None]


def next_step(
    case: Case, comparison: ComparedLines, recommended: Route | None, *, system: System = "in"
) -> NextStep | None:
    """None only where every route is ruled out."""
    if recommended is None:
        return None
    doubts = Doubts(case=case, comparison=comparison, recommended=recommended, system=system)
    return next(step for try_step in STEPS if (step := try_step(doubts)))


def _find_something_to_compare(doubts: Doubts) -> NextStep | None:
    if doubts.comparison.compared or doubts.case.purpose is Purpose.STUDY:
        return None
    sentence = "Read a level on the plate that is also measured on the wearer: nothing can be compared yet."
    return NextStep(kind=StepKind.READ, sentence=sentence)


def _settle_the_allowance(doubts: Doubts) -> NextStep | None:
    """Always first where it is not known: both results are shown, and no route rests on either."""
    if doubts.case.plate.allowance_mm is not None or doubts.case.purpose is Purpose.STUDY:
        return None
    sentence = "Settle whether the plate includes seam allowance: no enlargement can be judged until then."
    return NextStep(kind=StepKind.ALLOWANCE, sentence=sentence)


def _say_a_skill(doubts: Doubts) -> NextStep | None:
    skill = SKILL_OF.get(doubts.recommended)
    if skill is None or doubts.case.skill(skill) is not SkillLevel.NOT_ASKED:
        return None
    unskilled = replace(doubts.case, skills={**doubts.case.skills, skill: SkillLevel.NONE})
    if doubts.would_change(case=unskilled):
        sentence = f"Say how well you can {doubts.recommended}: the answer rests on it."
        return NextStep(kind=StepKind.SKILL, sentence=sentence, skill=skill)
    return None


def _make_the_miniature(doubts: Doubts) -> NextStep | None:
    seams = doubts.case.seams
    tried = replace(seams, tried=seams.tried + seams.unknown, unknown=0)
    if seams.unknown and doubts.would_change(case=replace(doubts.case, seams=tried)):
        sentence = "Make a miniature in paper or tissue: it shows how the unknown seams go together."
        return NextStep(kind=StepKind.MINIATURE, sentence=sentence)
    return None


def _measure_again(doubts: Doubts) -> NextStep | None:
    """How far the body has changed only the tape can tell."""
    if doubts.case.body.stale and doubts.case.purpose is not Purpose.STUDY:
        sentence = f"Measure the wearer again: {doubts.case.body.stale}."
        return NextStep(kind=StepKind.MEASURE, sentence=sentence)
    return None


def _read_with_a_finer_rule(doubts: Doubts) -> NextStep | None:
    division = page_text(doubts.case.plate.rule_division_mm / 2, doubts.system)
    for line in doubts.comparison.compared:
        if doubts.would_change(comparison=doubts.comparison.replacing(line.with_finer_rule())):
            sentence = f"Read {line.line} again with a finer rule, to {division}: it would decide more."
            return NextStep(kind=StepKind.FINER_RULE, sentence=sentence)
    return None


def _make_a_toile(doubts: Doubts) -> NextStep | None:
    """Nobody gets into a toile with a girth that is too small."""
    if any(line.verdict is Verdict.TOO_SMALL for line in doubts.comparison.levels):
        return None
    unsettled = [line for line in doubts.comparison.judged if line.verdict in UNSETTLED]
    if any(doubts.would_change(comparison=one) for one in _as_a_toile_may_tell(doubts.comparison, unsettled)):
        sentence = f"Make a toile: it will tell at {listed(line.line for line in unsettled)}."
        return NextStep(kind=StepKind.TOILE, sentence=sentence)
    return None


def _as_a_toile_may_tell(
    comparison: ComparedLines, unsettled: list[LineComparison]
) -> Iterator[ComparedLines]:
    """All of it fits after all; or one line turns out to lie in any region that it well may."""
    all_fit = comparison
    for line in unsettled:
        all_fit = all_fit.replacing(line.told_by_toile(Verdict.FITS_AS_DRAWN))
        for verdict, chance in line.chances.by_verdict(line.kind).items() if line.chances else ():
            if chance > HARDLY_EVER:
                yield comparison.replacing(line.told_by_toile(verdict))
    yield all_fit


def _begin(doubts: Doubts) -> NextStep:
    return NextStep(kind=StepKind.ACT, sentence=FIRST_ACTS[doubts.recommended](doubts.case))


FIRST_ACTS: dict[Route, Callable[[Case], str]] = {
    Route.AS_DRAWN: lambda case: "Enlarge the plate and print it at full size.",
    Route.ALTER: lambda case: "Plan the alteration.",
    Route.GRADE: lambda case: "Grade it to the wearer.",
    Route.DRAPE: lambda case: "Tear the cloth for the drape.",
    Route.COMBINE: lambda case: "Say which part comes from which pattern.",
    Route.DRAFT: lambda case: (
        "Draw the draft out for the wearer." if case.has_draft else "Find a draft of this kind."
    ),
    Route.ADAPT: lambda case: (
        "Find a sized pattern near the wearer's measures."
        if case.patterns_in_hand is Patterns.NONE
        else "Measure the pattern in hand against the wearer."
    ),
    Route.STUDY: lambda case: "Write down how it is made, and what is not known yet.",
}

# In the order in which they are worth doing.
STEPS: tuple[TryStep, ...] = (
    _find_something_to_compare,
    _settle_the_allowance,
    _say_a_skill,
    _make_the_miniature,
    _measure_again,
    _read_with_a_finer_rule,
    _make_a_toile,
    _begin,
)


def listed(words: Iterable[str]) -> str:
    """Words joined as one says them: “one, two and three”; empty where there are none."""
    *others, last = tuple(words) or ("",)
    return f"{', '.join(others)} and {last}" if others else last
