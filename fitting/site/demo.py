"""The demo workroom: an archive like any other, taken in as if it had been written on the day it is loaded.

No archive holds people, what makers say of themselves, or secret addresses: those stand beside it in
`people.json`.
"""

import io
import json
import zipfile
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any, BinaryIO

from django.db import transaction

from catalogue.workroom.archive.opened import OpenedArchive
from catalogue.workroom.archive.taking import take_archive
from catalogue.workroom.models import Member, User, Workroom
from catalogue.workroom.work.engine import do_at_once, do_line
from fitting.comparing.actions import compare_garment
from fitting.comparing.models import Comparison
from fitting.laying.models import Lay
from fitting.outfits.actions import make_share
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogPhoto
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.share import Share
from fitting.wearers.actions import save_maker
from fitting.wearers.models import Maker

SHARED_FOR = timedelta(days=60)
RECKONED = ("inputs", "inputs_checksum", "results", "rule_version")


@transaction.atomic
def load_demo_workroom(folder: Path, *, at: datetime) -> Garment:
    """Make the demo workroom with its people, and return the garment to show first.

    All its dates move with `at`: what was measured ten days before the archive was written is measured ten
    days before `at`, so that what is fresh, stale or still to come stays so in any year.
    """
    people = _people(folder)
    workroom = Workroom.objects.create(**people["workroom"])
    for row in people["members"]:
        _add_member(workroom, **row)
    for row in people["makers"]:
        _add_maker(**row)
    with packed(folder / "archive") as file:
        take_archive(
            OpenedArchive(file), workroom=workroom, overwrite=False, only_try=False, as_if_written=at
        )
    do_line(workroom.pk)
    for comparison in Comparison.objects.of_workroom(workroom).select_related("garment__outfit", "made_by"):
        _reckon_again(comparison)
    for lay in Lay.objects.of_workroom(workroom):
        do_at_once(lay, at=lay.asked_at)
    for row in people["shares"]:
        _share(Outfit.objects.get(workroom=workroom, key=row["outfit"]), row, at=at)
    return find_demo_garment(folder)


def find_demo_garment(folder: Path) -> Garment | None:
    """The garment to show first, where the demo workroom was loaded before."""
    people = _people(folder)
    rows = Garment.objects.filter(outfit__workroom__name=people["workroom"]["name"])
    return rows.filter(key=people["shown_first"]).first()


def packed(folder: Path) -> BinaryIO:
    """The archive of which this folder holds the files."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        for path in sorted(folder.rglob("*")):
            if path.is_file():
                archive.write(path, path.relative_to(folder).as_posix())
    file.seek(0)
    return file


def _people(folder: Path) -> dict[str, Any]:
    return json.loads((folder / "people.json").read_text(encoding="utf-8"))


def _add_member(workroom: Workroom, *, role: str, **about: Any) -> None:
    """Nobody gets a password: they sign in by a one-time address."""
    Member.objects.create(workroom=workroom, user=User.objects.create_user(**about), role=role)


def _add_maker(*, username: str, skills: dict[str, str], **about: Any) -> None:
    save_maker(Maker(user=User.objects.get(username=username), **about), skills=skills)


def _reckon_again(comparison: Comparison) -> None:
    """By the rules of today: the demo shows what the program says, not what it said."""
    fresh = compare_garment(comparison.garment, by=comparison.made_by, at=comparison.made_at)
    found = {name: getattr(fresh, name) for name in RECKONED}
    fresh.delete()
    Comparison.objects.filter(pk=comparison.pk).update(**found)


def _share(outfit: Outfit, row: dict[str, Any], *, at: datetime) -> None:
    """The first entries of the log with a photograph; nobody is given its address."""
    photos = LogPhoto.objects.filter(entry__outfit=outfit, shows_wearer=False).order_by("entry__day")
    chosen = list(photos[: row["photos"]])
    share = Share(outfit=outfit, label=row["label"], made_by=outfit.maker, expires_at=at + SHARED_FOR)
    make_share(share, entries=[photo.entry for photo in chosen], photos=chosen)
