"""All that a dossier says, as values: the template only sets it in type.

The figures of a comparison are those of its assessment, unrounded; they are rounded where they are printed.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

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
from fitting.comparing.showing.shown import shown
from fitting.comparing.showing.standing import GarmentStanding, garments_as_they_stand
from fitting.dossier.calculation import SECTIONS, known
from fitting.dossier.loading.cautions import Caution, cautions_of
from fitting.dossier.loading.earlier import Since, since_the_last
from fitting.dossier.loading.garment_sheet import FigureDates, GarmentSheet, figure_dates, garment_sheet
from fitting.dossier.loading.making_pages import MakingPages, making_pages
from fitting.dossier.loading.outfit_pages import OutfitPages, outfit_pages
from fitting.dossier.loading.pattern_work import GarmentWork, pattern_work
from fitting.dossier.loading.pictures import Album, Photographs, photographs_of
from fitting.dossier.loading.plate_pages import PlatePage, plate_pages, plates_of
from fitting.dossier.loading.snapshot import Snapshot, snapshot_of
from fitting.fittings.loading.alterations import alterations_of
from fitting.fittings.loading.making import ALTERED
from fitting.fittings.showing.checks import alteration_checks, checklist, checks_of
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.wearers.showing import draw_figures, lines_of

# So many are found by turning pages.
FEW_SECTIONS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A line of the table of contents; `anchor` names the section of the page."""

    label: str
    anchor: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DossierValues:
    """`sections` are those chosen, in order; `sheets` serve the routes too; `photos` is all to be fetched."""

    outfit: Outfit
    sections: tuple[str, ...]
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
    photos: Mapping[str, Path]
    snapshot: Snapshot
    since: Since | None

    @property
    def parts(self) -> tuple[Part, ...]:
        """A table of contents, where there is more than one turns over in the hand."""
        if len(self.sections) <= FEW_SECTIONS:
            return ()
        sheets = [
            Part(label=f"{one.garment.order} {one.garment}", anchor=f"sheet-{one.garment.pk}")
            for one in self.sheets
        ]
        plates = [Part(label=f"Plate: {one.plate}", anchor=f"plate-{one.plate.pk}") for one in self.plates]
        within = {"garments": sheets, "plates": plates}
        return tuple(
            part
            for key in self.sections
            for part in within.get(key, [Part(label=SECTIONS[key].label, anchor=key)])
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


def dossier_values(
    outfit: Outfit, *, sections: Sequence[str], paper: str, system: System, by: User | None, at: datetime
) -> DossierValues:
    """Read an outfit once. `by`: to which fraction of an inch, by whose limits where no maker is named."""
    writing = Writing(system=system, denominator=by.denominator if by else 16)
    standings = garments_as_they_stand(outfit, by=by, at=at)
    album = Album(outfit.workroom)
    garments = _garments(standings)
    plates = plates_of(garments)
    sheets = tuple(_sheet(standing, plates, writing) for standing in standings)
    checks = checklist((sheet.garment, sheet.checks) for sheet in sheets)
    references = _references(standings)
    chosen, today = known(sections), timezone.localdate(at)
    snapshot = snapshot_of(outfit, standings)
    return DossierValues(
        outfit=outfit,
        sections=chosen,
        paper=paper,
        units=writing,
        printed_at=at,
        pages=outfit_pages(
            outfit,
            standings,
            checks,
            references=references,
            album=album,
            today=today,
            writing=writing,
        ),
        sheets=sheets,
        plates=plate_pages(plates, garments, album=album, writing=writing),
        photographs=photographs_of(references, album) if "photographs" in chosen else (),
        sources=tuple(bibliography(_sources(references))),
        work=pattern_work(garments, system) if {"work", "lays"} & set(chosen) else (),
        making=making_pages(outfit, standings, chosen=chosen, album=album, writing=writing, today=today),
        dates=figure_dates(standings),
        photos=album.files,
        snapshot=snapshot,
        since=since_the_last(outfit, snapshot, before=at, writing=writing),
    )


def _garments(standings: Sequence[GarmentStanding]) -> list[Garment]:
    """The garments with what their sheets read besides the comparison."""
    prefetch_related_objects([one.choice for one in standings if one.choice], "chosen_by")
    garments = [standing.garment for standing in standings]
    prefetch_related_objects(garments, *ALTERED)
    return garments


def _sheet(standing: GarmentStanding, plates: Mapping[int, Plate], writing: Writing) -> GarmentSheet:
    comparison = shown(standing.newest, writing) if standing.newest else None
    altered = alterations_of(standing.garment)
    checks = (
        *alteration_checks((one.alteration for one in altered.open), writing),
        *checks_of(standing, comparison, plates.get(standing.garment.plate_id), writing),
    )
    return garment_sheet(standing, comparison, checks, writing, altered=altered)


def _references(standings: Sequence[GarmentStanding]) -> list[ReferenceGarment]:
    """Every reference garment that the outfit draws on, once."""
    keys = dict.fromkeys(
        key
        for standing in standings
        for key in (
            *(link.reference_id for link in standing.garment.references.all()),
            standing.garment.plate and standing.garment.plate.reference_id,
        )
        if key
    )
    found = ReferenceGarment.objects.prefetch_related(
        "photos__source",
        "photos__reference",
        "citations__source",
        "plates__source",
        "published_measures__source",
    ).in_bulk(list(keys))
    return [found[key] for key in keys]


def _sources(references: Sequence[ReferenceGarment]) -> list[Source]:
    naming = (
        row
        for reference in references
        for rows in (reference.citations, reference.plates, reference.photos, reference.published_measures)
        for row in rows.all()
    )
    return [row.source for row in naming if row.source]
