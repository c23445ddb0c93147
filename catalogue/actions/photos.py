"""Photographs come and go: the file first, then the row; the row first, then the file."""

import shutil
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import BinaryIO
from uuid import uuid4

from django.core.files.uploadedfile import UploadedFile
from django.db import transaction

from catalogue.images import PreparedImage, store_derivatives
from catalogue.models.photo import Photo, photo_folder
from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.models import Source
from catalogue.workroom.files import new_original


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
    stem = uuid4().hex
    store_derivatives(picture.prepared, photo_folder(), stem)
    store_original(picture.file, stem)
    return Photo.objects.create(
        reference=reference,
        stem=stem,
        width=picture.prepared.width,
        height=picture.prepared.height,
        order=order,
        view=notes.view,
        caption=notes.caption,
        credit=notes.credit,
        rights=notes.rights,
        source=notes.source,
    )


def store_original(file: BinaryIO, stem: str) -> None:
    """Kept for a better copy some day, never served: it may hold a place, a name or something worse."""
    file.seek(0)
    with new_original(photo_folder() / "originals" / stem) as original:
        shutil.copyfileobj(file, original)


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


def remove_files(stems: Iterable[str]) -> None:
    for stem in stems:
        Photo(stem=stem).forget_files()
