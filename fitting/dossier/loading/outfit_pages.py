"""The two pages for the outfit: who and when, what is worn over what, measures to retake, what to check."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from django.utils.text import get_text_list

from catalogue.lengths.models import TypedLength
from catalogue.lengths.showing import Writing
from catalogue.references.models.garment import ReferenceGarment
from fitting.comparing.showing.standing import GarmentStanding, layers_of
from fitting.dossier.loading.measures_table import MeasuresTable, measures_table
from fitting.dossier.loading.pictures import Album, Picture
from fitting.fittings.showing.brief import BRING, gaps_of
from fitting.fittings.showing.checks import GarmentChecks
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.showing import draw_dressing_order
from fitting.wearers.models import Measures

_Stage = Garment.Stage


@dataclass(frozen=True, slots=True, kw_only=True)
class DressingStep:
    """One garment in the order of dressing."""

    garment: Garment
    draws_on: str
    bring: str
    verdicts: tuple[tuple[str, int], ...]
    route: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundationWear:
    """What must be worn, and how it was laced, so that measures and toiles mean the same as before."""

    fitting: str
    worn: str
    lacing: str
    heel: TypedLength | None
    day: date


@dataclass(frozen=True, slots=True, kw_only=True)
class OutfitPages:
    cover: Picture | None
    drawing: str
    days_left: int | None
    dressed: tuple[DressingStep, ...]
    underneath: tuple[FoundationWear, ...]
    measures: MeasuresTable | None
    checks: tuple[GarmentChecks, ...]


def outfit_pages(
    outfit: Outfit,
    standings: Sequence[GarmentStanding],
    checks: tuple[GarmentChecks, ...],
    *,
    dressed: Sequence[GarmentStanding],
    references: Sequence[ReferenceGarment],
    album: Album,
    today: date,
    writing: Writing,
) -> OutfitPages:
    """`references` come with their photographs, those of the inmost garment first; `dressed` is all."""
    garments = [standing.garment for standing in dressed]
    left = (outfit.occasion_on - today).days if outfit.occasion_on else None
    return OutfitPages(
        cover=album.cover(references[::-1]),
        drawing=draw_dressing_order(layers_of(garments)),
        days_left=left if left is not None and left >= 0 else None,
        dressed=tuple(_dressed(standing) for standing in dressed),
        underneath=tuple(_underneath(standings, writing)),
        measures=measures_table(outfit, standings),
        checks=checks,
    )


def _dressed(standing: GarmentStanding) -> DressingStep:
    garment = standing.garment
    return DressingStep(
        garment=garment,
        draws_on=", ".join(str(link.reference) for link in garment.references.all()),
        bring=BRING[garment.stage],
        verdicts=tuple(standing.verdicts),
        route=standing.choice.route if standing.choice else "",
    )


def _underneath(standings: Sequence[GarmentStanding], writing: Writing) -> Iterator[FoundationWear]:
    """One for each set of measures that garments still to be fitted are compared with."""
    to_fit = [
        one for one in standings if one.used and one.garment.plate and one.garment.stage != _Stage.FINISHED
    ]
    for measures in dict.fromkeys(one.used.measures for one in to_fit):
        fitting = [one.garment.name for one in to_fit if one.used.measures == measures]
        worn = ", ".join(garment.name for garment in measures.worn.all())
        yield FoundationWear(
            fitting=get_text_list(fitting, "and"),
            worn=(worn or measures.state_note or measures.get_state_display()).rstrip("."),
            lacing=_lacing(measures, writing),
            heel=measures.heel,
            day=measures.taken_on,
        )


def _lacing(measures: Measures, writing: Writing) -> str:
    gaps = gaps_of(measures, writing)
    if not gaps:
        return ""
    by = f", by {measures.laced_by}" if measures.laced_by else ""
    return f"laced to a gap of {gaps}{by}"
