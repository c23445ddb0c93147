"""Log entries: what was done, the garment's new stage with it, and its photographs."""

from collections.abc import Sequence
from uuid import uuid4

from django.db import transaction

from catalogue.photographs.actions import SentPicture
from catalogue.photographs.imaging import store_derivatives
from catalogue.workroom.models import User
from fitting.models.garment import Garment
from fitting.models.log import LogEntry, LogPhoto, log_photo_folder

MADE = (Garment.Stage.SEWN, Garment.Stage.FINISHED)


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
    _move_garment(entry)
    entry.save()
    if finishes_task and entry.task and entry.task.done_on is None:
        entry.task.done_on = entry.day
        entry.task.save(update_fields=["done_on", "changed_at"])
    # Whatever is ticked, a photograph of a fitting shows a person.
    shows_wearer = shows_wearer or _is_of_fitting(entry)
    for picture in pictures:
        keep_photo(entry, picture, shows_wearer=shows_wearer)
    return entry


def keep_photo(entry: LogEntry, picture: SentPicture, *, shows_wearer: bool, caption: str = "") -> LogPhoto:
    """The files first, then the row: a file without a row is in nobody's way."""
    stem = uuid4().hex
    store_derivatives(picture.prepared, log_photo_folder(), stem)
    return LogPhoto.objects.create(
        entry=entry,
        stem=stem,
        width=picture.prepared.width,
        height=picture.prepared.height,
        caption=caption,
        shows_wearer=shows_wearer,
        wearer=entry.outfit.wearer if shows_wearer else None,
    )


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
        garment.stage = entry.stage
        if entry.stage in MADE:
            garment.made_on = entry.day
        garment.save(update_fields=["stage", "made_on", "changed_at"])


def _is_of_fitting(entry: LogEntry) -> bool:
    fitted = Garment.Stage.FITTED
    return entry.stage == fitted or (entry.task is not None and entry.task.leads_to == fitted)
