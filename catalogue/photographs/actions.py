"""Photographs kept, put in order, removed; and one of them in parts, each as fine as the file that was sent.

Kept: the file first, then the row. Removed: the row first, then the file.
"""

import math
import shutil
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO
from uuid import uuid4

from django.core.files.uploadedfile import UploadedFile
from django.db import transaction

from catalogue.photographs.imaging import QUALITY, PreparedImage, open_scan, store_derivatives
from catalogue.photographs.models import Photo, photo_folder
from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.models import Source
from catalogue.workroom.files import new_original

# A photograph looked at closely comes in square parts of this side.
PART_PX = 1600


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


def parts_of(photo: Photo) -> tuple[int, int]:
    """Columns and rows; one of each where the largest copy shows all there is."""
    return math.ceil(photo.width / PART_PX), math.ceil(photo.height / PART_PX)


def part_file(photo: Photo, column: int, row: int) -> Path | None:
    """The file of one part, drawn with all others the first time; None where there is no such part.

    Raises ImageRefused where the original cannot be read any more.
    """
    columns, rows = parts_of(photo)
    if not (0 <= column < columns and 0 <= row < rows):
        return None
    file = _file(photo, column, row)
    if not file.is_file():
        _draw(photo, columns, rows)
    return file if file.is_file() else None


def _draw(photo: Photo, columns: int, rows: int) -> None:
    sent = photo.best_file()
    if sent is None:
        return
    with sent.open("rb") as opened:
        picture = open_scan(opened).convert("RGB")
    for column in range(columns):
        for row in range(rows):
            left, top = column * PART_PX, row * PART_PX
            corner = (min(left + PART_PX, picture.width), min(top + PART_PX, picture.height))
            if corner[0] <= left or corner[1] <= top:
                continue  # the original is gone, and the copy in its place is smaller
            file = _file(photo, column, row)
            part = file.with_suffix(".part")
            picture.crop((left, top, *corner)).save(part, "JPEG", quality=QUALITY)
            part.replace(file)


def _file(photo: Photo, column: int, row: int) -> Path:
    # Named like the copies, so that it goes with them.
    return photo_folder() / f"{photo.stem}-part-{column}-{row}.jpg"
