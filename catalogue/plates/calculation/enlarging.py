"""Enlarging a plate without tracing it: on a copier in one pass or several, or thrown on a wall.

percent = 100 · k · (print ÷ original): `print` is a bar as printed on the plate that k belongs to, `original`
the same bar on what lies on the glass. Passes multiply; a bar is measured after each, and the next corrects
for it.
"""

import math
from dataclasses import dataclass
from itertools import accumulate
from operator import mul

_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class CopierPass:
    """One pass: what to set the copier to, and what the bar should then measure."""

    percent: float
    bar_mm: float


def enlarging_percent(factor: float, *, print_mm: float = 1.0, original_mm: float = 1.0) -> float:
    """What a copier must be set to for full size, all passes together. The plate itself needs no bar."""
    return 100 * factor * print_mm / original_mm


def copier_passes(
    percent: float, *, bar_mm: float, most_percent: float = 200, step_percent: float = 1
) -> tuple[CopierPass, ...]:
    """The fewest passes to a percentage, as alike as the copier's steps allow, with the bar after each.

    `bar_mm` is the bar on the original. The last pass is not rounded to a step: set it to the nearest that
    the copier has, or better to what `next_percent` finds once the bar has been measured.
    Raises ValueError where the copier cannot enlarge at all.
    """
    if most_percent <= 100 and percent > 100:
        raise ValueError("A copier that cannot enlarge needs no passes.")
    count = 1
    if percent > most_percent:
        count = math.ceil(math.log(percent / 100) / math.log(most_percent / 100) - _ROUNDING)
    alike = 100 * (percent / 100) ** (1 / count)
    stepped = min(most_percent, math.ceil(alike / step_percent - _ROUNDING) * step_percent)
    factors = [stepped / 100] * (count - 1)
    factors.append(percent / 100 / math.prod(factors))
    return tuple(
        CopierPass(percent=100 * factor, bar_mm=bar_mm * so_far)
        for factor, so_far in zip(factors, accumulate(factors, mul), strict=True)
    )


def next_percent(measured_mm: float, wanted_mm: float) -> float:
    """What the next pass must be set to, from the bar as it measures now to the bar at full size."""
    return 100 * wanted_mm / measured_mm


def projector_distance_mm(distance_mm: float, *, measured_mm: float, wanted_mm: float) -> float:
    """How far from the wall the bar measures what it should: a picture grows with its lamp's distance."""
    return distance_mm * wanted_mm / measured_mm
