"""One comparison and its routes: the page, the dossier and the command line all call `assess`.

It is pure and single: a second way to the same number would drift.
"""

from dataclasses import dataclass

from catalogue.lengths.calculation.lengths import System
from catalogue.plates.calculation.findings import LIKELY_ALLOWANCE_MM
from fitting.comparing.calculation.answer import answer_sentence
from fitting.comparing.calculation.case import Case
from fitting.comparing.calculation.comparison import ComparedLines, LineComparison, compare
from fitting.comparing.calculation.enlargement import PlainEnlargement, plain_enlargement
from fitting.comparing.calculation.next_step import NextStep, next_step
from fitting.comparing.calculation.route.judgement import judge_routes, recommend
from fitting.comparing.calculation.routes import Route, RouteJudgement

# Kept with every stored comparison: raised when a formula, a rule or a threshold changes.
RULE_VERSION = "2"


@dataclass(frozen=True, slots=True, kw_only=True)
class Assessment:
    """What a case comes to. While the allowance is not known, `if_included` is the same with 1/2 in drawn."""

    case: Case
    rule_version: str
    comparison: ComparedLines
    if_included: ComparedLines | None
    plain_enlargement: PlainEnlargement | None
    routes: tuple[RouteJudgement, ...]
    recommended: Route | None
    next_step: NextStep | None
    answer: str

    @property
    def levels(self) -> tuple[LineComparison, ...]:
        return self.comparison.levels

    @property
    def lengths(self) -> tuple[LineComparison, ...]:
        return self.comparison.lengths


def assess(case: Case, *, system: System = "in") -> Assessment:
    """Compare a plate with a wearer and judge every route; sentences speak in inches or centimetres.

    The case must be sound: `case.faults()` and `case.limits.faults()` are empty.
    """
    comparison = compare(case)
    if_included = None
    if case.plate.allowance_mm is None:
        if_included = compare(case, allowance_mm=LIKELY_ALLOWANCE_MM)
    routes = judge_routes(case, comparison, system=system)
    recommended = recommend(routes)
    step = next_step(case, comparison, recommended, system=system)
    return Assessment(
        case=case,
        rule_version=RULE_VERSION,
        comparison=comparison,
        if_included=if_included,
        plain_enlargement=plain_enlargement(comparison),
        routes=routes,
        recommended=recommended,
        next_step=step,
        answer=answer_sentence(comparison, routes, recommended, step, system=system),
    )
