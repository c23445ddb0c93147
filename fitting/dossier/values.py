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

from catalogue.bibliography import bibliography
from catalogue.measuring.lengths import System
from catalogue.measuring.levels import Line
from catalogue.models import Plate, ReferenceGarment, Source, User
from fitting.bridge.alteration import alterations_of
from fitting.bridge.explanation import Writing
from fitting.bridge.making import ALTERED
from fitting.bridge.outfit import GarmentStanding, garments_as_they_stand
from fitting.bridge.shown import shown
from fitting.dossier.cautions import Caution, cautions_of
from fitting.dossier.checklist import alteration_checks, checklist, checks_of
from fitting.dossier.figure_dates import FigureDates, figure_dates
from fitting.dossier.garment_sheet import GarmentSheet, garment_sheet
from fitting.dossier.outfit_pages import OutfitPages, outfit_pages
from fitting.dossier.pattern_work import GarmentWork, pattern_work
from fitting.dossier.pictures import Album, Photographs, photographs_of
from fitting.dossier.plate_pages import PlatePage, plate_pages, plates_of
from fitting.dossier.sections import in_order
from fitting.figure import draw_figures, lines_of
from fitting.models import Garment, Outfit


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
    cautions: tuple[tuple[Caution, tuple[str, ...]], ...]
    dates: tuple[FigureDates, ...]
    figures: tuple[str, ...]
    lines: tuple[Line, ...]
    photos: Mapping[str, Path]

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
    chosen = in_order(sections)
    dress = outfit.wearer.dress if outfit.wearer else "women's"
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
            today=timezone.localdate(at),
            writing=writing,
        ),
        sheets=sheets,
        plates=plate_pages(plates, garments, album=album, writing=writing),
        photographs=photographs_of(references, album) if "photographs" in chosen else (),
        sources=tuple(bibliography(_sources(references))),
        work=pattern_work(garments, system) if {"work", "lays"} & set(chosen) else (),
        cautions=cautions_of(garments, has_wearer=outfit.wearer is not None),
        dates=figure_dates(standings),
        figures=tuple(draw_figures(dress)),
        lines=lines_of(dress),
        photos=album.files,
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
        *alteration_checks(altered, writing),
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
