"""A time line: garments as bars from the earliest to the latest day of their dates, on one scale of years."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from catalogue.sources.calculation.dates import DateEnds

WIDTH = 720.0
HEAD = 26.0  # the years
ROW = 36.0
LEAST_BAR = 3.0
# How much of the scale lies beside the dates at either end, so that an open end has somewhere to run.
MARGIN = 0.06
STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000)
MOST_TICKS = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Dating:
    """When a garment was made: first and last day, None where open, and how well each is known."""

    earliest: date | None
    latest: date | None
    ends: DateEnds


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """Where a garment lies on the drawing, from `left` to `right` at the height `y`."""

    left: float
    right: float
    y: float
    ends: DateEnds

    @property
    def is_open(self) -> bool:
        return "open" in (self.ends.first, self.ends.last)

    @property
    def is_late(self) -> bool:
        """Whether it lies so far right that its name is written to the left of its end."""
        return self.left > WIDTH / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeLine:
    """`ticks`: a year and where it stands. One bar for each of what was laid on it, in the same order."""

    ticks: tuple[tuple[int, float], ...]
    bars: tuple[Bar, ...]
    height: float
    width: float = WIDTH


def lay_on_line(dated: Sequence[Dating]) -> TimeLine:
    """Lay them on one line that just holds them all. Each has at least one end."""
    known = [_years(day) for one in dated for day in (one.earliest, one.latest) if day]
    if not known:
        return TimeLine(ticks=(), bars=(), height=0.0)
    span = max(max(known) - min(known), 4.0)
    first = min(known) - MARGIN * span
    by_year = WIDTH / ((1 + 2 * MARGIN) * span)
    bars = tuple(_bar(one, first, by_year, y=HEAD + ROW * (place + 0.7)) for place, one in enumerate(dated))
    step = next((one for one in STEPS if WIDTH / by_year / one <= MOST_TICKS), STEPS[-1])
    years = range(step * math.ceil(first / step), math.floor(first + WIDTH / by_year) + 1, step)
    return TimeLine(
        ticks=tuple((year, (year - first) * by_year) for year in years if year > 0),
        bars=bars,
        height=HEAD + ROW * len(dated) + 6,
    )


def _bar(one: Dating, first: float, by_year: float, *, y: float) -> Bar:
    left = (_years(one.earliest) - first) * by_year if one.earliest else 0.0
    right = (_years(one.latest, last=True) - first) * by_year if one.latest else WIDTH
    return Bar(left=left, right=max(right, left + LEAST_BAR), y=y, ends=one.ends)


def _years(day: date, *, last: bool = False) -> float:
    """The day as a year and its share; the last day of a span lasts until its evening."""
    days = day.timetuple().tm_yday - (0 if last else 1)
    return day.year + days / date(day.year, 12, 31).timetuple().tm_yday
