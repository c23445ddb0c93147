"""The chart of a comparison: one row a level, drawn as SVG from plain values.

Every row has its own zero, the girth or length wanted: left of it the garment is smaller, right of it larger.
Bands show the maker's limits, a point the garment as read, bars its standard and its doubled uncertainty.
Page and dossier use the same drawing.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from catalogue.drawing.calculation import kept_apart
from catalogue.drawing.showing import Colour, disc, drawing, element, line, text, track
from catalogue.lengths.calculation.lengths import System, format_length, format_number

WIDTH = 360
MIDDLE = WIDTH / 2
EDGE = 6  # kept free at either side, so that arrows and end caps stay inside
HEAD_HEIGHT = 46
ROW_HEIGHT = 42
FOOT_HEIGHT = 26

_LETTER = 5.4  # about the width of one
_STEPS_MM = {"in": (6.35, 12.7, 25.4, 50.8, 101.6, 203.2), "cm": (5.0, 10.0, 20.0, 50.0, 100.0, 200.0)}


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartRow:
    """One level or length. `take_off_mm` None: more is no fault there, the bands have no upper end.

    `words` name its five regions, smallest garment first, as the verdict and the table of chances do.
    `other_mm` is the difference when a seam allowance that is not known is counted as drawn.
    """

    label: str
    kind: str = "girth"
    garment_mm: float
    wanted_mm: float
    difference_mm: float
    u_mm: float
    fits_mm: float
    add_mm: float
    take_off_mm: float | None
    words: tuple[str, ...]
    verdict: str
    other_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class _ChartSheet:
    """Where a difference lies on the drawing, and how lengths are written on it."""

    reach_mm: float
    system: System
    denominator: int

    def x(self, mm: float) -> float:
        kept = max(-self.reach_mm, min(self.reach_mm, mm))
        return MIDDLE + kept / self.reach_mm * (MIDDLE - EDGE)

    def written(self, mm: float) -> str:
        return format_length(mm, system=self.system, denominator=self.denominator)


def draw_chart(
    rows: Sequence[ChartRow],
    *,
    title: str,
    system: System = "in",
    denominator: int = 16,
    name: str = "chart",
) -> str:
    """Return the SVG element, or "" when there is no row. `name` keeps its ids apart on a page of several."""
    if not rows:
        return ""
    sheet = _ChartSheet(reach_mm=_reach(rows), system=system, denominator=denominator)
    parts: list[str] = []
    y = 0.0
    for kind, group in groupby(rows, key=lambda row: row.kind):
        members = list(group)
        parts += _head(members, kind, y, sheet)
        y += HEAD_HEIGHT
        for row in members:
            parts += _row(row, y, sheet)
            y += ROW_HEIGHT
        parts += _foot(y, sheet)
        y += FOOT_HEIGHT
    return drawing(
        *parts,
        name=name,
        css="chart",
        box=(0, 0, WIDTH, y),
        title=title,
        says=" ".join(_described(row, sheet) for row in rows),
    )


def _described(row: ChartRow, sheet: _ChartSheet) -> str:
    """The row as a sentence, for those who do not see the drawing."""
    larger, smaller = ("longer", "shorter") if row.kind == "length" else ("larger", "smaller")
    by = f"{sheet.written(abs(row.difference_mm))} {larger if row.difference_mm > 0 else smaller} than wanted"
    return (
        f"{row.label.capitalize()}: garment {sheet.written(row.garment_mm)},"
        f" {by if row.difference_mm else 'as wanted'}, give or take {sheet.written(row.u_mm)}: {row.verdict}."
    )


def _reach(rows: Sequence[ChartRow]) -> float:
    """Room for every limit with its name, and for the points as far as twice the limits."""
    limit = max(max(row.add_mm, row.take_off_mm or 0) for row in rows)
    point = max(abs(row.difference_mm) + 2 * row.u_mm for row in rows)
    return max(1.35 * limit, min(1.05 * point, 2 * limit))


def _head(rows: list[ChartRow], kind: str, y: float, sheet: _ChartSheet) -> list[str]:
    """The names of the regions over the bands of the first row that has them all."""
    row = next((each for each in rows if each.take_off_mm is not None), rows[0])
    ends = (row.add_mm if row.take_off_mm is None else row.take_off_mm, sheet.reach_mm)
    bounds = (-sheet.reach_mm, -row.add_mm, -row.fits_mm, row.fits_mm, *ends)
    middles = [(sheet.x(left) + sheet.x(right)) / 2 for left, right in pairwise(bounds)]
    # Names of narrow bands would run into one another: they take turns on two lines.
    turns = 2 if (row.add_mm - row.fits_mm) / sheet.reach_mm < 0.3 else 1
    names: list[str] = []
    for turn in range(turns):
        words = row.words[turn : len(middles) : turns]
        sizes = [_LETTER * (len(word) + 1) for word in words]
        places = kept_apart(middles[turn::turns], sizes, low=0, high=WIDTH)
        names += [text(x, y + 28 - 13 * turn, word, size=11) for x, word in zip(places, words, strict=True)]
    heading = "Girths" if kind == "girth" else "Lengths"
    return [
        text(EDGE, y + 13, heading, size=11, anchor="start", font_weight=600),
        *names,
        line(track("M", MIDDLE, y + 32, "v", 11), Colour.INK, 1.2),
        text(MIDDLE + 4, y + 42, "wanted", size=10, anchor="start", fill=Colour.INK_SOFT),
    ]


def _row(row: ChartRow, y: float, sheet: _ChartSheet) -> list[str]:
    axis = y + 28
    figures = f"{sheet.written(row.garment_mm)} for {sheet.written(row.wanted_mm)}"
    label = element("tspan", row.label, font_weight=600)
    about = element("tspan", figures, dx=6, fill=Colour.INK_SOFT)
    return [
        element("text", label, about, x=EDGE, y=y + 13, font_size=11, fill=Colour.INK),
        text(WIDTH - EDGE, y + 13, row.verdict, size=11, anchor="end", font_weight=600),
        *_bands(row, axis, sheet),
        line(track("M", MIDDLE, axis - 11, "v", 22), Colour.INK, 1.2),
        *_other_point(row, axis, sheet),
        *_point(row, axis, sheet),
    ]


def _bands(row: ChartRow, axis: float, sheet: _ChartSheet) -> list[str]:
    """What can be altered as a low band, what fits as a high one: apart in height as well as in colour."""
    is_open = row.take_off_mm is None
    alter_end = sheet.reach_mm if row.take_off_mm is None else row.take_off_mm
    fits_end = sheet.reach_mm if is_open else row.fits_mm
    alter = sheet.x(-row.add_mm), sheet.x(alter_end), axis, 5
    fits = sheet.x(-row.fits_mm), sheet.x(fits_end), axis, 9
    return [
        line(track("M", EDGE, axis, "H", WIDTH - EDGE), Colour.LINE_STRONG, 0.5),
        _band(*alter, css="chart-alter", fill=Colour.WASH_AMBER, stroke=Colour.LINE_STRONG),
        _band(*fits, css="chart-fits", fill=Colour.WASH_GREEN, stroke=Colour.PIN_GREEN),
    ]


def _band(left: float, right: float, axis: float, half: float, **look: str) -> str:
    return element(
        "rect", x=left, y=axis - half, width=right - left, height=2 * half, stroke_width=0.6, **look
    )


def _point(row: ChartRow, axis: float, sheet: _ChartSheet) -> list[str]:
    d, u = row.difference_mm, row.u_mm
    if abs(d) > sheet.reach_mm:  # off the sheet: an arrow at its edge
        tip, back = (WIDTH - 2, -9) if d > 0 else (2, 9)
        arrow = track("M", tip, axis, "l", back, -5, "v", 10, "z")
        return [element("path", css="chart-point", d=arrow, fill=Colour.PIN_RED, stroke=Colour.PAPER)]
    far_left, left, right, far_right = (sheet.x(d + times * u) for times in (-2, -1, 1, 2))
    caps = (track("M", x, axis - 3, "v", 6) for x in (far_left, far_right))
    wide = track("M", far_left, axis, "H", far_right, *caps)
    return [
        line(wide, Colour.PIN_RED, 1, css="chart-interval"),
        line(track("M", left, axis, "H", right), Colour.PIN_RED, 3.4, css="chart-interval"),
        disc(sheet.x(d), axis, 4.4, Colour.PIN_RED, stroke=Colour.PAPER, css="chart-point"),
    ]


def _other_point(row: ChartRow, axis: float, sheet: _ChartSheet) -> list[str]:
    if row.other_mm is None:
        return []
    look = {"stroke": Colour.PIN_RED, "stroke_width": 1.4, "stroke_dasharray": "2 1.4"}
    return [disc(sheet.x(row.other_mm), axis, 4, Colour.PAPER, **look)]


def _foot(y: float, sheet: _ChartSheet) -> list[str]:
    """The scale under a group of rows: how much smaller or larger, in the reader's unit."""
    steps = _STEPS_MM[sheet.system]
    step = next((one for one in steps if sheet.reach_mm / one <= 5), steps[-1])
    count = int(sheet.reach_mm // step)
    ticks = [(times, sheet.x(times * step)) for times in range(-count, count + 1)]
    marks = (track("M", x, y + 3, "v", 4) for _, x in ticks)
    return [
        line(track("M", EDGE, y + 3, "H", WIDTH - EDGE, *marks), Colour.LINE_STRONG, 0.8),
        *(
            text(x, y + 17, _tick_words(times * step, sheet.system), size=10, fill=Colour.INK_SOFT)
            for times, x in ticks
        ),
    ]


def _tick_words(mm: float, system: System) -> str:
    if mm == 0:
        return f"0 {system}"
    number = format_number(mm, system=system, denominator=32).removesuffix(".0")
    return f"+{number}" if mm > 0 else number
