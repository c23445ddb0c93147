"""The plan as a drawing: time runs to the right, one bar a task in the order to do them.

A filled bar lies on the critical chain. A small flag stands on the day by which a task must be done, a line
on the occasion; the dashed band at the foot reaches from the earliest to the latest day that the maker's
pace gives. The page says the same in a table.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from xml.sax.saxutils import escape

from fitting.planning.loading.work import TaskRow

WIDTH = 360
EDGE = 8
HEAD, ROW, FOOT = 26, 30, 40
INK, SOFT, LINE, PAPER, PIN, CHALK = "#1d262e", "#4a545b", "#767d7f", "#fdfdfa", "#a31d33", "#2b4c7e"
_STEPS_DAYS = (1, 7, 14, 28, 56, 91, 182, 364, 728)
_MOST_TICKS = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    label: str
    begins_on: date
    done_on: date
    must_be_done_by: date | None
    is_critical: bool

    @property
    def is_late(self) -> bool:
        return self.must_be_done_by is not None and self.must_be_done_by < self.done_on


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sheet:
    first: date
    days: int

    def x(self, day: date, *, evening: bool = False) -> float:
        at = (day - self.first).days + (1 if evening else 0)
        return EDGE + max(0, min(at, self.days)) / self.days * (WIDTH - 2 * EDGE)


def bars_of(rows: Iterable[TaskRow]) -> list[Bar]:
    """The open tasks as the drawing of the plan takes them."""
    return [
        Bar(
            label=str(row.task),
            begins_on=row.planned.begins_on,
            done_on=row.planned.done_on,
            must_be_done_by=row.planned.must_be_done_by,
            is_critical=row.planned.is_critical,
        )
        for row in rows
    ]


def draw_plan(
    bars: Sequence[Bar],
    *,
    today: date,
    occasion_on: date | None,
    between: tuple[date, date, date],
    fittings: Sequence[date] = (),
) -> str:
    """Return the SVG element, or "" without bars. `between`: earliest, likeliest, latest day to be ready."""
    if not bars:
        return ""
    to_come = [day for day in fittings if day >= today]
    ends = [*(bar.done_on for bar in bars), *between, *to_come, *([occasion_on] if occasion_on else [])]
    sheet = _Sheet(first=today, days=max((max(ends) - today).days + 2, 7))
    foot = HEAD + ROW * len(bars)
    rows = "".join(_row(bar, HEAD + ROW * at, sheet) for at, bar in enumerate(bars))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="plan-chart" viewBox="0 0 {WIDTH} {foot + FOOT}"'
        ' role="img" aria-labelledby="plan-title plan-desc" font-family="Vollkorn, Georgia, serif">'
        '<title id="plan-title">Plan of the work left</title>'
        f'<desc id="plan-desc">{escape(_described(bars, occasion_on, between, to_come))}</desc>'
        f"{_axis(sheet, foot)}{''.join(_fitting(day, sheet, foot) for day in to_come)}"
        f"{_occasion(occasion_on, sheet, foot)}{rows}{_range(between, sheet, foot)}</svg>"
    )


def _described(
    bars: Sequence[Bar],
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


def _axis(sheet: _Sheet, foot: float) -> str:
    step = next((one for one in _STEPS_DAYS if sheet.days / one <= _MOST_TICKS), _STEPS_DAYS[-1])
    days = [sheet.first + timedelta(days=step * at) for at in range(sheet.days // step + 1)]
    marks = "".join(f"M{_n(sheet.x(day))} {HEAD - 8}V{_n(foot)}" for day in days)
    names = "".join(
        _text(sheet.x(day), 12, _tick(day), anchor="start" if at == 0 else "middle", soft=True)
        for at, day in enumerate(days)
        if at == 0 or sheet.x(day) < WIDTH - 24
    )
    return f'<path class="plan-grid" d="{marks}" fill="none" stroke="{LINE}" stroke-width=".5"/>{names}'


def _occasion(occasion_on: date | None, sheet: _Sheet, foot: float) -> str:
    if occasion_on is None or occasion_on < sheet.first:
        return ""
    x = sheet.x(occasion_on)
    anchor, words_x = ("end", x - 3) if x > WIDTH / 2 else ("start", x + 3)
    return (
        f'<path class="plan-occasion" d="M{_n(x)} {HEAD - 8}V{_n(foot + 4)}" fill="none" stroke="{INK}"'
        f' stroke-width="1.6"/>{_text(words_x, foot + 14, "the day", anchor=anchor)}'
    )


def _fitting(day: date, sheet: _Sheet, foot: float) -> str:
    x = sheet.x(day)
    word = _text(max(x, EDGE + 16), foot + 14, "fitting", soft=True)
    return (
        f'<path class="plan-fitting" d="M{_n(x)} {HEAD - 8}V{_n(foot)}" fill="none" stroke="{PIN}"'
        f' stroke-width="1" stroke-dasharray="2 3"/>{word}'
    )


def _row(bar: Bar, y: float, sheet: _Sheet) -> str:
    left, right = sheet.x(bar.begins_on), sheet.x(bar.done_on, evening=True)
    css, fill = ("plan-chain", CHALK) if bar.is_critical else ("plan-bar", PAPER)
    # A long name beside a bar at the right edge is written back to the left.
    anchor, x = ("start", left) if left < WIDTH * 0.55 else ("end", min(right, WIDTH - EDGE))
    flag = "" if bar.must_be_done_by is None else _flag(bar, y, sheet)
    return (
        f"{_text(x, y + 11, _short(bar.label), anchor=anchor)}"
        f'<rect class="{css}" x="{_n(left)}" y="{_n(y + 15)}" width="{_n(max(right - left, 2))}" height="9"'
        f' fill="{fill}" stroke="{CHALK}" stroke-width="1"/>{flag}'
    )


def _flag(bar: Bar, y: float, sheet: _Sheet) -> str:
    x = sheet.x(bar.must_be_done_by, evening=True) if bar.must_be_done_by else 0.0
    css, stroke = ("plan-late", PIN) if bar.is_late else ("plan-must", SOFT)
    return (
        f'<path class="{css}" d="M{_n(x)} {_n(y + 26)}v-14l-5 3l5 3" fill="{stroke}" stroke="{stroke}"'
        ' stroke-width="1"/>'
    )


def _range(between: tuple[date, date, date], sheet: _Sheet, foot: float) -> str:
    early, likely, late = (sheet.x(day, evening=True) for day in between)
    y, width = foot + 24, max(late - early, 2)
    middle = min(max((early + late) / 2, 60), WIDTH - 60)
    return (
        f'<rect class="plan-range" x="{_n(early)}" y="{_n(y - 5)}" width="{_n(width)}" height="10"'
        f' fill="none" stroke="{CHALK}" stroke-width="1.2" stroke-dasharray="4 3"/>'
        f'<circle class="plan-likely" cx="{_n(likely)}" cy="{_n(y)}" r="3" fill="{CHALK}"/>'
        f"{_text(middle, foot + 38, 'ready, at your pace', soft=True)}"
    )


def _text(x: float, y: float, words: str, *, anchor: str = "middle", soft: bool = False) -> str:
    css, fill = ("plan-soft", SOFT) if soft else ("plan-label", INK)
    return (
        f'<text class="{css}" x="{_n(x)}" y="{_n(y)}" text-anchor="{anchor}" font-size="10.5"'
        f' fill="{fill}">{escape(words)}</text>'
    )


def _short(label: str) -> str:
    return label if len(label) <= 36 else f"{label[:35].rstrip()}…"


def _day(day: date) -> str:
    return f"{day:%-d %B %Y}"


def _tick(day: date) -> str:
    return f"{day:%-d %b}"


def _n(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")
