"""The answer of an assessment: what `assess --json` prints and a stored comparison keeps. Nothing is rounded.

Pages are made from these values, whether they were reckoned just now or read back. A comparison that older
rules made says what those said: their words for verdicts and regions were others.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from catalogue.lengths.calculation.lengths import System
from catalogue.plates.calculation.sums import sum_text
from catalogue.workroom.reader.codec import from_json, to_json, unsaid
from fitting.comparing.calculation.assessment import Assessment
from fitting.comparing.calculation.comparison import LineComparison
from fitting.comparing.calculation.enlargement import PlainEnlargement
from fitting.comparing.calculation.routes import RouteJudgement


@dataclass(frozen=True, slots=True, kw_only=True)
class LargestDoubt:
    """`input`: the path of it in a case; `share`: its part of the variance."""

    input: str
    share: float
    u_mm_with_finer_rule: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LineAnswer:
    """One level or length; no difference, doubt and chances where it is gathered, but how much to one."""

    garment_mm: float
    body_mm: float
    ease_mm: float
    wanted_mm: float
    difference_mm: float | None
    u_mm: float | None
    chances: Mapping[str, float] | None
    verdict: str
    ratio: float | None = unsaid()
    largest_doubt: LargestDoubt | None
    sum: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReasonAnswer:
    rule: str
    effect: str
    read: Mapping[str, float | str | bool]
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RouteAnswer:
    route: str
    standing: str
    reasons: tuple[ReasonAnswer, ...]
    hours: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AssessmentAnswer:
    """The one sentence first, which the first rules did not have, then every figure that it rests on.

    While the allowance is not known, `levels_if_included` and `lengths_if_included` stand beside the first.
    """

    answer: str = ""
    levels: Mapping[str, LineAnswer]
    lengths: Mapping[str, LineAnswer]
    levels_if_included: Mapping[str, LineAnswer] | None = unsaid()
    lengths_if_included: Mapping[str, LineAnswer] | None = unsaid()
    plain_enlargement: PlainEnlargement | None
    routes: tuple[RouteAnswer, ...]
    recommended: str | None
    next_step: str | None
    defaults_used: Mapping[str, str] = field(default_factory=dict)

    @property
    def lines(self) -> dict[str, LineAnswer]:
        return {**self.levels, **self.lengths}

    @property
    def lines_if_included(self) -> dict[str, LineAnswer]:
        return {**(self.levels_if_included or {}), **(self.lengths_if_included or {})}


def answer_of(
    assessment: Assessment, *, defaults_used: Mapping[str, str], system: System = "in"
) -> AssessmentAnswer:
    """Sums speak in `system`."""
    other = assessment.if_included
    return AssessmentAnswer(
        answer=assessment.answer,
        levels=_lines(assessment.levels, system),
        lengths=_lines(assessment.lengths, system),
        levels_if_included=None if other is None else _lines(other.levels, system),
        lengths_if_included=None if other is None else _lines(other.lengths, system),
        plain_enlargement=assessment.plain_enlargement,
        routes=tuple(_route(judgement) for judgement in assessment.routes),
        recommended=assessment.recommended,
        next_step=assessment.next_step and assessment.next_step.sentence,
        defaults_used=defaults_used,
    )


def assessment_to_json(
    assessment: Assessment, *, defaults_used: Mapping[str, str], system: System = "in"
) -> dict[str, Any]:
    said: dict[str, Any] = to_json(answer_of(assessment, defaults_used=defaults_used, system=system))
    return said


def answer_from_json(kept: Any) -> AssessmentAnswer:
    """As a comparison keeps it. Raises Faults."""
    return from_json(AssessmentAnswer, kept)


def _lines(lines: Iterable[LineComparison], system: System) -> dict[str, LineAnswer]:
    return {line.line: _line(line, system) for line in lines}


def _line(line: LineComparison, system: System) -> LineAnswer:
    is_judged = line.chances is not None
    by_verdict = line.chances.by_verdict(line.kind) if line.chances else {}
    return LineAnswer(
        garment_mm=line.garment_mm,
        body_mm=line.body_mm,
        ease_mm=line.ease_mm,
        wanted_mm=line.wanted_mm,
        difference_mm=line.difference_mm if is_judged else None,
        u_mm=line.u_mm if is_judged else None,
        chances={verdict.region: chance for verdict, chance in by_verdict.items()} if is_judged else None,
        verdict=line.verdict,
        ratio=None if is_judged else line.ratio,
        largest_doubt=_largest_doubt(line) if is_judged else None,
        sum=sum_text(line.full_size, system),
    )


def _largest_doubt(line: LineComparison) -> LargestDoubt | None:
    largest = line.largest_doubt
    if largest is None:
        return None
    return LargestDoubt(
        input=largest.source,
        share=largest.variance_mm2 / line.u_mm**2,
        u_mm_with_finer_rule=line.with_finer_rule().u_mm,
    )


def _route(judgement: RouteJudgement) -> RouteAnswer:
    reasons = (
        ReasonAnswer(rule=one.rule, effect=one.effect, read=one.read, sentence=one.sentence)
        for one in judgement.reasons
    )
    return RouteAnswer(
        route=judgement.route,
        standing=judgement.standing,
        reasons=tuple(reasons),
        hours=judgement.hours,
    )
