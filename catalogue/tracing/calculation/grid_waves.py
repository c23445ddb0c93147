"""The pitch of a printed grid and the way its lines run, from the spectrum of a patch of its picture.

The strongest wave may be the second of two (thin lines hold many), or one of every sixth, heavier line. So a
wave n times longer is taken in its place only where it is about as strong, and people are always shown the
squares and asked what one is.
"""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from catalogue.tracing.calculation.homography import Floats

PATCH = 512
FEWEST_SQUARES = 6  # in a patch: fewer are no grid
FINEST_PITCH_PX = 5.0
MOST_UNLIKE = 1.15  # a square seen aslant: one side over the other
AS_STRONG, CLEAR = 0.45, 25
NOTHING = "No regular squares were found. Calibrate by four corners, or by a length that you know."


class NoGridFound(ValueError):
    """No regular squares were found."""


def clearest_waves(ink: Floats) -> tuple[Floats, Floats]:
    """The middle (x, y) of the clearest patch, and its two waves in cycles for each pixel: across, down."""
    best: tuple[float, Floats, Floats] | None = None
    size = min(PATCH, *ink.shape)
    for top in np.linspace(0, ink.shape[0] - size, 4).astype(int):
        for left in np.linspace(0, ink.shape[1] - size, 4).astype(int):
            found = _patch_waves(ink[top : top + size, left : left + size])
            if found and (best is None or found[0] > best[0]):
                best = (found[0], np.array([left + size / 2, top + size / 2]), found[1])
    if best is None:
        raise NoGridFound(NOTHING)
    return best[1:]


def _patch_waves(patch: Floats) -> tuple[float, Floats] | None:
    """How far the weaker of two crossing waves stands out of the rest, and both. None without a pair."""
    freq, x, y, radius, allowed = _plane(len(patch))
    window = np.hanning(len(patch)).astype(np.float32)
    around = np.fft.fft2(patch * window[:, None] * window[None, :], allowed.shape)
    power = np.abs(np.fft.fftshift(around))
    level = float(np.median(power[allowed]))
    first = _fundamental(power, freq, np.where(allowed, power, 0), FEWEST_SQUARES / len(patch))
    # The other lines run across the first.
    across = np.abs(x * first[0] + y * first[1]) / (radius + 1e-9) / np.linalg.norm(first)
    alike = np.abs(np.log((radius + 1e-9) / np.linalg.norm(first))) < np.log(MOST_UNLIKE)
    second = _peak(power, freq, np.where(allowed & (across < 0.25) & alike, power, 0))
    strength = min(_strength(power, freq, wave) for wave in (first, second)) / (level + 1e-12)
    if strength < CLEAR:
        return None
    along, down = sorted((first, second), key=lambda wave: -abs(wave[0]))
    return strength, np.array([along * np.sign(along[0]), down * np.sign(down[1])])


@lru_cache(maxsize=1)
def _plane(size: int) -> tuple[Floats, Floats, Floats, Floats, NDArray[np.bool_]]:
    """Where a patch's spectrum lies: cycles for each pixel, across, down, away; where a grid may be."""
    freq = np.fft.fftshift(np.fft.fftfreq(2 * size))
    x, y = np.meshgrid(freq, freq)
    radius = np.hypot(x, y)
    coarse, fine = radius > FEWEST_SQUARES / size, radius < 1 / FINEST_PITCH_PX
    return freq, x, y, radius, coarse & fine & ((x > 0) | ((x == 0) & (y > 0)))


def _fundamental(power: Floats, freq: Floats, allowed: Floats, least: float) -> Floats:
    """The wave of which the strongest is a whole multiple, by what its other multiples show."""
    strongest = _peak(power, freq, allowed)
    longest = strongest
    for parts in range(2, 7):
        longer = strongest / parts
        if np.linalg.norm(longer) >= least and _share_between(power, freq, longer, parts) > AS_STRONG:
            longest = longer
    return longest


def _share_between(power: Floats, freq: Floats, wave: Floats, parts: int) -> float:
    """How strong the multiples of a wave are that are none of `parts` times it, against those that are.

    Bold lines at every sixth give about a fifth; a grid of that wave gives about as much.
    """
    within = [n for n in range(1, 3 * parts) if np.abs(n * wave).max() < freq[-1]]
    strengths = {n: _strength(power, freq, n * wave) for n in within}
    others = [strength for n, strength in strengths.items() if n % parts]
    return float(np.median(others) / np.median([strengths[n] for n in within if n % parts == 0]))


def _strength(power: Floats, freq: Floats, wave: Floats) -> float:
    column, row = (round(float((part - freq[0]) / (freq[1] - freq[0]))) for part in wave)
    near = power[max(0, row - 2) : row + 3, max(0, column - 2) : column + 3]
    return float(near.max()) if near.size else 0.0


def _peak(power: Floats, freq: Floats, allowed: Floats) -> Floats:
    """The place of the highest peak, between the samples by a parabola."""
    place = np.unravel_index(int(np.argmax(allowed)), allowed.shape)
    step = freq[1] - freq[0]
    row, column = (min(max(int(at), 1), len(freq) - 2) for at in place)
    dx = _vertex(*power[row, column - 1 : column + 2])
    dy = _vertex(*power[row - 1 : row + 2, column])
    return np.array([freq[column] + dx * step, freq[row] + dy * step])


def _vertex(before: float, here: float, after: float) -> float:
    bend = before - 2 * here + after
    return 0.0 if bend >= 0 else float(np.clip(0.5 * (before - after) / bend, -0.5, 0.5))
