"""An assessment as plain text for a terminal: levels and lengths with their sums, the routes and why."""

from collections.abc import Iterable, Iterator, Mapping

from catalogue.lengths.calculation.lengths import System
from catalogue.plates.calculation.sums import full_size_text, sum_text
from fitting.comparing.calculation.assessment import Assessment
from fitting.comparing.calculation.comparison import LineComparison
from fitting.comparing.calculation.enlargement import PlainEnlargement
from fitting.comparing.calculation.route.rules import percent
from fitting.comparing.calculation.routes import Effect, Route, RouteJudgement, Standing
from fitting.comparing.calculation.verdict import Verdict
from fitting.outfits.calculation.garment import Fit

_HEADINGS = ("", "garment", "body", "ease", "wanted", "difference", "verdict")
_MARKS = {Effect.SPEAKS_FOR: "+", Effect.COUNTS_AGAINST: "−", Effect.RULES_OUT: "×"}


def assessment_text(
    assessment: Assessment, defaults_used: Mapping[str, str], *, system: System = "in"
) -> str:
    """The whole answer, ready to print."""
    return "\n".join(_lines_of(assessment, defaults_used, system))


def _lines_of(assessment: Assessment, defaults_used: Mapping[str, str], system: System) -> Iterator[str]:
    state = assessment.case.body.state
    yield assessment.answer
    yield ""
    yield f"Garment as drawn against the wearer, {state}" if state else "Garment as drawn against the wearer"
    if assessment.if_included is not None:
        yield ""
        yield "If the plate includes no seam allowance:"
    yield from _comparison(assessment.levels + assessment.lengths, system)
    if assessment.if_included is not None:
        yield ""
        yield "If it includes a likely seam allowance:"
        yield from _comparison(assessment.if_included.levels + assessment.if_included.lengths, system)
    if assessment.plain_enlargement is not None:
        yield ""
        yield from _enlargement(assessment, assessment.plain_enlargement, system)
    yield ""
    yield from _routes(assessment.routes, assessment.recommended)
    if assessment.next_step is not None:
        yield ""
        yield f"Next: {assessment.next_step.sentence}"
    if defaults_used:
        yield ""
        yield "Defaults used: " + "; ".join(f"{path} {value}" for path, value in defaults_used.items())


def _comparison(lines: tuple[LineComparison, ...], system: System) -> Iterator[str]:
    if not lines:
        yield "  nothing is both read on the plate and measured on the wearer"
        return
    rows = [_HEADINGS, *(_row(line, system) for line in lines)]
    widths = [max(len(row[column]) for row in rows) for column in range(len(_HEADINGS))]
    for row in rows:
        first, *figures, verdict = (cell.ljust(width) for cell, width in zip(row, widths, strict=True))
        yield "  ".join((first, *(figure.strip().rjust(len(figure)) for figure in figures), verdict)).rstrip()
    yield ""
    for line in lines:
        yield f"{line.line.ljust(widths[0])}  {sum_text(line.full_size, system)}"


def _row(line: LineComparison, system: System) -> tuple[str, ...]:
    lengths = (line.garment_mm, line.body_mm, line.ease_mm, line.wanted_mm)
    return (line.line, *(full_size_text(mm, system) for mm in lengths), *_judged(line, system))


def _judged(line: LineComparison, system: System) -> tuple[str, str]:
    if line.chances is None:
        return "", f"{line.verdict}, {line.ratio:.2f} : 1"
    difference = f"{full_size_text(line.difference_mm, system)} ± {full_size_text(line.u_mm, system)}"
    chance = line.chances.by_verdict(line.kind).get(line.verdict)
    if chance is not None:
        return difference, f"{line.verdict} ({percent(chance)})"
    if line.verdict is Verdict.WITHIN_ALTERING and line.likeliest_alteration:
        likeliest, chance = line.likeliest_alteration
        return difference, f"{line.verdict}, most likely {likeliest.region} ({percent(chance)})"
    return difference, line.verdict


def _enlargement(assessment: Assessment, enlargement: PlainEnlargement, system: System) -> Iterator[str]:
    yield (
        f"Enlarged by {enlargement.factor:.3f} to fit at {enlargement.made_to_fit}, "
        "every other line changes too (enlarging is not grading):"
    )
    for name, line in {**enlargement.levels, **enlargement.lengths}.items():
        off_mm = 0.0 if name == enlargement.made_to_fit else line.difference_mm
        off = f", {full_size_text(off_mm, system)} off" if off_mm else ""
        yield f"  {name}: {full_size_text(line.garment_mm, system)}{off}"
    fitted = next(line for line in assessment.levels if line.line == enlargement.made_to_fit)
    if fitted.fit is Fit.LOOSE and fitted.difference_mm > 0:
        yield f"  At {fitted.line} it is loose and has enough as drawn: more is no fault there."


def _routes(routes: Iterable[RouteJudgement], recommended: Route | None) -> Iterator[str]:
    yield "Routes to the pattern"
    for judgement in routes:
        mark = "→" if judgement.route is recommended else " "
        standing = judgement.standing if judgement.standing is not Standing.RULED_OUT else "out"
        yield f"{mark} {judgement.route:<22} {standing:<8} about {judgement.hours:g} h"
        for reason in judgement.reasons:
            yield f"      {_MARKS[reason.effect]} {reason.sentence}"
    yield f"Recommended: {recommended or 'none: every route is ruled out'}"
