"""Finding the printed grid of a plate in its picture.

A patch's spectrum gives the pitch and the way of the lines. Counted against that wave, the phase of the
whole picture says how many squares each place lies from the first. No count is lost on the way: the map
fitted to the patch foretells the next ring to within half a square, and so on to the edges, by one homography
that leaves out what is no grid.
"""

import math
from dataclasses import dataclass

import numpy as np

from catalogue.tracing.calculation.grid_waves import NOTHING, NoGridFound, clearest_waves
from catalogue.tracing.calculation.homography import Floats, apply, fit_homography

WORKING_PIXELS = 6_000_000
FINE_PITCH_PX = 12
PARTS_OF_A_PITCH = 5  # blocks to a square when phases are averaged
FIRST_REACH, GROWS = (
    6,
    1.35,
)  # how much farther each fit is carried: it stays within half a square of the truth there
ROUNDS, FEWEST_PLACES, MOST_PLACES, LEAST_SEEN = 6, 60, 4000, 0.1
PAPER_BLOCK = 32
CLEAN_SPREAD = 4.0  # of 255: a drawing made by a program has no grain of its own to judge lines by
MOST_SCATTER = 0.12  # of a square: phases that belong to no grid lie anywhere


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundGrid:
    """`matrix` takes pixels to squares counted from one of the crossings, right and down.

    `pixels` and `squares` (n, 2): where the grid was seen, and the count there; `residual_px`: the scatter.
    """

    matrix: Floats
    pixels: Floats
    squares: Floats
    pitch_px: float
    residual_px: float
    share_seen: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _GridSighting:
    """A map of the grid, and where it was seen: the weights have left out the rest."""

    matrix: Floats
    places: Floats
    squares: Floats
    scatter: float
    share: float


def find_grid(grey: Floats) -> FoundGrid:
    """The grid in a picture of brightness (height, width). Raises NoGridFound."""
    step = max(1, math.ceil(math.sqrt(grey.size / WORKING_PIXELS)))
    ink = _ink(_reduced(grey, step))
    if not ink.any():
        raise NoGridFound(NOTHING)
    middle, waves = clearest_waves(ink)
    pitch = 1 / float(np.mean(np.linalg.norm(waves, axis=1)))
    # Once the pitch is known, finer pixels than this say no more of it.
    if (coarser := int(pitch / FINE_PITCH_PX)) > 1:
        ink, step = _reduced(ink, coarser), step * coarser
        middle, waves, pitch = middle / coarser, waves * coarser, pitch / coarser
    phase = -waves @ middle
    matrix = np.array([[*waves[0], phase[0]], [*waves[1], phase[1]], [0.0, 0.0, 1.0]])
    reach, whole = FIRST_REACH * pitch, (slice(0, ink.shape[0]), slice(0, ink.shape[1]))
    while (window := _window(ink, middle, reach)) != whole:
        matrix = _counted(ink, matrix, pitch, window).matrix
        reach *= GROWS
    for _ in range(2):
        seen = _counted(ink, matrix, pitch, whole)
        matrix = seen.matrix
    if seen.share < LEAST_SEEN or seen.scatter > MOST_SCATTER:
        raise NoGridFound(NOTHING)
    # A reduced pixel stands for `step` of them.
    return FoundGrid(
        matrix=seen.matrix @ np.diag([1 / step, 1 / step, 1.0]),
        pixels=seen.places * step,
        squares=seen.squares,
        pitch_px=pitch * step,
        residual_px=seen.scatter * pitch * step,
        share_seen=seen.share,
    )


