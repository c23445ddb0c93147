"""A map from many lengths known on a plate: the one that misses all of them least, and what it misses.

Along the page and across it a plate may have stretched differently: the two are told apart where at least two
lengths lie each way, else one factor serves both. Least squares, the misfits in millimetres at full size: an
engraver is as far off on a short line as on a long one.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from catalogue.tracing.calculation.calibration import (
    CLICK_PX,
    ENGRAVED_MM,
    CalibrationRefused,
    PixelMap,
    check_apart,
)
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.geometry import MOST_KNOWN
from catalogue.tracing.calculation.homography import Floats

FEWEST = 2
# Student's factor for 68.27 % by degrees of freedom: JCGM 100:2008, table G.2. Beyond the table 1.
STUDENT = (1.84, 1.32, 1.20, 1.14, 1.11, 1.09, 1.08, 1.07, 1.06, 1.05)
# So many times the doubt of the others, and a length is taken to be drawn or stated wrong. Our own choice.
WRONG_TIMES = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownLength:
    """Two pixels of the scan, and how far apart they are at full size."""

    start: Point
    end: Point
    mm: float

    @property
    def px(self) -> Point:
        """How far the length reaches across and along the picture, in pixels."""
        return complex(abs((self.end - self.start).real), abs((self.end - self.start).imag))

    @property
    def is_upright(self) -> bool:
        return self.px.imag > self.px.real


@dataclass(frozen=True, slots=True, kw_only=True)
class Misfit:
    """`drawn_mm`: what the map makes of the length. `is_wrong`: the others agree with each other."""

    drawn_mm: float
    apart_mm: float
    is_wrong: bool


def by_lengths(known: Sequence[KnownLength]) -> PixelMap:
    """Raises CalibrationRefused for fewer than two, and for points too near each other."""
    if not FEWEST <= len(known) <= MOST_KNOWN:
        raise CalibrationRefused(f"Give {FEWEST} to {MOST_KNOWN} lengths, each with both its ends.")
    for one in known:
        check_apart(one.start, one.end)
    across, along = _factors(known)
    doubt = _doubt(known)
    matrix = np.diag([across, along, 1.0])
    return PixelMap(matrix=matrix, relative_doubt=doubt, worst_doubt=doubt)


def misfits(known: Sequence[KnownLength]) -> list[Misfit]:
    """How far the map misses each length. Of two alone neither is called wrong, since either may be."""
    factors = _factors(known)
    times = [_times_off(known, number) if len(known) > FEWEST else 0.0 for number in range(len(known))]
    worst = max(range(len(known)), key=times.__getitem__)
    return [
        Misfit(
            drawn_mm=_drawn(one, factors),
            apart_mm=_drawn(one, factors) - one.mm,
            is_wrong=number == worst and times[number] > WRONG_TIMES,
        )
        for number, one in enumerate(known)
    ]


def is_doubt_known(count: int) -> bool:
    """Whether so many lengths say by themselves how far off they are."""
    return count > FEWEST


def _times_off(known: Sequence[KnownLength], number: int) -> float:
    """How far a length lies off what the others make of it, in doubts of theirs."""
    others = [one for at, one in enumerate(known) if at != number]
    factors = _factors(others)
    drawn_mm = _drawn(known[number], factors)
    scatter = _scatter(others, factors) if is_doubt_known(len(others)) else abs(_apart(others[0], factors))
    clicks_mm = math.sqrt(2) * CLICK_PX * drawn_mm / abs(known[number].px)
    return abs(drawn_mm - known[number].mm) / math.hypot(scatter, clicks_mm)


def _factors(known: Sequence[KnownLength]) -> tuple[float, float]:
    """Millimetres of a pixel across and along."""
    total = np.array([abs(one.px) for one in known])
    mm = np.array([one.mm for one in known])
    same = float(total @ mm / (total @ total))
    if _count(known) == 1:
        return same, same
    across, along = same, same
    for _ in range(8):  # Gauss and Newton: from a factor nearly right it is there after three
        drawn = np.array([_drawn(one, (across, along)) for one in known])
        slopes = _slopes(known, (across, along), drawn)
        change = np.linalg.lstsq(slopes, mm - drawn, rcond=None)[0]
        across, along = across + float(change[0]), along + float(change[1])
    if not (across > 0 and along > 0):
        raise CalibrationRefused("These lengths do not fit one another: check which points each belongs to.")
    return across, along


def _count(known: Sequence[KnownLength]) -> int:
    """How many factors are told apart."""
    upright = sum(one.is_upright for one in known)
    return 2 if upright >= 2 and len(known) - upright >= 2 and _are_apart(known) else 1


def _are_apart(known: Sequence[KnownLength]) -> bool:
    """Lengths that all run aslant alike say nothing of the two ways apart."""
    shares = [(one.px.real / abs(one.px)) ** 2 for one in known]
    return max(shares) - min(shares) > 0.5


def _slopes(known: Sequence[KnownLength], factors: tuple[float, float], drawn: Floats) -> Floats:
    return np.array(
        [
            [factors[0] * one.px.real**2 / mm, factors[1] * one.px.imag**2 / mm]
            for one, mm in zip(known, drawn, strict=True)
        ]
    )


def _drawn(one: KnownLength, factors: tuple[float, float]) -> float:
    return math.hypot(one.px.real * factors[0], one.px.imag * factors[1])


def _apart(one: KnownLength, factors: tuple[float, float]) -> float:
    return _drawn(one, factors) - one.mm


def _scatter(known: Sequence[KnownLength], factors: tuple[float, float]) -> float:
    """The standard deviation of one length, by the degrees of freedom that are left."""
    left = len(known) - _count(known)
    student = STUDENT[left - 1] if left <= len(STUDENT) else 1.0
    return student * math.sqrt(sum(_apart(one, factors) ** 2 for one in known) / left)


def _doubt(known: Sequence[KnownLength]) -> float:
    """Relative and standard, of the factor that is known worse; no less than the presses themselves allow."""
    factors = _factors(known)
    scatter = _scatter(known, factors) if is_doubt_known(len(known)) else ENGRAVED_MM
    mm = np.array([one.mm for one in known])
    clicks = math.sqrt(2) * CLICK_PX / math.sqrt(sum(abs(one.px) ** 2 for one in known))
    if _count(known) == 1:
        return max(scatter / math.sqrt(float(mm @ mm)), clicks)
    slopes = _slopes(known, factors, np.array([_drawn(one, factors) for one in known]))
    spread = np.sqrt(np.diag(np.linalg.inv(slopes.T @ slopes))) / np.array(factors)
    return max(scatter * float(spread.max()), clicks)
