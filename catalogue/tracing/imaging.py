"""Pictures cut into square tiles at every halving, and a scan flattened by its calibration.

Every tile is a full square: a browser would stretch a cropped one over it, and every point would be off.
"""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from pathlib import Path

import numpy as np
from PIL import Image

from catalogue.tracing.calculation.calibration import Sheet
from catalogue.tracing.calculation.homography import Floats

SIDE = 512
QUALITY = 85
WORKERS = 2
PAPER = 255


def deepest_level(width: int, height: int) -> int:
    """Level 0 fits on one tile; at this one a pixel of the picture is a pixel of a tile."""
    level = 0
    while SIDE << level < max(width, height):
        level += 1
    return level


def cut_tiles(
    size: tuple[int, int], strip: Callable[[int, int], Image.Image], folder: Path, told: Callable[[int], None]
) -> None:
    """Write `folder`/level-column-row.jpg for every level. `told` hears the percentage done.

    `strip` draws the picture between two rows of its pixels, in whatever thread asks. The picture of the
    deepest level is never held as a whole: only its strips at work, and half of it for the level above.
    """
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    whole, done = size[0] * size[1] * 4 / 3, 0
    for level in range(deepest_level(*size), -1, -1):
        width, height = size
        half = None
        with ThreadPoolExecutor(WORKERS) as pool:
            tops = range(0, height, SIDE)
            cut = partial(_cut_row, strip, height, folder, level)
            for top, reduced in zip(tops, pool.map(cut, tops), strict=True):
                half = half or Image.new(reduced.mode, (-(-width // 2), -(-height // 2)))
                half.paste(reduced, (0, top // 2))
                done += width * min(SIDE, height - top)
                told(min(99, int(100 * done / whole)))
        size, strip = half.size, partial(_strip_of, half)


def strips_of(picture: Image.Image) -> Callable[[int, int], Image.Image]:
    return partial(_strip_of, picture)


def flat_strips(picture: Image.Image, matrix: Floats, sheet: Sheet) -> Callable[[int, int], Image.Image]:
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


def part_of(folder: Path, size: tuple[int, int], box: tuple[int, int, int, int]) -> Image.Image:
    """The picture between left, top, right and bottom (its pixels), grey, laid together from its tiles."""
    left, top, right, bottom = box
    level = deepest_level(*size)
    part = Image.new("L", (right - left, bottom - top), PAPER)
    for column in range(max(left, 0) // SIDE, -(-min(right, size[0]) // SIDE)):
        for row in range(max(top, 0) // SIDE, -(-min(bottom, size[1]) // SIDE)):
            # A drawing that is its own scan has none.
            if (file := folder / f"{level}-{column}-{row}.jpg").exists():
                with Image.open(file) as tile:
                    part.paste(tile.convert("L"), (column * SIDE - left, row * SIDE - top))
    return part


def _cut_row(
    strip: Callable[[int, int], Image.Image], height: int, folder: Path, level: int, top: int
) -> Image.Image:
    """Write one row of tiles; the row at half its size, for the level above."""
    drawn = strip(top, min(top + SIDE, height))
    for left in range(0, drawn.width, SIDE):
        tile = drawn.crop((left, 0, min(left + SIDE, drawn.width), drawn.height))
        if tile.size != (SIDE, SIDE):
            padded = Image.new(drawn.mode, (SIDE, SIDE), _paper(drawn))
            padded.paste(tile)
            tile = padded
        tile.save(folder / f"{level}-{left // SIDE}-{top // SIDE}.jpg", "JPEG", quality=QUALITY)
    return drawn.reduce(2)


def _strip_of(picture: Image.Image, top: int, bottom: int) -> Image.Image:
    return picture.crop((0, top, picture.width, bottom))


def _paper(picture: Image.Image) -> int | tuple[int, ...]:
    return PAPER if picture.mode == "L" else (PAPER,) * len(picture.getbands())
