"""A stored comparison as a page and a dossier show it, in the unit of whoever reads it.

What went in was kept: with the rules it was made by, the same answer is reckoned again and speaks the
reader's unit. A comparison made by older rules shows the answer that was kept with it.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.showing import Writing
from fitting.comparing.calculation.answer import limbs_sentence
from fitting.comparing.calculation.assessment import RULE_VERSION, Assessment, assess
from fitting.comparing.calculation.case import Case
from fitting.comparing.calculation.comparison import LineComparison
from fitting.comparing.calculation.limits import Bounds
from fitting.comparing.calculation.next_step import StepKind
from fitting.comparing.calculation.route.rules import percent
from fitting.comparing.exchange.answer import AssessmentAnswer, LineAnswer, answer_from_json, answer_of
from fitting.comparing.exchange.case_file import case_from_json
from fitting.comparing.loading.body import MeasuresUsed
from fitting.comparing.loading.draft import drafting_words, figures_words
from fitting.comparing.loading.origin import origin_of
from fitting.comparing.models import Comparison
from fitting.comparing.showing.chart import ChartRow
from fitting.comparing.showing.enlargement import EnlargementReport, enlargement_shown
from fitting.comparing.showing.explanation import (
    finer_words,
    likely_words,
    matters_words,
    measure_sum,
    most_doubt_words,
    words_of,
)
from fitting.outfits.calculation.garment import Fit


@dataclass(frozen=True, slots=True, kw_only=True)
class ComparisonRow:
    """One level or length. `answer` is its part of the assessment, unrounded.

    `figures`: those of a proportional draft that it comes from, as drawn and as drawn out.
    """

    line: str
    label: str
    kind: str
    fit: str
    answer: LineAnswer
    chances: tuple[tuple[str, str], ...]
    likely: str
    if_included: LineAnswer | None
    measure: str
    most_doubt: str
    doubt: str
    matters: str
    figures: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasureRow:
    """One measure in use: as text, how it came about, and the sum where it was built up."""

    label: str
    length: str
    doubt: str
    how: str
    sum: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ComparisonReport:
    """`answer` is what `assess --json` prints; the rest is made from it to be read.

    `drafting`: of a proportional draft, for which measure it is drawn out. `limbs`: what they want, told
    apart. `next_kind` is None where older rules made it; `skill`: the one to be said first, if any.
    """

    answer: AssessmentAnswer
    lines: tuple[ComparisonRow, ...]
    chart: tuple[ChartRow, ...]
    is_allowance_known: bool
    measured: Mapping[str, Any] | None
    enlargement: EnlargementReport | None
    drafting: str = ""
    limbs: str = ""
    next_kind: StepKind | None = None
    skill: str = ""

    @property
    def levels(self) -> tuple[ComparisonRow, ...]:
        return tuple(line for line in self.lines if line.kind == "girth")

    @property
    def lengths(self) -> tuple[ComparisonRow, ...]:
        return tuple(line for line in self.lines if line.kind == "length")

    @property
    def groups(self) -> tuple[tuple[ComparisonRow, ...], ...]:
        """Girths and lengths apart: their regions have other names."""
        return self.levels, self.lengths

    @property
    def taken_on(self) -> date | None:
        return date.fromisoformat(self.measured["taken_on"]) if self.measured else None


def shown(comparison: Comparison, writing: Writing, *, made_to_fit: str = "") -> ComparisonReport:
    """`made_to_fit` asks for the plain enlargement of that level; what is no level of it is passed over."""
    case = case_from_json(_in_order(comparison.inputs["case"])).case
    measured, drafting = comparison.inputs["measures"], comparison.inputs.get("drafting")
    if comparison.rule_version != RULE_VERSION:
        found = _shown(case, None, answer_from_json(comparison.results), measured, writing)
    else:
        found = shown_case(case, measured, writing, made_to_fit=made_to_fit)
    return _with_drafting(found, drafting, writing) if drafting else found


def _with_drafting(
    found: ComparisonReport, drafting: Mapping[str, Any], writing: Writing
) -> ComparisonReport:
    lines = (replace(line, figures=figures_words(drafting, line.line, writing)) for line in found.lines)
    return replace(found, lines=tuple(lines), drafting=drafting_words(drafting, writing))


def _in_order(case_json: Mapping[str, Any]) -> dict[str, Any]:
    """The case with its measures from the top down: PostgreSQL gives the keys back in an order of its own."""
    measures = dict(case_json["measures"])
    for part in ("girths", "lengths"):
        measures[part] = {line: measures[part][line] for line in LINES if line in measures[part]}
    return {**case_json, "measures": measures}


def shown_case(
    case: Case, measured: Mapping[str, Any] | None, writing: Writing, *, made_to_fit: str = ""
) -> ComparisonReport:
    """The same for a case that is not stored. `measured` says where its measures come from (`origin_of`)."""
    assessment = assess(case, system=writing.system)
    answer = answer_of(assessment, defaults_used={}, system=writing.system)
    return _shown(case, assessment, answer, measured, writing, made_to_fit)


def measures_shown(used: MeasuresUsed, writing: Writing) -> list[MeasureRow]:
    """The measures that apply to a garment, before anything is compared."""
    lines = origin_of(used)["lines"]
    return [
        MeasureRow(
            label=LINES[line].label,
            length=writing.length(origin["mm"]),
            doubt=writing.length(origin["doubt_mm"]),
            how=origin["how"],
            sum=measure_sum(origin, writing),
        )
        for line, origin in lines.items()
    ]


def _shown(
    case: Case,
    assessment: Assessment | None,
    answer: AssessmentAnswer,
    measured: Mapping[str, Any] | None,
    writing: Writing,
    made_to_fit: str = "",
) -> ComparisonReport:
    step = assessment.next_step if assessment else None
    compared = {line.line: line for line in (*assessment.levels, *assessment.lengths)} if assessment else {}
    lines = tuple(
        _line(name, kind, answer, case, compared.get(name), measured, writing)
        for kind, part in (("girth", answer.levels), ("length", answer.lengths))
        for name in sorted(part, key=list(LINES).index)
    )
    return ComparisonReport(
        answer=answer,
        lines=lines,
        chart=tuple(_chart_row(line, case) for line in lines if line.answer.chances),
        is_allowance_known=case.plate.allowance_mm is not None,
        measured=measured,
        enlargement=enlargement_shown(
            answer, assessment.comparison if assessment else None, case, made_to_fit
        ),
        limbs=limbs_sentence(assessment.comparison, system=writing.system) if assessment else "",
        next_kind=step.kind if step else None,
        skill=step.skill if step else "",
    )


def _line(
    name: str,
    kind: str,
    answer: AssessmentAnswer,
    case: Case,
    compared: LineComparison | None,
    measured: Mapping[str, Any] | None,
    writing: Writing,
) -> ComparisonRow:
    of_line = answer.lines[name]
    chances = of_line.chances or {}
    most_doubt = most_doubt_words(of_line, case)
    origin = measured["lines"].get(name) if measured else None
    return ComparisonRow(
        line=name,
        label=LINES[name].label,
        kind=kind,
        fit=case.fit_at(name),
        answer=of_line,
        chances=tuple((word, percent(chances[word])) for word in words_of(chances)),
        likely=likely_words(of_line, by_older_rules=compared is None),
        if_included=answer.lines_if_included.get(name),
        measure=measure_sum(origin, writing) if origin else "",
        most_doubt=most_doubt,
        doubt=f"{most_doubt} {finer_words(compared, case, writing) if compared else ''}".strip(),
        matters=matters_words(compared, writing) if compared and case.body.stale else "",
    )


def _chart_row(line: ComparisonRow, case: Case) -> ChartRow:
    bounds: Bounds = case.limits.of_girths() if line.kind == "girth" else case.limits.of_lengths()
    return ChartRow(
        label=line.label,
        kind=line.kind,
        fits_mm=bounds.fits_mm,
        add_mm=bounds.add_mm,
        take_off_mm=None if line.fit == Fit.LOOSE else bounds.take_off_mm,
        words=tuple(word for word, _ in line.chances),
        verdict=line.answer.verdict,
        other_mm=line.if_included.difference_mm if line.if_included else None,
        **{name: getattr(line.answer, name) for name in ("garment_mm", "wanted_mm", "difference_mm", "u_mm")},
    )


def verdict_counts(answer: AssessmentAnswer) -> Iterator[tuple[str, int]]:
    """Each verdict of an answer with how often it comes, in the order in which it first does."""
    verdicts = [line.verdict for part in (answer.levels, answer.lengths) for line in part.values()]
    for verdict in dict.fromkeys(verdicts):
        yield verdict, verdicts.count(verdict)
