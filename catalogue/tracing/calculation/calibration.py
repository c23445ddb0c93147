"""From the pixels of a scan to millimetres at full size: ways to say how they belong together.

A fifth, by many known lengths, has a file of its own (`known_lengths.py`).

Every way gives one map and its doubt. Traced points are kept as pixels of the scan as it was sent, so another
calibration starts from the same points and errors never add up.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from catalogue.lengths.calculation.errors import NotUnderstood
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.homography import Floats, apply, expected_error, fit_homography, slopes

CLICK_PX = 1.0  # how far a careful click lies from the line it is meant for; measured in a trial of ours
# What a bar cannot see: paper that stretched, a lens or a page held aslant. Our guess for a flat scan, and
# the larger one for a photograph (a trial of ours went up to 5.5 % on a page in perspective).
UNSEEN_IN_SCAN, UNSEEN_IN_PHOTOGRAPH = 0.003, 0.03
# From two lengths there is no telling how far off they are drawn. In its place stands a tenth of an inch: so
# far an engraving of 1884 was off where it states its own lengths (figure 4 of C. Hecklinger's Handbook on
# Dress and Cloak Cutting, traced by us).
ENGRAVED_MM = 2.54
MOST_PIXELS = 60_000_000
# A page seen so nearly from its edge that its far side would be drawn this many times coarser.
MOST_STRETCH = 12.0


class CalibrationRefused(NotUnderstood):
    """The points and lengths given do not say where the page lies; `sentence` says what to give."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PixelMap:
    """`matrix` takes a pixel of the scan to millimetres at full size; doubts are relative and standard.

    `relative_doubt` is the mean over the plate, `worst_doubt` where it is largest. `residual_px` is how far
    the points given lie from where the map has them: nothing where just enough points are given.
    """

    matrix: Floats
    relative_doubt: float
    worst_doubt: float
    residual_px: float = 0.0

    def to_mm(self, pixels: Sequence[Point]) -> list[Point]:
        return _mapped(self.matrix, pixels)

    def to_px(self, mm: Sequence[Point]) -> list[Point]:
        return _mapped(np.asarray(np.linalg.inv(self.matrix), dtype=np.float64), mm)

    def mm_per_px(self, at: Point) -> float:
        slope = slopes(self.matrix, np.array([[at.real, at.imag]]))[0]
        return math.sqrt(abs(float(np.linalg.det(slope))))


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatPicture:
    """The flattened picture: its top left corner in millimetres, its size in pixels, and one pixel's size."""

    left_mm: float
    top_mm: float
    width: int
    height: int
    mm_per_px: float


def by_corners(
    corners: Sequence[Point], *, across_mm: float, down_mm: float, size: tuple[int, int]
) -> PixelMap:
    """Four corners of a rectangle on the plate, clockwise from its top left; `size` is the scan's (px)."""
    _check_corners(corners)
    target = np.array([[0, 0], [across_mm, 0], [across_mm, down_mm], [0, down_mm]], dtype=float)
    source = _array(corners)
    return _with_doubt(fit_homography(source, target), source, size)


def by_bar(
    start: Point, end: Point, *, real_mm: float, size: tuple[int, int], is_photograph: bool
) -> PixelMap:
    """A printed bar, or two points whose distance is known. It sees no perspective: the doubt says so."""
    check_apart(start, end)
    factor = real_mm / abs(end - start)
    unseen = UNSEEN_IN_PHOTOGRAPH if is_photograph else UNSEEN_IN_SCAN
    doubt = math.hypot(math.sqrt(2) * CLICK_PX / abs(end - start), unseen)
    return PixelMap(matrix=np.diag([factor, factor, 1.0]), relative_doubt=doubt, worst_doubt=doubt)


def by_axes(
    down: tuple[Point, Point],
    down_mm: float,
    across: tuple[Point, Point],
    across_mm: float,
    *,
    is_photograph: bool,
) -> PixelMap:
    """One length along the page and one across it, where paper or a scan has stretched one way."""
    check_apart(*down)
    check_apart(*across)
    along = (down[1] - down[0]) / abs(down[1] - down[0])
    # Turned so that the length along the page runs straight down.
    turned = (across[1] - across[0]) / along * 1j
    down_factor = down_mm / abs(down[1] - down[0])
    left_for_across = across_mm**2 - (turned.imag * down_factor) ** 2
    if abs(turned.real) < abs(turned.imag) or left_for_across <= 0:
        raise CalibrationRefused("The second line runs across the first: choose one nearer to a right angle.")
    across_factor = math.sqrt(left_for_across) / abs(turned.real)
    turn = 1j / along
    matrix = np.diag([across_factor, down_factor, 1.0]) @ np.array(
        [[turn.real, -turn.imag, 0], [turn.imag, turn.real, 0], [0, 0, 1.0]]
    )
    unseen = UNSEEN_IN_PHOTOGRAPH if is_photograph else UNSEEN_IN_SCAN
    shorter = min(abs(down[1] - down[0]), abs(across[1] - across[0]))
    doubt = math.hypot(math.sqrt(2) * CLICK_PX / shorter, unseen, ENGRAVED_MM / min(down_mm, across_mm))
    return PixelMap(matrix=matrix, relative_doubt=doubt, worst_doubt=doubt)