def _reduced(grey: Floats, step: int) -> Floats:
    height, width = (side // step * step for side in grey.shape)
    total = np.zeros((height // step, width // step), dtype=np.float32)
    for down in range(step):
        for across in range(step):
            total += grey[down:height:step, across:width:step]
    return np.asarray(total / step**2)


def _ink(grey: Floats) -> Floats:
    """Darkness against the paper round about, with bold lines brought down to the strength of thin ones."""
    dark = _paper(grey) - grey
    spread = max(1.4826 * float(np.median(np.abs(dark - np.median(dark)))), CLEAN_SPREAD)
    dark = np.clip(dark, -4 * spread, 4 * spread)
    return np.asarray(dark - dark.mean(), dtype=np.float32)


def _paper(grey: Floats) -> Floats:
    """How bright the paper is everywhere: medians of blocks, which no line moves, and straight between them.

    Blocks with edges of their own would be squares too, and be found as such.
    """
    rows, columns = (max(1, side // PAPER_BLOCK) for side in grey.shape)
    high, wide = (min(side, PAPER_BLOCK) for side in grey.shape)
    blocks = grey[: rows * high, : columns * wide].reshape(rows, high, columns, wide)
    medians = np.median(blocks.swapaxes(1, 2).reshape(rows, columns, -1), axis=2)
    down, across = _between(rows, high, grey.shape[0]), _between(columns, wide, grey.shape[1])
    return np.asarray(down @ medians.astype(np.float32) @ across.T)


def _between(count: int, block: int, length: int) -> Floats:
    """The (length, count) shares that each block's middle has in each place."""
    places = np.clip((np.arange(length) + 0.5) / block - 0.5, 0, count - 1)
    return np.asarray(np.maximum(0, 1 - np.abs(places[:, None] - np.arange(count))), dtype=np.float32)


def _window(ink: Floats, middle: Floats, reach: float) -> tuple[slice, slice]:
    low = np.maximum(np.floor(middle - reach), 0).astype(int)
    high = np.minimum(np.ceil(middle + reach), ink.shape[::-1]).astype(int)
    return slice(int(low[1]), int(high[1])), slice(int(low[0]), int(high[0]))


def _counted(ink: Floats, matrix: Floats, pitch: float, window: tuple[slice, slice]) -> _GridSighting:
    """Count squares in a window by a map that is right to less than half a square there; fit a better one."""
    block = max(2, round(pitch / PARTS_OF_A_PITCH))
    places = _centres(window, block)
    waves = [_wave(ink[window], places, matrix, axis, block) for axis in (0, 1)]
    every = 2 * max(1, int(np.sqrt(places.size / 2 / (4 * MOST_PLACES))))
    inner = np.s_[2:-2:every, 2:-2:every]
    offsets = np.stack([np.angle(wave[inner]).ravel() / (2 * np.pi) for wave in waves], axis=-1)
    clear = np.min([np.abs(w[inner]) / np.percentile(np.abs(w), 90) for w in waves], axis=0).ravel()
    places = places[inner].reshape(-1, 2)
    squares, weights = apply(matrix, places) + offsets, np.clip(clear, 0, 1) ** 2
    # Tukey's biweight, by turns with the fit: what lies far off has no say at all.
    robust, missed = weights, np.linalg.norm(offsets - np.median(offsets, axis=0), axis=1)
    for _ in range(ROUNDS):
        scatter = 1.4826 * _median(missed, weights) + 1e-4
        robust = weights * np.clip(1 - (missed / (4.7 * scatter)) ** 2, 0, None) ** 2
        some = robust > 0.01
        if some.sum() < FEWEST_PLACES:
            raise NoGridFound(NOTHING)
        matrix = fit_homography(places[some], squares[some], robust[some])
        missed = np.linalg.norm(squares - apply(matrix, places), axis=1)
    rms = float(np.sqrt(np.average(missed[some] ** 2, weights=robust[some])))
    share = float(np.mean(robust > 0.05))
    return _GridSighting(matrix=matrix, places=places[some], squares=squares[some], scatter=rms, share=share)


def _median(missed: Floats, weights: Floats) -> float:
    order = np.argsort(missed)
    return float(missed[order][np.searchsorted(np.cumsum(weights[order]), weights.sum() / 2)])


def _centres(window: tuple[slice, slice], block: int) -> Floats:
    """The middle of each block of the window, (rows, columns, 2), in pixels of the whole picture."""
    down, across = ((part.stop - part.start) // block for part in window)
    y, x = np.mgrid[0:down, 0:across]
    return np.stack([window[1].start + (x + 0.5) * block, window[0].start + (y + 0.5) * block], axis=-1)


def _wave(part: Floats, places: Floats, matrix: Floats, axis: int, block: int) -> Floats:
    """The grid's wave against the map's, block by block: its angle is how far on the lines lie, of a turn."""
    rows, columns = places.shape[:2]
    first = places[0, 0] - block / 2
    x = first[0] + np.arange(columns * block) + 0.5
    y = first[1] + np.arange(rows * block)[:, None] + 0.5
    depth = matrix[2, 0] * x + matrix[2, 1] * y + matrix[2, 2]
    count = (matrix[axis, 0] * x + matrix[axis, 1] * y + matrix[axis, 2]) / depth
    turn = ((2 * np.pi) * (count - np.floor(count))).astype(np.float32)
    part = part[: rows * block, : columns * block]
    shape = (rows, block, columns, block)
    real = (part * np.cos(turn)).reshape(shape).mean(axis=(1, 3))
    imaginary = (part * np.sin(turn)).reshape(shape).mean(axis=(1, 3))
    # Averaged over about two squares each way, so that only this wave is left.
    reach = 4 * PARTS_OF_A_PITCH
    kernel = np.exp(-0.5 * (np.arange(-reach, reach + 1) / (1.5 * PARTS_OF_A_PITCH)) ** 2)
    return _convolved(_convolved(real - 1j * imaginary, kernel / kernel.sum()).T, kernel / kernel.sum()).T


def _convolved(rows: Floats, kernel: Floats) -> Floats:
    """Each row with the kernel, by way of its spectrum; nothing lies beyond its ends."""
    length = rows.shape[1] + len(kernel) - 1
    spectrum = np.fft.fft(rows, length, axis=1) * np.fft.fft(kernel, length)
    half = len(kernel) // 2
    return np.asarray(np.fft.ifft(spectrum, axis=1)[:, half : half + rows.shape[1]])
