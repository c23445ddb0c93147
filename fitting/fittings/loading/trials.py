"""Forecasts of what a toile will measure, and how near its maker's toiles came to theirs."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.showing import Writing
from catalogue.workroom.models import User
from fitting.comparing.calculation.routes import Route
from fitting.comparing.exchange.answer import answer_from_json
from fitting.comparing.models import Comparison, RouteChoice
from fitting.fittings.calculation import MeanError, mean_error
from fitting.fittings.models.trial import Trial, TrialMeasure
from fitting.outfits.calculation.garment import Fit


@dataclass(frozen=True, slots=True, kw_only=True)
class MakerErrors:
    """By kind of line, "girth" and "length": flat after sewing, and after fitting, against the forecast."""

    sewn: dict[str, MeanError]
    fitted: dict[str, MeanError]


@dataclass(frozen=True, slots=True, kw_only=True)
class Forecast:
    """`sewn_mm`, `fitted_mm`: the forecast by this maker's errors, None while too few were measured."""

    line: str
    label: str
    mm: float
    sewn_mm: float | None
    fitted_mm: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredToile:
    """One line of a trial; errors are measured minus forecast, None where it was not measured."""

    label: str
    row: TrialMeasure
    sewn_error_mm: float | None
    fitted_error_mm: float | None


def measured(trial: Trial) -> list[MeasuredToile]:
    return [
        MeasuredToile(
            label=LINES[row.line].label,
            row=row,
            sewn_error_mm=_error(row, "sewn"),
            fitted_error_mm=_error(row, "fitted"),
        )
        for row in trial.measures.all()
    ]


def errors_of(maker: User | None, *, without: Trial | None = None) -> MakerErrors:
    """The mean errors over all toiles of a maker's outfits, but for the trial in hand."""
    if maker is None:
        return MakerErrors(sewn={}, fitted={})
    rows = TrialMeasure.objects.filter(
        trial__garment__outfit__maker=maker, trial__kind=Trial.Kind.TOILE
    ).exclude(trial=without)
    return MakerErrors(sewn=_by_kind(rows, "sewn"), fitted=_by_kind(rows, "fitted"))


def forecasts(
    comparison: Comparison | None, choice: RouteChoice | None, errors: MakerErrors
) -> list[Forecast]:
    """What a toile should measure: the plate as drawn where it is enlarged so, else what is wanted."""
    return list(_forecasts(comparison, choice, errors)) if comparison else []


def _forecasts(comparison: Comparison, choice: RouteChoice | None, errors: MakerErrors) -> Iterator[Forecast]:
    is_as_drawn = choice is not None and choice.route == Route.AS_DRAWN
    fit = comparison.inputs.get("case", {}).get("fit", {})
    found = answer_from_json(comparison.results).lines
    for name in sorted(found, key=list(LINES).index):
        # A loose or gathered level is wanted by no figure of its own.
        is_drawn = is_as_drawn or fit.get(name, Fit.FITTED) != Fit.FITTED
        mm, kind = found[name].garment_mm if is_drawn else found[name].wanted_mm, LINES[name].kind
        yield Forecast(
            line=name,
            label=LINES[name].label,
            mm=mm,
            sewn_mm=_corrected(mm, errors.sewn.get(kind)),
            fitted_mm=_corrected(mm, errors.fitted.get(kind)),
        )


def error_sentences(errors: MakerErrors, writing: Writing) -> list[str]:
    """What a maker's toiles have come to so far; empty where none was measured."""
    return [
        _sentence(when, kind, error, writing)
        for when, by_kind in (("Sewn", errors.sewn), ("After fitting", errors.fitted))
        for kind, error in by_kind.items()
    ]


def _sentence(when: str, kind: str, error: MeanError, writing: Writing) -> str:
    way = "less" if error.mean_mm < 0 else "more"
    spread = "" if error.spread_mm is None else f", ± {writing.length(error.spread_mm)}"
    return (
        f"{when}, your toiles measured {writing.length(abs(error.mean_mm))} {way} than forecast on average"
        f" ({error.count} {kind}{'s' if error.count > 1 else ''}{spread})."
    )


def _corrected(mm: float, error: MeanError | None) -> float | None:
    return error.corrects(mm) if error and error.is_enough else None


def _mm(row: TrialMeasure, name: str) -> float | None:
    length = getattr(row, name)
    return length and length.mm


def _error(row: TrialMeasure, name: str) -> float | None:
    value = _mm(row, name)
    return None if value is None else value - (_mm(row, "forecast") or 0.0)


def _by_kind(rows: Sequence[TrialMeasure], name: str) -> dict[str, MeanError]:
    pairs: dict[str, list[tuple[float, float]]] = {}
    for row in rows:
        value = _mm(row, name)
        if value is not None:
            pairs.setdefault(LINES[row.line].kind, []).append((_mm(row, "forecast") or 0.0, value))
    return {kind: error for kind, of_kind in pairs.items() if (error := mean_error(of_kind))}
