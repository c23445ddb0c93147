"""Photographs kept, put in order, and drawn in parts, each as fine as the file that was sent."""

import io
from collections.abc import Sequence
from dataclasses import dataclass
from uuid import uuid4

from django.core.files.uploadedfile import UploadedFile
from django.db import transaction

from catalogue.photographs.imaging import QUALITY, PreparedImage, open_scan
from catalogue.photographs.models import PART_PX, Photo, WithCopies
from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.models import Source
from catalogue.workroom.files import open_file, put


@dataclass(frozen=True, slots=True, kw_only=True)
class SentPicture:
    """A file as it was sent, and what was drawn from it."""

    file: UploadedFile
    prepared: PreparedImage


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureNotes:
    """What is said of all the pictures sent together."""

    view: str
    caption: str = ""
    credit: str = ""
    rights: str = ""
    source: Source | None = None


def add_photos(
    *, reference: ReferenceGarment, pictures: Sequence[SentPicture], notes: PictureNotes
) -> list[Photo]:
    """Keep each picture and its original, after the photographs that are there already."""
    last = reference.photos.order_by("-order").values_list("order", flat=True).first() or 0
    return [
        _keep(reference, picture, notes, order=last + number)
        for number, picture in enumerate(pictures, start=1)
    ]


def _keep(reference: ReferenceGarment, picture: SentPicture, notes: PictureNotes, *, order: int) -> Photo:
    photo = Photo(
        reference=reference,
        order=order,
        view=notes.view,
        caption=notes.caption,
        credit=notes.credit,
        rights=notes.rights,
        source=notes.source,
    )
    keep_copies(photo, picture.prepared)
    # Kept for a better copy some day, never served: it may hold a place, a name or something worse.
    put(photo.original, picture.file)
    photo.save()
    return photo


def keep_copies(photo: WithCopies, prepared: PreparedImage) -> None:
    """Put the copies of a photograph of any kind, whose row is saved after them."""
    photo.stem = photo.stem or uuid4().hex
    photo.width, photo.height = prepared.width, prepared.height
    for size, copy in prepared.derivatives.items():
        put(photo.file(size), copy)


@transaction.atomic
def move_photo(*, photo: Photo, by: int) -> None:
    """Put the photograph one place earlier (-1) or later (1), and number them all from 1."""
    photos = list(photo.reference.photos.select_for_update())
    at = next(place for place, one in enumerate(photos) if one.pk == photo.pk)
    to = max(0, min(len(photos) - 1, at + by))
    photos.insert(to, photos.pop(at))
    for order, one in enumerate(photos, start=1):
        one.order = order
    Photo.objects.bulk_update(photos, ["order"])


def draw_parts(photo: Photo) -> None:
    """Draw the photograph in square parts, each as fine as the file that was sent.

    Raises ImageRefused where that cannot be read any more.
    """
    sent = photo.best_file()
    if sent is None:
        return
    with open_file(sent) as opened:
        picture = open_scan(opened).convert("RGB")
    columns, rows = photo.parts()
    for column in range(columns):
        for row in range(rows):
            left, top = column * PART_PX, row * PART_PX
            corner = (min(left + PART_PX, picture.width), min(top + PART_PX, picture.height))
            if corner[0] <= left or corner[1] <= top:
                continue  # the original is gone, and the copy in its place is smaller
            part = io.BytesIO()
            picture.crop((left, top, *corner)).save(part, "JPEG", quality=QUALITY)
            put(photo.part(column, row), part)
