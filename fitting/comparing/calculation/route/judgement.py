"""Every route judged by the table of rules, and the one to recommend."""

from catalogue.lengths.calculation.lengths import System
from fitting.comparing.calculation.case import Case
from fitting.comparing.calculation.comparison import ComparedLines
from fitting.comparing.calculation.route.evidence import RouteEvidence
from fitting.comparing.calculation.route.rules import RULES
from fitting.comparing.calculation.routes import Effect, Reason, Route, RouteJudgement, Standing


def judge_routes(
    case: Case, comparison: ComparedLines, *, system: System = "in"
) -> tuple[RouteJudgement, ...]:
    """All routes in their order, each with the reasons that told; sentences speak in `system`."""
    return tuple(
        _judge(RouteEvidence(case=case, comparison=comparison, route=route, system=system)) for route in Route
    )


def recommend(judgements: tuple[RouteJudgement, ...]) -> Route | None:
    """Of the open those spoken for, else all open, else those against: the fewest hours, then the first."""
    open_ones = [one for one in judgements if one.standing is Standing.OPEN]
    spoken_for = [one for one in open_ones if one.is_spoken_for]
    against = [one for one in judgements if one.standing is Standing.AGAINST]
    best = min(spoken_for or open_ones or against, key=lambda one: one.hours, default=None)
    return best.route if best else None


def _judge(evidence: RouteEvidence) -> RouteJudgement:
    reasons = tuple(
        Reason(
            rule=rule.name,
            effect=rule.effect,
            read={name: getattr(evidence, name) for name in rule.reads},
            sentence=rule.sentence(evidence),
            though=rule.though,
        )
        for rule in RULES
        if evidence.route in rule.routes and rule.applies(evidence)
    )
    effects = {reason.effect for reason in reasons}
    if Effect.RULES_OUT in effects:
        standing = Standing.RULED_OUT
    elif Effect.COUNTS_AGAINST in effects:
        standing = Standing.AGAINST
    else:
        standing = Standing.OPEN
    return RouteJudgement(
        route=evidence.route, standing=standing, reasons=reasons, hours=evidence.case.hours[evidence.route]
    )
