"""The grid of drawn plates is found again: perspective, blur, noise, uneven light and bold sixth lines."""

import numpy as np
import pytest
from PIL import Image

from catalogue.tracing.calculation.grid import find_grid
from catalogue.tracing.calculation.grid_waves import NoGridFound
from catalogue.tracing.calculation.homography import apply
from fixtures.demo.draw.garments import PLATES
from fixtures.demo.draw.plate import PLATE_DPI
from tests.demo import ARCHIVE, PLATES_SAID
from tests.makers.drawn_plates import SQUARE_MM, drawn_plate

PIECES = tuple(
    [(50 + 300 * n, 80), (250 + 300 * n, 60), (300 + 300 * n, 500), (80 + 300 * n, 560)] for n in range(4)
)


def grey(picture) -> np.ndarray:
    return np.asarray(picture)


@pytest.mark.parametrize("seed", range(20))
def test_distances_by_the_grid_found_are_right_to_three_parts_in_ten_thousand(seed):
    drawn = drawn_plate(seed, outlines=PIECES, every_sixth=seed % 2 == 0)
    found = find_grid(grey(drawn.picture))
    draw = np.random.default_rng(seed)
    pixels = draw.uniform([0, 0], drawn.picture.size, (400, 2))
    true, seen = apply(drawn.truth, pixels) / SQUARE_MM, apply(found.matrix, pixels)
    distances = [np.linalg.norm(points[::2] - points[1::2], axis=1) for points in (true, seen)]
    # A wrong harmonic would be off by half or by double.
    assert np.abs(distances[1] / distances[0] - 1).mean() <= 0.0003


@pytest.mark.parametrize("name", ["day-bodice", "jacket", "petticoat", "stays", "waistcoat"])
def test_a_faint_grid_under_much_ink_is_found(name):
    """Drawn by a program: no grain, heavy outlines, words and a label, and no grid within the pieces."""
    picture = Image.open(ARCHIVE / PLATES_SAID[name]["scan"]["file"]).convert("L")
    draft = next(plate for plate in PLATES if plate.key == name)
    square_px = PLATE_DPI / float(draft.inches_per_inch)
    found = find_grid(grey(picture))
    pixels = np.random.default_rng(1).uniform([0, 0], picture.size, (400, 2))
    true, seen = pixels / square_px, apply(found.matrix, pixels)
    distances = [np.linalg.norm(points[::2] - points[1::2], axis=1) for points in (true, seen)]
    assert np.abs(distances[1] / distances[0] - 1).mean() <= 0.0005


def test_a_page_without_squares_has_none():
    with pytest.raises(NoGridFound):
        find_grid(grey(drawn_plate(1, outlines=PIECES, grid=False).picture))
