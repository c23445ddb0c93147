"""Drawn plates with known truth: a gridded page with pieces, seen aslant, blurred, noisy, unevenly lit."""

from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw, ImageFilter
from shapely import LinearRing

from catalogue.tracing.calculation.homography import apply, fit_homography

SQUARE_MM = 25.4  # one square of the grid stands for an inch
LINE_PX, FINE = 3, 4


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPlate:
    """`picture` as a camera sees the page; `truth` takes its pixels to millimetres at full size."""

    picture: Image.Image
    truth: np.ndarray
    pitch_px: float

    def to_px(self, mm: np.ndarray) -> np.ndarray:
        return apply(np.linalg.inv(self.truth), np.asarray(mm, dtype=float))


def drawn_plate(
    seed: int,
    *,
    size: tuple[int, int] = (1500, 1125),
    pitch: int = 25,
    slant: float = 0.06,
    outlines: tuple[list[tuple[float, float]], ...] = (),
    every_sixth: bool = True,
    grid: bool = True,
) -> DrawnPlate:
    """A page of `size` pixels. `outlines` are chains of points in millimetres at full size."""
    draw = np.random.default_rng(seed)
    page = _page(size, pitch, outlines, every_sixth=every_sixth, grid=grid)
    corners = np.array([[0, 0], [size[0], 0], [size[0], size[1]], [0, size[1]]], dtype=float)
    moved = corners + draw.uniform(-slant, slant, (4, 2)) * size
    moved += (corners - corners.mean(axis=0)) * -slant  # kept within the picture
    to_page = fit_homography(moved, corners)
    whole = page.transform(
        size,
        Image.Transform.PERSPECTIVE,
        (to_page / to_page[2, 2]).ravel()[:8].tolist(),
        Image.Resampling.BICUBIC,
        fillcolor=236,
    )
    seen = np.asarray(whole.filter(ImageFilter.GaussianBlur(draw.uniform(0.5, 1.3))), dtype=float)
    y, x = np.mgrid[0 : size[1], 0 : size[0]]
    light = 1 - 0.35 * (draw.uniform(-1, 1) * x / size[0] + draw.uniform(-1, 1) * y / size[1]).clip(-1, 1)
    noisy = seen * light * 0.75 + draw.normal(0, 6, seen.shape)
    # Lines of the grid are three pixels wide about the middle of a pixel.
    to_mm = np.array([[1, 0, -0.5], [0, 1, -0.5], [0, 0, pitch / SQUARE_MM]]) * 1.0
    return DrawnPlate(
        picture=Image.fromarray(noisy.clip(0, 255).astype(np.uint8)), truth=to_mm @ to_page, pitch_px=pitch
    )


def _page(size, pitch, outlines, *, every_sixth, grid) -> Image.Image:
    page = Image.new("L", size, 245)
    pen = ImageDraw.Draw(page)
    if grid:
        for number, x in enumerate(range(0, size[0], pitch)):
            bold = 2 if every_sixth and number % 6 == 0 else 1
            pen.rectangle((x - bold, 0, x + bold, size[1]), fill=185)
        for number, y in enumerate(range(0, size[1], pitch)):
            bold = 2 if every_sixth and number % 6 == 0 else 1
            pen.rectangle((0, y - bold, size[0], y + bold), fill=185)
    for outline in outlines:
        # The truth has places from the edge of the first pixel; a line of the grid is about a pixel's middle.
        _ink(page, [(x * pitch / SQUARE_MM + 0.5, y * pitch / SQUARE_MM + 0.5) for x, y in outline])
    return page


def _ink(page: Image.Image, points: list[tuple[float, float]]) -> None:
    """An outline about its exact course: Pillow's own lines lie up to a pixel beside it."""
    ring = LinearRing(points).buffer(LINE_PX / 2, join_style="mitre")
    left, top = (int(low) - 2 for low in ring.bounds[:2])
    size = tuple(int(high) + 3 - low for high, low in zip(ring.bounds[2:], (left, top), strict=True))
    for rings, fill in (([ring.exterior], 40), (ring.interiors, 238)):
        mask = Image.new("L", (size[0] * FINE, size[1] * FINE))
        for one in rings:
            places = [((x - left) * FINE - 0.5, (y - top) * FINE - 0.5) for x, y in one.coords]
            ImageDraw.Draw(mask).polygon(places, fill=255)
        page.paste(fill, (left, top), mask.reduce(FINE))
