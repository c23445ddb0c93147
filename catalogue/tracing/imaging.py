"""Pictures cut into square tiles at every halving, and a scan flattened by its calibration.

Every tile is a full square: a browser would stretch a cropped one over it, and every point would be off.

All tiles of a picture lie in one file. It begins with where each tile begins and the last one ends (8 bytes
each, the lowest first), in the order in which they are cut: the deepest level first, row by row. Measured
with 800 tiles of 23 KB: put safely in 0.02 s against 0.29 s as 800 files, removed in 5 ms against 56 ms, 8 %
less space; one tile is read in 0.01 ms either way (1.5 ms from a zip, whose index is read every time).
"""

import io
import math
import struct
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from typing import BinaryIO

import numpy as np
from PIL import Image

from catalogue.tracing.calculation.calibration import FlatPicture
from catalogue.tracing.calculation.homography import Floats
from catalogue.workroom.files import open_file

SIDE = 512
QUALITY = 85
WORKERS = 2
PAPER = 255
PLACE = struct.Struct("<Q")
# Draws a picture between two rows of its pixels.
Strip = Callable[[int, int], Image.Image]


def deepest_level(width: int, height: int) -> int:
    """Level 0 fits on one tile; at this one a pixel of the picture is a pixel of a tile."""
    level = 0
    while SIDE << level < max(width, height):
        level += 1
    return level


def levels_of(width: int, height: int) -> Iterator[tuple[int, int, int]]:
    """Each level with its columns and rows of tiles, the deepest first."""
    for level in range(deepest_level(width, height), -1, -1):
        yield level, math.ceil(width / SIDE), math.ceil(height / SIDE)
        width, height = math.ceil(width / 2), math.ceil(height / 2)


def read_tile(opened: BinaryIO, size: tuple[int, int], level: int, column: int, row: int) -> bytes | None:
    """One tile, a JPEG, of the picture of that size; None where it has no such tile."""
    before = 0
    for one, columns, rows in levels_of(*size):
        if one == level and 0 <= column < columns and 0 <= row < rows:
            opened.seek(PLACE.size * (before + row * columns + column))
            start, end = (place for (place,) in PLACE.iter_unpack(opened.read(2 * PLACE.size)))
            opened.seek(start)
            return opened.read(end - start)
        before += columns * rows
    return None


def cut_tiles(size: tuple[int, int], strip: Strip, to: BinaryIO, told: Callable[[int], object]) -> None:
    """Write all tiles into `to`. `told` hears the percentage done.

    `strip` draws the picture between two rows of its pixels, in whatever thread asks. The picture of the
    deepest level is never held as a whole: only its strips at work, and half of it for the level above.
    """
    count = sum(columns * rows for _, columns, rows in levels_of(*size))
    places = [PLACE.size * (count + 1)]
    to.seek(places[0])
    whole, done = size[0] * size[1] * 4 / 3, 0
    for _ in levels_of(*size):
        width, height = size
        half = None
        with ThreadPoolExecutor(WORKERS) as pool:
            tops = range(0, height, SIDE)
            cut = partial(_cut_row, strip, height)
            for top, (tiles, reduced) in zip(tops, pool.map(cut, tops), strict=True):
                for tile in tiles:
                    places.append(places[-1] + to.write(tile))
                half = half or Image.new(reduced.mode, (-(-width // 2), -(-height // 2)))
                half.paste(reduced, (0, top // 2))
                done += width * min(SIDE, height - top)
                told(min(99, int(100 * done / whole)))
        size, strip = half.size, partial(_strip_of, half)
    to.seek(0)
    to.write(b"".join(map(PLACE.pack, places)))


def strips_of(picture: Image.Image) -> Strip:
    return partial(_strip_of, picture)


def flat_strips(picture: Image.Image, matrix: Floats, sheet: FlatPicture) -> Strip:
    """The picture seen straight from above: one pixel is `sheet.mm_per_px` everywhere."""

    def strip(top: int, bottom: int) -> Image.Image:
        down = sheet.top_mm + top * sheet.mm_per_px
        to_mm = np.array([[sheet.mm_per_px, 0, sheet.left_mm], [0, sheet.mm_per_px, down], [0, 0, 1.0]])
        back = np.linalg.inv(matrix) @ to_mm
        return picture.transform(
            (sheet.width, bottom - top),
            Image.Transform.PERSPECTIVE,
            (back / back[2, 2]).ravel()[:8].tolist(),
            Image.Resampling.BILINEAR,
            fillcolor=_paper(picture),
        )

    return strip


def part_of(tiles: str, size: tuple[int, int], box: tuple[int, int, int, int]) -> Image.Image:
    """The picture between left, top, right and bottom (its pixels), grey, laid together from its tiles.

    Raises FileNotFoundError.
    """
    left, top, right, bottom = box
    level = deepest_level(*size)
    part = Image.new("L", (right - left, bottom - top), PAPER)
    with open_file(tiles) as opened:
        for column in range(max(left, 0) // SIDE, -(-min(right, size[0]) // SIDE)):
            for row in range(max(top, 0) // SIDE, -(-min(bottom, size[1]) // SIDE)):
                with Image.open(io.BytesIO(read_tile(opened, size, level, column, row))) as tile:
                    part.paste(tile.convert("L"), (column * SIDE - left, row * SIDE - top))
    return part


def _cut_row(strip: Strip, height: int, top: int) -> tuple[list[bytes], Image.Image]:
    """One row of tiles; the row at half its size, for the level above."""
    drawn = strip(top, min(top + SIDE, height))
    tiles = []
    for left in range(0, drawn.width, SIDE):
        tile = drawn.crop((left, 0, min(left + SIDE, drawn.width), drawn.height))
        if tile.size != (SIDE, SIDE):
            padded = Image.new(drawn.mode, (SIDE, SIDE), _paper(drawn))
            padded.paste(tile)
            tile = padded
        file = io.BytesIO()
        tile.save(file, "JPEG", quality=QUALITY)
        tiles.append(file.getvalue())
    return tiles, drawn.reduce(2)


def _strip_of(picture: Image.Image, top: int, bottom: int) -> Image.Image:
    return picture.crop((0, top, picture.width, bottom))


def _paper(picture: Image.Image) -> int | tuple[int, ...]:
    return PAPER if picture.mode == "L" else (PAPER,) * len(picture.getbands())
