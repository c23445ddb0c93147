"""The demo workroom, from the files that tell it: `fixtures/demo/workroom.json`, its plates and pictures."""

from datetime import datetime
from pathlib import Path

from django.db import transaction

from catalogue.workroom.models import Workroom
from fitting.outfits.models.garment import Garment
from fitting.site.demo.catalogue import load_references, load_sources
from fitting.site.demo.fittings import load_fittings
from fitting.site.demo.outfits import compare_and_choose, load_outfits
from fitting.site.demo.pattern_work import load_pattern_work
from fitting.site.demo.people import load_makers, load_measures, load_members, load_wearers
from fitting.site.demo.told import Told, given
from fitting.site.demo.work import load_work

__all__ = ["find_demo_garment", "load_demo_workroom"]


@transaction.atomic
def load_demo_workroom(folder: Path, *, at: datetime) -> Garment:
    """Make every row of the demo workroom, and return the garment to show first.

    All its dates move with `at`: what was measured ten days before the story was written is measured ten
    days before `at`, so that what is fresh, stale or still to come stays so in any year.
    """
    told = Told.read(folder, at=at)
    workroom = Workroom.objects.create(**given(told.rows["workroom"], "name", "time_zone", "currency"))
    load_members(told, workroom)
    load_makers(told)
    sources = load_sources(told, workroom)
    plates = load_references(told, workroom, sources)
    wearers = load_wearers(told, workroom)
    garments = load_outfits(told, workroom, wearers, plates)
    load_measures(told, wearers, garments)
    compare_and_choose(told, garments)
    load_work(told, garments)
    load_fittings(told, garments)
    load_pattern_work(told, garments)
    return garments[_shown_first(told)]


def find_demo_garment(folder: Path, *, at: datetime) -> Garment | None:
    """The garment to show first, where the demo workroom was loaded before."""
    told = Told.read(folder, at=at)
    outfit, garment = _shown_first(told).split("/")
    outfit_row = next(row for row in told.rows["outfits"] if row["key"] == outfit)
    garment_row = next(row for row in outfit_row["garments"] if row["key"] == garment)
    return Garment.objects.filter(
        outfit__workroom__name=told.rows["workroom"]["name"],
        outfit__name=outfit_row["name"],
        name=garment_row["name"],
    ).first()


def _shown_first(told: Told) -> str:
    first = told.rows["shown_first"]
    return f"{first['outfit']}/{first['garment']}"
