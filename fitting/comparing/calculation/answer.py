"""The answer in one sentence: the way, why, and the act that comes next. And what limbs want, told apart."""

from collections.abc import Iterator, Mapping

from catalogue.lengths.calculation.lengths import System
from catalogue.lengths.calculation.levels import LINES
from catalogue.plates.calculation.sums import full_size_text
from fitting.comparing.calculation.comparison import ComparedLines, LineComparison
from fitting.comparing.calculation.next_step import NextStep, listed
from fitting.comparing.calculation.routes import ENLARGEMENTS, Effect, Route, RouteJudgement
from fitting.comparing.calculation.verdict import SURE_ENOUGH, Verdict

FITS_AS_READ = "it fits, as near as this plate can be read"
# What keeps the enlargements from being taken whatever their figures, by the rule that says so.
_HELD_UP = {
    "nothing compared": "nothing is both read on the plate and measured on the wearer",
    "allowance not known": "whether the plate includes seam allowance is not known",
    "making-up unknown": "how some of its seams go together is not known",
    "period look": "only the look of the period is wanted",
}


def answer_sentence(
    comparison: ComparedLines,
    judgements: tuple[RouteJudgement, ...],
    recommended: Route | None,
    next_step: NextStep | None,
    *,
    system: System = "in",
) -> str:
    """“Enlarge and alter: it wants 1 3/4 in more at the bust; the rest fits. Next: plan the alteration.”"""
    if recommended is None or next_step is None:
        return "No way is open: every route is ruled out."
    by_route = {judgement.route: judgement for judgement in judgements}
    why = _why(comparison, by_route, recommended, system)
    though = [reason.though for reason in by_route[recommended].reasons if reason.though]
    passing = f", though {listed(though)}" if though else ""
    act = next_step.sentence
    return f"{recommended.capitalize()}{passing}: {why}. Next: {act[0].lower()}{act[1:]}"


def limbs_sentence(comparison: ComparedLines, *, system: System = "in") -> str:
    """What the limbs want: altered by their own seams, they rule nothing out. Empty where there is none."""
    told = [
        f"{LINES[line.line].label} {f'wants {_wanted(line, system)}' if _is_off(line) else 'fits'}"
        for line in comparison.levels
        if line.chances and line.line in LINES and LINES[line.line].has_sides
    ]
    return f"Limbs by themselves: {listed(told)}." if told else ""


def _why(
    comparison: ComparedLines, by_route: Mapping[Route, RouteJudgement], route: Route, system: System
) -> str:
    if route is Route.STUDY:
        return "the garment is studied, not made"
    as_drawn = by_route[Route.AS_DRAWN]
    held_up = [
        _HELD_UP[reason.rule]
        for reason in as_drawn.reasons
        if reason.rule in _HELD_UP and (reason.effect is Effect.RULES_OUT or reason.rule == "period look")
    ]
    if route not in ENLARGEMENTS and held_up:
        return held_up[0]
    changes = listed(_changes(comparison, system))
    if route is Route.AS_DRAWN and as_drawn.is_spoken_for:
        is_sure = all(line.chances and line.chances.fits >= SURE_ENOUGH for line in comparison.judged)
        return f"{'it fits' if is_sure else FITS_AS_READ}{changes and f', but wants {changes}'}"
    if not changes:
        return _first_against(as_drawn) or FITS_AS_READ
    if route in (Route.AS_DRAWN, Route.ALTER):
        return f"it wants {changes}{_rest(comparison)}"
    return f"as drawn it wants {changes}{_not_altered(by_route[Route.ALTER])}{_rest(comparison)}"


def _changes(comparison: ComparedLines, system: System) -> Iterator[str]:
    for line in comparison.compared:
        if _is_off(line):
            label = LINES[line.line].label if line.line in LINES else line.line
            yield f"{_wanted(line, system)} at {'the ' if line.kind == 'girth' else ''}{label}"


def _is_off(line: LineComparison) -> bool:
    return line.likeliest is not Verdict.FITS_AS_DRAWN


def _wanted(line: LineComparison, system: System) -> str:
    amount, is_short = full_size_text(abs(line.difference_mm), system), line.difference_mm < 0
    if line.kind == "length":
        return f"to {Verdict.LENGTHEN if is_short else Verdict.SHORTEN} {amount}"
    return f"{amount} {'more' if is_short else 'less'}"


def _rest(comparison: ComparedLines) -> str:
    rest = [line for line in comparison.compared if not _is_off(line)]
    if not rest:
        return ""
    is_sure = all(line.verdict is Verdict.FITS_AS_DRAWN for line in rest)
    return "; the rest fits" if is_sure else "; the rest fits, as near as this plate can be read"


def _not_altered(alter: RouteJudgement) -> str:
    """Why it is not to be altered, to go with what it wants; empty where other reasons decide."""
    told = {(reason.rule, reason.effect) for reason in alter.reasons}
    if ("alterable", Effect.RULES_OUT) in told:
        return ", too much to alter"
    if ("alterable", Effect.COUNTS_AGAINST) in told:
        return ", perhaps too much to alter"
    if ("skills", Effect.RULES_OUT) in told:
        return ", and to alter it is not among your skills yet"
    return ""


def _first_against(judgement: RouteJudgement) -> str:
    sentence = next((one.sentence for one in judgement.reasons if one.effect is not Effect.SPEAKS_FOR), "")
    return f"{sentence[:1].lower()}{sentence[1:].removesuffix('.')}"
