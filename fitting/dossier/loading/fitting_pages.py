"""The fittings of an outfit: what was seen, what was done about it, and how every alteration turned out."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from django.db.models import Q
from django.utils import timezone

from catalogue.lengths.showing import Writing
from fitting.comparing.showing.standing import GarmentStanding
from fitting.dossier.loading.pictures import Album, Picture
from fitting.fittings.loading.alterations import words_of
from fitting.fittings.models.alteration import Alteration
from fitting.fittings.models.session import Fitting, FittingQuerySet, Observation
from fitting.fittings.showing.brief import FittingBrief, brief_of
from fitting.outfits.models.outfit import Outfit


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedObservation:
    """`became`: the alterations it led to, in words; empty where it was dropped or is not settled yet."""

    observation: Observation
    pictures: tuple[Picture, ...]
    became: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedFitting:
    fitting: Fitting
    brief: FittingBrief
    seen: tuple[PrintedObservation, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AlterationOutcome:
    """An alteration with the day on which it reached each part, and how it ended."""

    alteration: Alteration
    reached: tuple[str, ...]
    ended: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingPages:
    fittings: tuple[PrintedFitting, ...]
    outcomes: tuple[AlterationOutcome, ...]

    @property
    def has_any(self) -> bool:
        return bool(self.fittings or self.outcomes)


@dataclass(frozen=True, slots=True, kw_only=True)
class NextFitting:
    """The next fitting of a garment: what is printed on the sheet that is carried to it."""

    fitting: Fitting
    brief: FittingBrief


def fittings_ahead(
    outfit: Outfit, standings: Sequence[GarmentStanding], writing: Writing, *, at: datetime
) -> dict[int, NextFitting]:
    """By garment, of those that a fitting is planned for today or later. `standings`: of the whole outfit."""
    found: dict[int, NextFitting] = {}
    to_come = [one for one in _of_wearer(outfit) if _is_ahead(one, timezone.localdate(at))]
    for fitting in to_come:
        ahead = NextFitting(fitting=fitting, brief=brief_of(fitting, standings, writing))
        for garment in fitting.garments.all():
            found.setdefault(garment.pk, ahead)
    return found


def _is_ahead(fitting: Fitting, today: date) -> bool:
    return fitting.closed_at is None and timezone.localdate(fitting.planned_for) >= today


def _of_wearer(outfit: Outfit) -> FittingQuerySet:
    """Those of somebody whom the outfit was for before are left out."""
    of_wearer = Q(wearer=None) | Q(wearer=outfit.wearer_id)
    return outfit.fittings.filter(of_wearer).for_detail_page().order_by("planned_for", "pk")


def fitting_pages(
    outfit: Outfit, standings: Sequence[GarmentStanding], *, album: Album, writing: Writing
) -> FittingPages:
    """The fittings of an outfit as pages. Its garments are to be given with their alterations prefetched."""
    about = {one.garment.pk for one in standings}
    fittings = [one for one in _of_wearer(outfit) if about & {garment.pk for garment in one.garments.all()}]
    return FittingPages(
        fittings=tuple(_held(one, standings, album, writing) for one in fittings),
        outcomes=tuple(_outcome(row) for one in standings for row in one.garment.alterations.all()),
    )


def _held(
    fitting: Fitting, standings: Sequence[GarmentStanding], album: Album, writing: Writing
) -> PrintedFitting:
    about = {one.garment.pk for one in standings}
    return PrintedFitting(
        fitting=fitting,
        brief=brief_of(fitting, standings, writing),
        seen=tuple(
            PrintedObservation(
                observation=row,
                pictures=tuple(
                    filter(None, (album.of_the_work(photo, caption=str(row)) for photo in row.photos.all()))
                ),
                became=tuple(words_of(one, writing) for one in row.alterations.all()),
            )
            for row in fitting.observations.all()
            if row.garment_id in about
        ),
    )


def _outcome(row: Alteration) -> AlterationOutcome:
    ended = "open"
    if row.confirmed_in:
        ended = f"confirmed {timezone.localdate(row.confirmed_in.planned_for):%-d %b %Y}"
    elif row.is_carried_through:
        ended = "carried through, to be confirmed"
    return AlterationOutcome(
        alteration=row,
        reached=tuple(f"{one.part} {one.done_on:%-d %b}" for one in row.parts.all() if one.done_on),
        ended=ended,
    )
