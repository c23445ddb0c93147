"""An assessment as JSON: what `assess --json` prints and a stored comparison keeps. Nothing is rounded."""

from collections.abc import Iterable, Mapping
from typing import Any

from catalogue.lengths.calculation.lengths import System
from catalogue.plates.calculation.sums import sum_text
from fitting.comparing.calculation.assessment import Assessment
from fitting.comparing.calculation.comparison import LineComparison
from fitting.comparing.calculation.enlargement import EnlargedMeasure, PlainEnlargement
from fitting.comparing.calculation.routes import RouteJudgement


def assessment_to_json(
    assessment: Assessment, *, defaults_used: Mapping[str, str], system: System = "in"
) -> dict[str, Any]:
    """The one sentence first, then every figure that it rests on; sums speak in `system`.

    While the allowance is not known, `levels_if_included` and `lengths_if_included` stand beside the first.
    """
    answer: dict[str, Any] = {
        "answer": assessment.answer,
        "levels": _lines(assessment.levels, system),
        "lengths": _lines(assessment.lengths, system),
    }
    if assessment.if_included is not None:
        answer["levels_if_included"] = _lines(assessment.if_included.levels, system)
        answer["lengths_if_included"] = _lines(assessment.if_included.lengths, system)
    return answer | {
        "plain_enlargement": _plain_enlargement(assessment.plain_enlargement),
        "routes": [_route(judgement) for judgement in assessment.routes],
        "recommended": assessment.recommended,
        "next_step": assessment.next_step and assessment.next_step.sentence,
        "defaults_used": dict(defaults_used),
    }


def _lines(lines: Iterable[LineComparison], system: System) -> dict[str, Any]:
    return {line.line: _line(line, system) for line in lines}


def _line(line: LineComparison, system: System) -> dict[str, Any]:
    measured = {
        "garment_mm": line.garment_mm,
        "body_mm": line.body_mm,
        "ease_mm": line.ease_mm,
        "wanted_mm": line.wanted_mm,
    }
    total = {"sum": sum_text(line.full_size, system)}
    if line.chances is None:
        not_compared = dict.fromkeys(("difference_mm", "u_mm", "chances"))
        return (
            measured
            | not_compared
            | {"verdict": line.verdict, "ratio": line.ratio, "largest_doubt": None}
            | total
        )
    chances = {verdict.region: chance for verdict, chance in line.chances.by_verdict(line.kind).items()}
    return (
        measured
        | {"difference_mm": line.difference_mm, "u_mm": line.u_mm, "chances": chances}
        | {"verdict": line.verdict, "largest_doubt": _largest_doubt(line)}
        | total
    )


def _largest_doubt(line: LineComparison) -> dict[str, Any] | None:
    largest = line.largest_doubt
    if largest is None:
        return None
    return {
        "input": largest.source,
        "share": largest.variance_mm2 / line.u_mm**2,
        "u_mm_with_finer_rule": line.with_finer_rule().u_mm,
    }


def _plain_enlargement(enlargement: PlainEnlargement | None) -> dict[str, Any] | None:
    if enlargement is None:
        return None

    def enlarged(lines: Mapping[str, EnlargedMeasure]) -> dict[str, Any]:
        return {
            name: {"garment_mm": line.garment_mm, "difference_mm": line.difference_mm}
            for name, line in lines.items()
        }

    return {
        "factor": enlargement.factor,
        "made_to_fit": enlargement.made_to_fit,
        "levels": enlarged(enlargement.levels),
        "lengths": enlarged(enlargement.lengths),
    }


def _route(judgement: RouteJudgement) -> dict[str, Any]:
    return {
        "route": judgement.route,
        "standing": judgement.standing,
        "reasons": [
            {
                "rule": reason.rule,
                "effect": reason.effect,
                "read": dict(reason.read),
                "sentence": reason.sentence,
            }
            for reason in judgement.reasons
        ],
        "hours": judgement.hours,
    }
