"""All that a dossier says, as values: the template only sets it in type.

The figures of a comparison are those of its assessment, unrounded; they are rounded where they are printed.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.db.models import prefetch_related_objects
from django.utils import timezone
from django.utils.safestring import SafeString

from catalogue.lengths.calculation.lengths import System
from catalogue.lengths.calculation.levels import Line
from catalogue.lengths.showing import Writing
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.models import Source
from catalogue.sources.showing import bibliography
from catalogue.workroom.models import User
from fitting.comparing.showing.comparison import shown
from fitting.comparing.showing.standing import GarmentStanding, garments_as_they_stand
from fitting.dossier.calculation import SECTIONS, known
from fitting.dossier.loading.cautions import Caution, cautions_of
from fitting.dossier.loading.fitting_pages import NextFitting, fittings_ahead
from fitting.dossier.loading.garment_sheet import FigureDates, GarmentSheet, figure_dates, garment_sheet
from fitting.dossier.loading.history import ChangesSince, since_the_last
from fitting.dossier.loading.making_pages import MakingPages, making_pages
from fitting.dossier.loading.outfit_pages import OutfitPages, outfit_pages
from fitting.dossier.loading.pattern_work import GarmentWork, pattern_work
from fitting.dossier.loading.pictures import Album, Photographs, photographs_of, references_of
from fitting.dossier.loading.plate_pages import PlatePage, plate_pages, plates_of
from fitting.dossier.loading.snapshot import Snapshot, snapshot_of
from fitting.fittings.loading.alterations import alterations_of
from fitting.fittings.loading.making import ALTERED
from fitting.fittings.showing.checks import alteration_checks, checklist, checks_of
from fitting.outfits.models.outfit import Outfit
from fitting.wearers.showing import draw_figures, lines_of

# So many are found by turning pages.
FEW_SECTIONS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class ContentsLine:
    """A line of the table of contents; `anchor` names the section of the page."""

    label: str
    anchor: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DossierValues:
    """`chosen` are sections, in order; `sheets` serve the routes too; `photos` is all to be fetched."""

    outfit: Outfit
    chosen: tuple[str, ...]
    paper: str
    units: Writing
    printed_at: datetime
    pages: OutfitPages
    sheets: tuple[GarmentSheet, ...]
    plates: tuple[PlatePage, ...]
    photographs: tuple[Photographs, ...]
    sources: tuple[SafeString, ...]
    work: tuple[GarmentWork, ...]
    making: MakingPages
    dates: tuple[FigureDates, ...]
    photos: Mapping[str, str]
    snapshot: Snapshot
    since: ChangesSince | None

    @property
    def sections(self) -> tuple[str, ...]:
        """The chosen sections that have anything to say."""
        return tuple(key for key in self.chosen if key not in _HOLDS or _HOLDS[key](self))

    @property
    def parts(self) -> tuple[ContentsLine, ...]:
        """The table of contents; empty where the dossier is short enough to do without."""
        if len(self.sections) <= FEW_SECTIONS:
            return ()
        sheets = [
            ContentsLine(label=f"{one.garment.order} {one.garment}", anchor=f"sheet-{one.garment.pk}")
            for one in self.sheets
        ]
        plates = [
            ContentsLine(label=f"Plate: {one.plate}", anchor=f"plate-{one.plate.pk}") for one in self.plates
        ]
        within = {"garments": sheets, "plates": plates}
        return tuple(
            part
            for key in self.sections
            for part in within.get(key, [ContentsLine(label=SECTIONS[key].label, anchor=key)])
        )

    @property
    def cautions(self) -> tuple[tuple[Caution, tuple[str, ...]], ...]:
        garments = [sheet.garment for sheet in self.sheets]
        return cautions_of(garments, has_wearer=self.outfit.wearer is not None)

    @property
    def figures(self) -> tuple[str, ...]:
        return tuple(draw_figures(self._dress))

    @property
    def lines(self) -> tuple[Line, ...]:
        return lines_of(self._dress)

    @property
    def _dress(self) -> str:
        return self.outfit.wearer.dress if self.outfit.wearer else "women's"

    @property
    def is_any_compared(self) -> bool:
        return any(sheet.comparison for sheet in self.sheets)


# What each section has to tell: nothing, and it is left out. Those not named always have something.
_HOLDS: Mapping[str, Callable[[DossierValues], object]] = {
    "garments": lambda it: it.sheets,
    "fittings": lambda it: it.making.fittings and it.making.fittings.has_any,
    "routes": lambda it: it.is_any_compared,
    "plates": lambda it: it.plates,
    "seams": lambda it: any(page.asks_of_seams for page in it.plates),
    "patterns": lambda it: it.making.patterns,
    "trials": lambda it: it.making.trials and it.making.trials.trials,
    "work": lambda it: any(one.sheets or one.pattern for one in it.work),
    "lays": lambda it: any(one.lays for one in it.work),
    "materials": lambda it: it.making.materials and it.making.materials.rows,
    "tasks": lambda it: it.making.tasks and it.making.tasks.has_any,
    "log": lambda it: it.making.log and it.making.log.months,
    "photographs": lambda it: it.photographs,
    "sources": lambda it: it.sources,
    "cautions": lambda it: it.cautions,
    "dates": lambda it: it.dates,
}


def dossier_values(
    outfit: Outfit,
    *,
    sections: Sequence[str],
    paper: str,
    system: System,
    by: User | None,
    at: datetime,
    garments: Collection[int] = (),
) -> DossierValues:
    """Read an outfit once. `by`: to which fraction of an inch, by whose limits where no maker is named.

    `garments`: keys of those that it is about, all where none is named; the order of dressing, tasks and
    what has changed are told of the outfit as a whole.
    """
    standings = garments_as_they_stand(outfit, by=by, at=at)
    about = [one for one in standings if not garments or one.garment.pk in garments]
    writing = Writing(system=system, denominator=by.denominator if by else 16)
    return _values(outfit, standings, about, chosen=known(sections), paper=paper, writing=writing, at=at)


def _values(
    outfit: Outfit,
    standings: Sequence[GarmentStanding],
    about: Sequence[GarmentStanding],
    *,
    chosen: tuple[str, ...],
    paper: str,
    writing: Writing,
    at: datetime,
) -> DossierValues:
    album, today = Album(outfit.workroom), timezone.localdate(at)
    _fetch_for_sheets(standings)
    garments = [standing.garment for standing in about]
    plates = plates_of(garments)
    ahead = fittings_ahead(outfit, standings, writing, at=at)
    sheets = tuple(_sheet(standing, plates, writing, ahead) for standing in about)
    checks = checklist((sheet.garment, sheet.checks) for sheet in sheets)
    references = references_of(garments)
    snapshot = snapshot_of(outfit, standings)
    given = {"album": album, "writing": writing, "today": today}
    return DossierValues(
        outfit=outfit,
        chosen=chosen,
        paper=paper,
        units=writing,
        printed_at=at,
        pages=outfit_pages(outfit, about, checks, dressed=standings, references=references, **given),
        sheets=sheets,
        plates=plate_pages(plates, garments, album=album, writing=writing),
        photographs=photographs_of(references, album) if "photographs" in chosen else (),
        sources=tuple(bibliography(_sources(references))),
        work=pattern_work(garments, writing.system) if {"work", "lays"} & set(chosen) else (),
        making=making_pages(outfit, about, chosen=chosen, **given),
        dates=figure_dates(about),
        photos=album.files,
        snapshot=snapshot,
        since=since_the_last(outfit, snapshot, before=at, writing=writing),
    )


def _fetch_for_sheets(standings: Sequence[GarmentStanding]) -> None:
    """What the sheets of garments read besides their comparisons."""
    prefetch_related_objects([one.choice for one in standings if one.choice], "chosen_by")
    prefetch_related_objects([standing.garment for standing in standings], *ALTERED)


def _sheet(
    standing: GarmentStanding,
    plates: Mapping[int, Plate],
    writing: Writing,
    ahead: Mapping[int, NextFitting],
) -> GarmentSheet:
    comparison = shown(standing.newest, writing) if standing.newest else None
    altered = alterations_of(standing.garment)
    checks = (
        *alteration_checks((one.alteration for one in altered.open), writing),
        *checks_of(standing, comparison, plates.get(standing.garment.plate_id), writing),
    )
    return garment_sheet(
        standing, comparison, checks, writing, altered=altered, ahead=ahead.get(standing.garment.pk)
    )


def _sources(references: Sequence[ReferenceGarment]) -> list[Source]:
    naming = (
        row
        for reference in references
        for rows in (reference.citations, reference.plates, reference.photos, reference.published_measures)
        for row in rows.all()
    )
    return [row.source for row in naming if row.source]
