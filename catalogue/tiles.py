"""Pictures cut into square tiles at every halving, and a scan flattened by its calibration.

Every tile is a full square: a browser would stretch a cropped one over it, and every point would be off.
"""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import numpy as np
from PIL import Image

from catalogue.measuring.calibration import Sheet
from catalogue.measuring.homography import Floats

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


def cut_tiles(picture: Image.Image, folder: Path, told: Callable[[int], None]) -> None:
    """Write `folder`/level-column-row.jpg for every level. `told` hears the percentage done."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    deepest = deepest_level(*picture.size)
    whole, done = picture.width * picture.height * 4 / 3, 0
    with ThreadPoolExecutor(WORKERS) as pool:
        for level in range(deepest, -1, -1):
            for row in range(0, picture.height, SIDE):
                columns = range(0, picture.width, SIDE)
                tiles = [(level, column // SIDE, row // SIDE) for column in columns]
                list(pool.map(lambda tile, whole=picture: _write(whole, folder, *tile), tiles))
                done += picture.width * min(SIDE, picture.height - row)
                told(min(99, int(100 * done / whole)))
            if level:
                picture = picture.reduce(2)


def _write(picture: Image.Image, folder: Path, level: int, column: int, row: int) -> None:
    left, top = column * SIDE, row * SIDE
    box = (left, top, min(left + SIDE, picture.width), min(top + SIDE, picture.height))
    tile = picture.crop(box)
    if tile.size != (SIDE, SIDE):
        padded = Image.new(picture.mode, (SIDE, SIDE), PAPER if picture.mode == "L" else (PAPER,) * 3)
        padded.paste(tile)
        tile = padded
    tile.save(folder / f"{level}-{column}-{row}.jpg", "JPEG", quality=QUALITY)


def flattened(picture: Image.Image, matrix: Floats, sheet: Sheet) -> Image.Image:
    """The picture seen straight from above: one pixel is `sheet.mm_per_px` everywhere."""
    to_mm = np.array(
        [[sheet.mm_per_px, 0, sheet.left_mm], [0, sheet.mm_per_px, sheet.top_mm], [0, 0, 1]], dtype=float
    )
    back = np.linalg.inv(matrix) @ to_mm
    return picture.transform(
        (sheet.width, sheet.height),
        Image.Transform.PERSPECTIVE,
        (back / back[2, 2]).ravel()[:8].tolist(),
        Image.Resampling.BILINEAR,
        fillcolor=PAPER if picture.mode == "L" else (PAPER,) * 3,
    )
