"""The plan as a drawing: time runs to the right, one bar a task in the order to do them.

A filled bar lies on the critical chain. A small flag stands on the day by which a task must be done, a line
on the occasion; the dashed band at the foot reaches from the earliest to the latest day that the maker's
pace gives. The page says the same in a table.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from catalogue.drawing.calculation import kept_apart
from catalogue.drawing.showing import Colour, disc, drawing, element, line, text, track
from fitting.planning.loading.work import TaskRow

WIDTH = 360
EDGE = 8
HEAD, ROW, FOOT = 26, 30, 40
LETTER, LETTER_WIDTH = 10.5, 5.2
_STEPS_DAYS = (1, 7, 14, 28, 56, 91, 182, 364, 728)
_MOST_TICKS = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskBar:
    label: str
    begins_on: date
    done_on: date
    must_be_done_by: date | None
    is_critical: bool

    @property
    def is_late(self) -> bool:
        return self.must_be_done_by is not None and self.must_be_done_by < self.done_on


@dataclass(frozen=True, slots=True, kw_only=True)
class _PlanSheet:
    first: date
    days: int

    def x(self, day: date, *, evening: bool = False) -> float:
        at = (day - self.first).days + (1 if evening else 0)
        return EDGE + max(0, min(at, self.days)) / self.days * (WIDTH - 2 * EDGE)


def bars_of(rows: Iterable[TaskRow]) -> list[TaskBar]:
    """The open tasks as the drawing of the plan takes them."""
    return [
        TaskBar(
            label=str(row.task),
            begins_on=row.planned.begins_on,
            done_on=row.planned.done_on,
            must_be_done_by=row.planned.must_be_done_by,
            is_critical=row.planned.is_critical,
        )
        for row in rows
    ]


def draw_plan(
    bars: Sequence[TaskBar],
    *,
    today: date,
    occasion_on: date | None,
    between: tuple[date, date, date],
    fittings: Sequence[date] = (),
    name: str = "plan",
) -> str:
    """Return the SVG element, or "" without bars. `between`: earliest, likeliest, latest day to be ready.

    `name`: of no other drawing on the page.
    """
    if not bars:
        return ""
    to_come = [day for day in fittings if day >= today]
    ends = [*(bar.done_on for bar in bars), *between, *to_come, *([occasion_on] if occasion_on else [])]
    sheet = _PlanSheet(first=today, days=max((max(ends) - today).days + 2, 7))
    foot = HEAD + ROW * len(bars)
    return drawing(
        *_axis(sheet, foot),
        *_days(occasion_on, to_come, sheet, foot),
        *(part for at, bar in enumerate(bars) for part in _row(bar, HEAD + ROW * at, sheet)),
        *_range(between, sheet, foot),
        name=name,
        css="plan-chart",
        box=(0, 0, WIDTH, foot + FOOT),
        title="Plan of the work left",
        says=_described(bars, occasion_on, between, to_come),
    )


def _described(
    bars: Sequence[TaskBar],
    occasion_on: date | None,
    between: tuple[date, date, date],
    fittings: Sequence[date],
) -> str:
    told = [
        f"{bar.label}: {_day(bar.begins_on)} to {_day(bar.done_on)}"
        f"{', on the longest chain' if bar.is_critical else ''}{', too late' if bar.is_late else ''}."
        for bar in bars
    ]
    day = "".join(f" A fitting: {_day(one)}." for one in fittings)
    day += f" The occasion: {_day(occasion_on)}." if occasion_on else ""
    return f"{' '.join(told)} Ready between {_day(between[0])} and {_day(between[2])}.{day}"


def _axis(sheet: _PlanSheet, foot: float) -> Iterator[str]:
    step = next((one for one in _STEPS_DAYS if sheet.days / one <= _MOST_TICKS), _STEPS_DAYS[-1])
    days = [sheet.first + timedelta(days=step * at) for at in range(sheet.days // step + 1)]
    yield line("".join(track("M", sheet.x(day), HEAD - 8, "V", foot) for day in days), Colour.LINE, 0.5)
    for day in days:
        if day == sheet.first or sheet.x(day) < WIDTH - 24:
            anchor = "start" if day == sheet.first else "middle"
            yield _text(sheet.x(day), 12, _tick(day), anchor=anchor, fill=Colour.INK_SOFT)


def _days(
    occasion_on: date | None, fittings: Sequence[date], sheet: _PlanSheet, foot: float
) -> Iterator[str]:
    """A line on each fitting to come and on the occasion, their words in one row under the bars."""
    named = [(sheet.x(day), "fitting", Colour.INK_SOFT) for day in fittings]
    for x, *_ in named:
        down = track("M", x, HEAD - 8, "V", foot)
        yield line(down, Colour.PIN_RED, 1, stroke_dasharray="2 3", css="plan-fitting")
    if occasion_on is not None and occasion_on >= sheet.first:
        x = sheet.x(occasion_on)
        yield line(track("M", x, HEAD - 8, "V", foot + 4), Colour.INK, 1.6)
        named.append((x, "the day", Colour.INK))
    wanted, sizes = [x for x, *_ in named], [LETTER_WIDTH * len(word) for _, word, _ in named]
    places = kept_apart(wanted, sizes, low=EDGE, high=WIDTH - EDGE)
    for x, (_, word, fill) in zip(places, named, strict=True):
        yield _text(x, foot + 14, word, fill=fill)


def _row(bar: TaskBar, y: float, sheet: _PlanSheet) -> Iterator[str]:
    left, right = sheet.x(bar.begins_on), sheet.x(bar.done_on, evening=True)
    css, fill = ("plan-chain", Colour.CHALK_BLUE) if bar.is_critical else ("plan-bar", Colour.WASH_BLUE)
    # A long name beside a bar at the right edge is written back to the left.
    anchor, x = ("start", left) if left < WIDTH * 0.55 else ("end", min(right, WIDTH - EDGE))
    yield _text(x, y + 11, _short(bar.label), anchor=anchor)
    box = {"x": left, "y": y + 15, "width": max(right - left, 2), "height": 9}
    yield element("rect", css=css, **box, fill=fill, stroke=Colour.CHALK_BLUE, stroke_width=1)
    if bar.must_be_done_by is not None:
        css, fill = ("plan-late", Colour.PIN_RED) if bar.is_late else ("plan-must", Colour.INK_SOFT)
        flag = track("M", sheet.x(bar.must_be_done_by, evening=True), y + 26, "v", -14, "l", -5, 3, "l", 5, 3)
        yield element("path", css=css, d=flag, fill=fill, stroke=fill, stroke_width=1)


def _range(between: tuple[date, date, date], sheet: _PlanSheet, foot: float) -> Iterator[str]:
    early, likely, late = (sheet.x(day, evening=True) for day in between)
    box = {"x": early, "y": foot + 19, "width": max(late - early, 2), "height": 10}
    look = {"fill": "none", "stroke": Colour.CHALK_BLUE, "stroke_width": 1.2, "stroke_dasharray": "4 3"}
    yield element("rect", css="plan-range", **box, **look)
    yield disc(likely, foot + 24, 3, Colour.CHALK_BLUE)
    middle = min(max((early + late) / 2, 60), WIDTH - 60)
    yield _text(middle, foot + 38, "ready, at your pace", fill=Colour.INK_SOFT)


def _text(x: float, y: float, words: str, **look: str) -> str:
    return text(x, y, words, size=LETTER, **look)


def _short(label: str) -> str:
    return label if len(label) <= 36 else f"{label[:35].rstrip()}…"


def _day(day: date) -> str:
    return f"{day:%-d %B %Y}"


def _tick(day: date) -> str:
    return f"{day:%-d %b}"
