"""The chart of a comparison: one row a level, drawn as SVG from plain values.

Every row has its own zero, the girth or length wanted: left of it the garment is smaller, right of it larger.
Bands show the maker's limits, a point the garment as read, bars its standard and its doubled uncertainty.
Page and dossier use the same drawing. Colours stand as attributes for the printed page, where no style sheet
reaches inside a drawing; classes let the site's sheet replace them. Whatever colour says, words say too.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from xml.sax.saxutils import escape

from catalogue.lengths.calculation.lengths import System, format_length, format_number

WIDTH = 360
MIDDLE = WIDTH / 2
EDGE = 6  # kept free at either side, so that arrows and end caps stay inside
HEAD_HEIGHT = 46
ROW_HEIGHT = 42
FOOT_HEIGHT = 26

# The palette of the site by daylight, a little stronger in the bands, for print.
INK, SOFT, LINE, PAPER = "#1d262e", "#4a545b", "#767d7f", "#fdfdfa"
FITS, ALTER, PIN = "#c3dfcd", "#f1e6cc", "#a31d33"

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
class _Sheet:
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
    sheet = _Sheet(reach_mm=_reach(rows), system=system, denominator=denominator)
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
    described = " ".join(_described(row, sheet) for row in rows)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="chart" viewBox="0 0 {WIDTH} {_n(y)}" role="img"'
        f' aria-labelledby="{name}-title {name}-desc" font-family="Vollkorn, Georgia, serif">'
        f'<title id="{name}-title">{escape(title)}</title><desc id="{name}-desc">{escape(described)}</desc>'
        f"{''.join(parts)}</svg>"
    )


def _described(row: ChartRow, sheet: _Sheet) -> str:
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


def _head(rows: list[ChartRow], kind: str, y: float, sheet: _Sheet) -> list[str]:
    """The names of the regions over the bands of the first row that has them all."""
    row = next((each for each in rows if each.take_off_mm is not None), rows[0])
    ends = (row.add_mm if row.take_off_mm is None else row.take_off_mm, sheet.reach_mm)
    bounds = (-sheet.reach_mm, -row.add_mm, -row.fits_mm, row.fits_mm, *ends)
    # Names of narrow bands would run into one another: they take turns on two lines.
    is_narrow = (row.add_mm - row.fits_mm) / sheet.reach_mm < 0.3
    raised = (0, 1, 0, 1, 0) if is_narrow else (0, 0, 0, 0, 0)
    names = [
        _text((sheet.x(left) + sheet.x(right)) / 2, y + 28 - 13 * lift, word, css="chart-region")
        for word, left, right, lift in zip(row.words, bounds, bounds[1:], raised, strict=False)
    ]
    return [
        _text(EDGE, y + 13, "Girths" if kind == "girth" else "Lengths", anchor="start", bold=True),
        *names,
        _line(f"M{_n(MIDDLE)} {_n(y + 32)}v11", INK, 1.2, css="chart-wanted"),
        _text(MIDDLE + 4, y + 42, "wanted", anchor="start", fill=SOFT, size=10),
    ]


def _row(row: ChartRow, y: float, sheet: _Sheet) -> list[str]:
    axis = y + 28
    figures = f"{sheet.written(row.garment_mm)} for {sheet.written(row.wanted_mm)}"
    return [
        f'<text class="chart-label" x="{EDGE}" y="{_n(y + 13)}" font-size="11" fill="{INK}">'
        f'<tspan font-weight="600">{escape(row.label)}</tspan>'
        f'<tspan class="chart-soft" dx="6" fill="{SOFT}">{figures}</tspan></text>',
        _text(WIDTH - EDGE, y + 13, row.verdict, anchor="end", css="chart-verdict"),
        *_bands(row, axis, sheet),
        _line(f"M{_n(MIDDLE)} {_n(axis - 11)}v22", INK, 1.2, css="chart-wanted"),
        *_other_point(row, axis, sheet),
        *_point(row, axis, sheet),
    ]


def _bands(row: ChartRow, axis: float, sheet: _Sheet) -> list[str]:
    """What can be altered as a low band, what fits as a high one: apart in height as well as in colour."""
    is_open = row.take_off_mm is None
    alter_end = sheet.reach_mm if row.take_off_mm is None else row.take_off_mm
    fits_end = sheet.reach_mm if is_open else row.fits_mm
    return [
        _line(f"M{EDGE} {_n(axis)}H{WIDTH - EDGE}", LINE, 0.5),
        _band(sheet.x(-row.add_mm), sheet.x(alter_end), axis, 5, "chart-alter", ALTER),
        _band(sheet.x(-row.fits_mm), sheet.x(fits_end), axis, 9, "chart-fits", FITS),
    ]


def _band(left: float, right: float, axis: float, half: float, css: str, fill: str) -> str:
    return (
        f'<rect class="{css}" x="{_n(left)}" y="{_n(axis - half)}" width="{_n(right - left)}"'
        f' height="{_n(2 * half)}" fill="{fill}" stroke="{LINE}" stroke-width=".6"/>'
    )


def _point(row: ChartRow, axis: float, sheet: _Sheet) -> list[str]:
    d, u = row.difference_mm, row.u_mm
    if abs(d) > sheet.reach_mm:  # off the sheet: an arrow at its edge
        tip, back = (WIDTH - 2, -9) if d > 0 else (2, 9)
        return [f'<path class="chart-point" d="M{tip} {_n(axis)}l{back} -5v10z" fill="{PIN}"/>']
    far_left, left, right, far_right = (_n(sheet.x(d + times * u)) for times in (-2, -1, 1, 2))
    caps = "".join(f"M{x} {_n(axis - 3)}v6" for x in (far_left, far_right))
    return [
        _line(f"M{far_left} {_n(axis)}H{far_right}{caps}", PIN, 1, css="chart-interval"),
        _line(f"M{left} {_n(axis)}H{right}", PIN, 3.4, css="chart-interval"),
        f'<circle class="chart-point" cx="{_n(sheet.x(d))}" cy="{_n(axis)}" r="4.4" fill="{PIN}"'
        f' stroke="{PAPER}"/>',
    ]


def _other_point(row: ChartRow, axis: float, sheet: _Sheet) -> list[str]:
    if row.other_mm is None:
        return []
    return [
        f'<circle class="chart-other" cx="{_n(sheet.x(row.other_mm))}" cy="{_n(axis)}" r="4" fill="{PAPER}"'
        f' stroke="{PIN}" stroke-width="1.4" stroke-dasharray="2 1.4"/>'
    ]


def _foot(y: float, sheet: _Sheet) -> list[str]:
    """The scale under a group of rows: how much smaller or larger, in the reader's unit."""
    steps = _STEPS_MM[sheet.system]
    step = next((one for one in steps if sheet.reach_mm / one <= 5), steps[-1])
    count = int(sheet.reach_mm // step)
    ticks = [(times, sheet.x(times * step)) for times in range(-count, count + 1)]
    marks = "".join(f"M{_n(x)} {_n(y + 3)}v4" for _, x in ticks)
    return [
        _line(f"M{EDGE} {_n(y + 3)}H{WIDTH - EDGE}{marks}", SOFT, 0.8),
        *(
            _text(x, y + 17, _tick_words(times * step, sheet.system), fill=SOFT, size=10)
            for times, x in ticks
        ),
    ]


def _tick_words(mm: float, system: System) -> str:
    if mm == 0:
        return f"0 {system}"
    number = format_number(mm, system=system, denominator=32).removesuffix(".0")
    return f"+{number}" if mm > 0 else number


def _line(path: str, stroke: str, width: float, *, css: str = "chart-line") -> str:
    return f'<path class="{css}" d="{path}" fill="none" stroke="{stroke}" stroke-width="{width:g}"/>'


def _text(
    x: float, y: float, words: str, *, anchor: str = "middle", fill: str = INK, css: str = "",
    size: float = 11, bold: bool = False,
) -> str:  # fmt: skip
    css = css or ("chart-soft" if fill == SOFT else "chart-label")
    weight = ' font-weight="600"' if bold else ""
    return (
        f'<text class="{css}" x="{_n(x)}" y="{_n(y)}" text-anchor="{anchor}" font-size="{size:g}"'
        f' fill="{fill}"{weight}>{escape(words)}</text>'
    )


def _n(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")