def by_grid(
    pixels: Floats, squares: Floats, *, square_mm: float, residual_px: float, size: tuple[int, int]
) -> PixelMap:
    """Many crossings of a grid, each with its count of squares; `residual_px` is how far they scatter."""
    target = squares * square_mm
    matrix = fit_homography(pixels, target)
    some = np.linspace(0, len(pixels) - 1, min(len(pixels), 64)).astype(int)
    # Crossings near each other are off together: no more than 64 count as seen apart.
    mean, worst = _doubts(matrix, pixels[some], size, residual_px)
    return PixelMap(matrix=matrix, relative_doubt=mean, worst_doubt=worst, residual_px=residual_px)


def sheet_of(calibration: PixelMap, size: tuple[int, int]) -> FlatPicture:
    """The flattened picture that holds the whole scan. Raises CalibrationRefused where it would run away."""
    width, height = size
    corners = [0j, complex(width, 0), complex(width, height), complex(0, height)]
    depth = _array(corners) @ calibration.matrix[2, :2] + calibration.matrix[2, 2]
    middle = calibration.mm_per_px(complex(width / 2, height / 2))
    if min(depth) <= 0 or max(map(calibration.mm_per_px, corners)) > MOST_STRETCH * middle:
        raise CalibrationRefused(
            "With these points the picture would have to be stretched out of all measure: check their order,"
            " and that they lie on the corners named."
        )
    placed = calibration.to_mm(corners)
    left, right = min(p.real for p in placed), max(p.real for p in placed)
    top, bottom = min(p.imag for p in placed), max(p.imag for p in placed)
    finest = max(middle, math.sqrt((right - left) * (bottom - top) / MOST_PIXELS))
    return FlatPicture(
        left_mm=left,
        top_mm=top,
        width=math.ceil((right - left) / finest),
        height=math.ceil((bottom - top) / finest),
        mm_per_px=finest,
    )


def _with_doubt(matrix: Floats, source: Floats, size: tuple[int, int]) -> PixelMap:
    mean, worst = _doubts(matrix, source, size, CLICK_PX)
    return PixelMap(matrix=matrix, relative_doubt=mean, worst_doubt=worst)


def _doubts(matrix: Floats, source: Floats, size: tuple[int, int], click_px: float) -> tuple[float, float]:
    """Root of the mean square over the middle of the picture, and the most at its corners."""
    shares = np.linspace(0.05, 0.95, 7)
    places = np.array([[x * size[0], y * size[1]] for x in shares for y in shares])
    errors = expected_error(matrix, source, click_px, places)
    return float(np.sqrt(np.mean(errors**2))), float(errors.max())


def _check_corners(corners: Sequence[Point]) -> None:
    if len(corners) != 4:
        raise CalibrationRefused("A rectangle has four corners: give all of them.")
    turns = []
    for index in range(4):
        before, here, after = corners[index - 1], corners[index], corners[(index + 1) % 4]
        turn = ((here - before).conjugate() * (after - here)).imag
        turns.append(turn / max(abs(here - before) * abs(after - here), 1e-9))
    if min(turns) < 0.02:
        raise CalibrationRefused(
            "These corners make no rectangle: give them in turn, from the top left to the right and round."
        )


def check_apart(start: Point, end: Point) -> None:
    """Raises CalibrationRefused where two of the points lie too near each other."""
    if abs(end - start) < 20 * CLICK_PX:
        raise CalibrationRefused("These two points are too near each other to measure anything by.")


def _array(points: Sequence[Point]) -> Floats:
    return np.array([[point.real, point.imag] for point in points], dtype=float)


def _mapped(matrix: Floats, points: Sequence[Point]) -> list[Point]:
    return [complex(x, y) for x, y in apply(matrix, _array(points))] if points else []
