"""An outfit's garments begun, changed, put in dressing order, made again; its log; its log shown to others.

Dressing order: 1 is next to the skin, no place empty, none taken twice.
"""

import secrets
from collections.abc import Iterable, Sequence
from datetime import date, datetime
from typing import Protocol

from django.db import transaction
from django.utils import timezone

from catalogue.photographs.actions import SentPicture, keep_copies
from catalogue.workroom.models import User
from catalogue.workroom.models.one_time import digest_of
from fitting.outfits.models.garment import Ease, Garment, GarmentReference
from fitting.outfits.models.log import LogEntry, LogPhoto
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.share import Share

MADE = (Garment.Stage.SEWN, Garment.Stage.FINISHED)
# What the same garment shares, whoever wears it. Measures, stand, stage and notes are each wearer's own.
SHARED = (
    "name", "purpose", "plate", "kind", "lies_at", "band_at", "is_gauged", "arc_percent", "thickness",
    "layers", "gather_ratio", "is_boned", "reduction", "needs_parts", "edges_that_may_take",
)  # fmt: skip


@transaction.atomic
def add_garment(garment: Garment) -> Garment:
    """Save a new garment as the outermost of its outfit."""
    _hold(garment.outfit)
    garment.order = garment.outfit.garments.count() + 1
    garment.save()
    return garment


@transaction.atomic
def move_garment(garment: Garment, *, outward: bool) -> None:
    """Change places with the neighbour outward or inward; at the end of the row nothing changes."""
    _hold(garment.outfit)
    row = list(garment.outfit.garments.all())
    at = row.index(garment)
    to = at + 1 if outward else at - 1
    if 0 <= to < len(row):
        row[at], row[to] = row[to], row[at]
    _number(row)


@transaction.atomic
def number_anew_around(garment: Garment) -> None:
    """Close the gap where it was, or make room where it is again."""
    _hold(garment.outfit)
    _number(sorted(garment.outfit.garments.all(), key=lambda one: (one.order, one != garment)))


def _hold(outfit: Outfit) -> None:
    # Two people may move garments of one outfit at once: the second waits here for the first.
    Outfit.objects.select_for_update().get(pk=outfit.pk)


def _number(row: list[Garment]) -> None:
    for order, garment in enumerate(row, start=1):
        if garment.order != order:
            Garment.objects.filter(pk=garment.pk).update(order=order)


class ValidForm(Protocol):
    """A form or formset that has been found valid."""

    def save(self) -> object: ...


@transaction.atomic
def begin_garment(garment: Garment) -> Garment:
    """Save a new garment as the outermost of its outfit; it draws on the garment of its plate."""
    add_garment(garment)
    _draw_on_its_plate(garment)
    return garment


@transaction.atomic
def change_garment(garment: Garment, *, forms: list[ValidForm]) -> Garment:
    """Save a garment with its references and its ease: all of it, or nothing."""
    had_plate, had_stage = Garment.objects.values_list("plate", "stage").get(pk=garment.pk)
    for form in forms:
        form.save()
    if garment.plate_id != had_plate:
        _draw_on_its_plate(garment)
    if garment.stage != had_stage:
        _let_tasks_follow(garment, before=had_stage, on=timezone.localdate())
    return garment


@transaction.atomic
def set_stage(garment: Garment, stage: str, *, on: date) -> Garment:
    """Bring it to a stage, and its tasks with it."""
    before, garment.stage = garment.stage, stage
    if stage in MADE:
        garment.made_on, garment.made_said_at = on, timezone.now()
    garment.save(update_fields=["stage", "made_on", "made_said_at", "changed_at"])
    _let_tasks_follow(garment, before=before, on=on)
    return garment


def stage_further_on(garment: Garment) -> str:
    """The farthest stage with a task done and none open before it; empty where the garment is that far."""
    reached, stages = "", Garment.Stage.values
    tasks = garment.tasks.exclude(leads_to="").values_list("leads_to", "done_on")
    for stage in stages:
        days = [done_on for leads_to, done_on in tasks if leads_to == stage]
        if None in days:
            break
        reached = stage if days else reached
    return reached if reached and stages.index(reached) > stages.index(garment.stage) else ""


