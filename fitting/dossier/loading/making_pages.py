"""What goes on while an outfit is made: fittings, patterns in hand, toiles, materials, tasks, the log."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date

from catalogue.lengths.showing import Writing
from fitting.comparing.showing.standing import GarmentStanding
from fitting.dossier.loading.fitting_pages import FittingPages, fitting_pages
from fitting.dossier.loading.log_pages import LogPages, log_pages
from fitting.dossier.loading.pictures import Album
from fitting.fittings.loading.trials import MeasuredToile, error_sentences, errors_of, measured
from fitting.fittings.models.trial import Trial
from fitting.outfits.calculation.money import Spending
from fitting.outfits.loading.outfit import MaterialRow, by_supplier, material_rows, spending_of, with_sums
from fitting.outfits.loading.patterns import PatternMatch, patterns_for
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.pattern import PatternInHand
from fitting.planning.loading.work import OutfitWork, work_on
from fitting.planning.showing import bars_of, draw_plan

# So many bars stand one below another on a page of either paper, with letters of 9 points.
BARS_A_PAGE = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedPattern:
    """A pattern of the workroom's own with the garments that need a part of it."""

    pattern: PatternInHand
    matches: tuple[PatternMatch, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedTrial:
    trial: Trial
    measured: tuple[MeasuredToile, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialPages:
    """`errors`: what the maker's toiles have come to against their forecasts, in sentences."""

    trials: tuple[PrintedTrial, ...]
    errors: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialPages:
    rows: tuple[MaterialRow, ...]
    shops: tuple[tuple[str, list[MaterialRow]], ...]
    spending: Spending


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskPages:
    """`drawings`: the plan, in parts that are each no longer than a page."""

    work: OutfitWork
    drawings: tuple[str, ...]

    @property
    def has_any(self) -> bool:
        return bool(self.work.planned.rows or self.work.planned.ring or self.work.finished)


@dataclass(frozen=True, slots=True, kw_only=True)
class MakingPages:
    """What is printed of the making of an outfit; None for each part that was not asked for."""

    fittings: FittingPages | None
    patterns: tuple[PrintedPattern, ...] | None
    trials: TrialPages | None
    materials: MaterialPages | None
    tasks: TaskPages | None
    log: LogPages | None


def making_pages(
    outfit: Outfit,
    standings: Sequence[GarmentStanding],
    *,
    chosen: Collection[str],
    album: Album,
    writing: Writing,
    today: date,
) -> MakingPages:
    """The garments come with their alterations."""
    garments = [standing.garment for standing in standings]
    fittings = "fittings" in chosen
    return MakingPages(
        fittings=fitting_pages(outfit, standings, album=album, writing=writing) if fittings else None,
        patterns=_patterns(outfit, garments) if "patterns" in chosen else None,
        trials=_trials(outfit, garments, writing) if "trials" in chosen else None,
        materials=_materials(outfit, garments) if "materials" in chosen else None,
        tasks=_tasks(outfit, today) if "tasks" in chosen else None,
        log=log_pages(outfit, garments, album=album) if "log" in chosen else None,
    )


def _patterns(outfit: Outfit, garments: Sequence[Garment]) -> tuple[PrintedPattern, ...]:
    patterns = list(PatternInHand.objects.of_workroom(outfit.workroom).prefetch_related("changes"))
    found = [match for garment in garments for match in patterns_for(garment, patterns)]
    used = ((one, tuple(match for match in found if match.pattern == one)) for one in patterns)
    return tuple(PrintedPattern(pattern=pattern, matches=matches) for pattern, matches in used if matches)


def _trials(outfit: Outfit, garments: Sequence[Garment], writing: Writing) -> TrialPages:
    trials = Trial.objects.filter(garment__in=garments).for_detail_page().order_by("made_on", "pk")
    return TrialPages(
        trials=tuple(PrintedTrial(trial=one, measured=tuple(measured(one))) for one in trials),
        errors=tuple(error_sentences(errors_of(outfit.maker), writing)),
    )


def _materials(outfit: Outfit, garments: Sequence[Garment]) -> MaterialPages:
    """Of these garments and of the outfit as a whole; the money is that of all."""
    every = material_rows(outfit.materials.for_list_page())
    rows = tuple(row for row in every if row.material.garment in (None, *garments))
    summed = with_sums(Outfit.objects.filter(pk=outfit.pk)).get()
    return MaterialPages(rows=rows, shops=tuple(by_supplier(rows)), spending=spending_of(summed, every))


def _tasks(outfit: Outfit, today: date) -> TaskPages:
    work = work_on(outfit, today=today)
    if not work.between:
        return TaskPages(work=work, drawings=())
    bars = bars_of(work.planned.rows)
    drawings = tuple(
        draw_plan(
            bars[first : first + BARS_A_PAGE],
            today=today,
            occasion_on=outfit.occasion_on,
            between=work.between,
            name=f"plan-{first}",
        )
        for first in range(0, len(bars), BARS_A_PAGE)
    )
    return TaskPages(work=work, drawings=drawings)
