"""A photograph in parts, each as fine as the file that was sent: for threads and stitches."""

import math
from pathlib import Path

from catalogue.images import QUALITY, open_scan
from catalogue.models.photo import Photo, photo_folder

PART_PX = 1600


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