def _let_tasks_follow(garment: Garment, *, before: str, on: date) -> None:
    """What leads to its stage and to those before is done; after a step back, what leads on is open again."""
    stages, now = Garment.Stage.values, timezone.now()
    at = stages.index(garment.stage)
    garment.tasks.filter(leads_to__in=stages[: at + 1], done_on=None).update(done_on=on, changed_at=now)
    undone = garment.tasks.filter(leads_to__in=stages[at + 1 : stages.index(before) + 1])
    undone.exclude(done_on=None).update(done_on=None, changed_at=now)


def _draw_on_its_plate(garment: Garment) -> None:
    """Where nobody said what it draws on, the plate says it."""
    if garment.plate and not GarmentReference.objects.filter(garment=garment).exists():
        GarmentReference.objects.create(garment=garment, reference=garment.plate.reference)


@transaction.atomic
def make_again(garment: Garment, *, outfit: Outfit) -> Garment:
    """Begin the same garment in another wearer's outfit, outermost there, with its references and ease."""
    again = add_garment(
        Garment(
            outfit=outfit,
            again_of_id=garment.again_of_id or garment.pk,
            **{name: getattr(garment, name) for name in SHARED},
        )
    )
    for part, rows in ((GarmentReference, garment.references.all()), (Ease, garment.eases.all())):
        copies = list(rows)
        for row in copies:
            row.pk, row.garment = None, again
        part.objects.bulk_create(copies)
    return again


@transaction.atomic
def keep_entry(
    entry: LogEntry,
    *,
    pictures: Sequence[SentPicture],
    shows_wearer: bool,
    finishes_task: bool,
    by: User,
) -> LogEntry:
    """Save an entry, new or changed, with further photographs, and move its garment and task along."""
    if entry.pk is None:
        entry.by = by
    if finishes_task and entry.task and entry.task.done_on is None:
        entry.task.done_on = entry.day
        entry.task.save(update_fields=["done_on", "changed_at"])
        if entry.garment and entry.task.leads_to:
            entry.stage = entry.stage or stage_further_on(entry.garment)
    _move_garment(entry)
    entry.save()
    # Whatever is ticked, a photograph of a fitting shows a person.
    shows_wearer = shows_wearer or _is_of_fitting(entry)
    for picture in pictures:
        keep_photo(entry, picture, shows_wearer=shows_wearer)
    return entry


def keep_photo(entry: LogEntry, picture: SentPicture, *, shows_wearer: bool, caption: str = "") -> LogPhoto:
    photo = LogPhoto(
        entry=entry,
        caption=caption,
        shows_wearer=shows_wearer,
        wearer=entry.outfit.wearer if shows_wearer else None,
    )
    keep_copies(photo, picture.prepared)
    photo.save()
    return photo


def change_photo(photo: LogPhoto, *, caption: str, shows_wearer: bool) -> LogPhoto:
    photo.caption = caption
    photo.shows_wearer = shows_wearer
    photo.wearer = photo.entry.outfit.wearer if shows_wearer else None
    photo.save()
    return photo


def _move_garment(entry: LogEntry) -> None:
    """Bring the garment to the entry's stage, unless an entry of a later day says another."""
    garment = entry.garment
    if not entry.stage or garment is None:
        return
    later = garment.log.filter(day__gt=entry.day).exclude(stage="").exclude(pk=entry.pk)
    if later.exists():
        return
    if garment.stage != entry.stage:
        entry.stage_before = garment.stage
        set_stage(garment, entry.stage, on=entry.day)


def _is_of_fitting(entry: LogEntry) -> bool:
    fitted = Garment.Stage.FITTED
    return entry.stage == fitted or (entry.task is not None and entry.task.leads_to == fitted)


@transaction.atomic
def make_share(share: Share, *, entries: Iterable[LogEntry], photos: Iterable[LogPhoto]) -> str:
    """Save it and return its secret, which is not kept and cannot be shown again."""
    secret = secrets.token_urlsafe(24)
    share.digest = digest_of(secret)
    share.save()
    share.entries.set(entries)
    share.photos.set(photos)
    return secret


def end_share(share: Share, *, at: datetime) -> None:
    if share.revoked_at is None:
        share.revoked_at = at
        share.save(update_fields=["revoked_at", "changed_at"])
