"""A drawing as a figure for a page: its pieces numbered, its levels lettered, and a bar of a round length."""

import math
import string
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import chain

from django.utils.safestring import SafeString

from catalogue.drawing.calculation import kept_apart_in_columns
from catalogue.drawing.showing import Colour, drawing, element, line, text, track
from catalogue.lengths.calculation.levels import LINES
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.tracing import Mark
from catalogue.tracing.loading.drawing import PieceTracing, PlateTracing, path_of
from catalogue.tracing.showing.svg import mark_path

FOOT = 0.09  # of the width: room for the bar below the pieces
SIDE = 0.17  # and for the names of levels, where they begin at the left of the drawing
LETTER, LINE = 1.2, 4.0  # how wide and high a letter is, in percent of a figure as wide as a page
PAPER_LETTER_MM = 2.7
FOLD = (12, 3, 2, 3)  # dash and dot, in widths of a line
BARS = {"in": (25.4, "in", (1, 2, 4, 6, 12, 24, 48, 96)), "cm": (10.0, "cm", (2, 5, 10, 20, 50, 100, 200))}


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureWord:
    """Something written at a place: `at` in millimetres, `across` and `down` in percent of the figure.

    `has_room`: whether its name can stand there too, not only its sign.
    """

    sign: str
    name: str
    at: Point
    across: float
    down: float
    has_room: bool = True

    @property
    def anchor(self) -> str:
        """Which part of it stands at its place, so that all of it is within the figure."""
        return "start" if self.across < 12 else "end" if self.across > 88 else "middle"


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """`left` to `height`: the box of the figure in millimetres, never higher than it is wide."""

    drawing: PlateTracing
    left: float
    top: float
    width: float
    height: float
    names: tuple[FigureWord, ...]
    levels: tuple[FigureWord, ...]
    bar: tuple[Point, Point]
    bar_name: FigureWord

    @property
    def lines(self) -> tuple[str, ...]:
        """The keys of the levels, in the order of their signs."""
        return tuple(_level_starts(self.drawing))

    @property
    def says(self) -> str:
        levels = f"levels {_listed(self.levels)}; " if self.levels else ""
        return f"{_listed(self.names)}; {levels}the bar is {self.bar_name.name} at full size."

    @property
    def line_mm(self) -> float:
        """A line that is seen when the whole figure is as wide as a page."""
        return self.width / 600


def figure_of(drawing: PlateTracing, system: str) -> Figure:
    """`system`: "in" or "cm", in which the bar is a round length."""
    starts = _level_starts(drawing)
    nearest = min((at.real for at in starts.values()), default=math.inf)
    side = max(0.0, SIDE - (nearest - drawing.left) / drawing.width)
    width = max(drawing.width * (1 + side), drawing.height / (1 - FOOT))
    height = drawing.height + FOOT * width
    left, top = drawing.left - max(side * drawing.width, (width - drawing.width) / 2), drawing.top

    def word(sign: str, name: str, at: Point) -> FigureWord:
        across, down = 100 * (at.real - left) / width, 100 * (at.imag - top) / height
        return FigureWord(sign=sign, name=name, at=at, across=across, down=down)

    mm, unit, counts = BARS[system]
    count = max((count for count in counts if count * mm <= width / 3), default=counts[0])
    start = complex(left + 0.02 * width, top + height - 0.03 * width)
    end = start + count * mm
    return Figure(
        drawing=drawing,
        left=left,
        top=top,
        width=width,
        height=height,
        names=_apart(
            [
                word(str(number), piece.piece.name, piece.middle)
                for number, piece in enumerate(drawing.pieces, start=1)
            ]
        ),
        levels=tuple(
            word(sign, LINES[level].label, at)
            for sign, (level, at) in zip(string.ascii_lowercase, _beside(starts, width).items(), strict=False)
        ),
        bar=(start, end),
        bar_name=word("", f"{count} {unit}", end + 0.012 * width),
    )


def _apart(words: list[FigureWord]) -> tuple[FigureWord, ...]:
    """The same words; where two names would run into each other both keep to their signs."""

    def meet(one: FigureWord, other: FigureWord) -> bool:
        letters = len(one.name) + len(other.name) + 4
        near = abs(one.across - other.across) < letters / 2 * LETTER
        return one is not other and near and abs(one.down - other.down) < LINE

    return tuple(replace(one, has_room=not any(meet(one, other) for other in words)) for one in words)


def _beside(starts: dict[str, Point], width: float) -> dict[str, Point]:
    """Where the names of levels stand: at their starts, or so near that they do not run into each other."""
    letter = LETTER / 100 * width
    spans = [(at.real - letter * (len(LINES[level].label) + 3), at.real) for level, at in starts.items()]
    sizes = [LINE / 100 * width] * len(starts)
    heights = kept_apart_in_columns(spans, [at.imag for at in starts.values()], sizes)
    return {level: complex(starts[level].real, y) for level, y in zip(starts, heights, strict=True)}


def _level_starts(drawing: PlateTracing) -> dict[str, Point]:
    """The leftmost point of each level, in the order of the body."""
    starts: dict[str, Point] = {}
    for width in (width for piece in drawing.pieces for width in piece.widths):
        leftmost = min((point for span in width.spans for point in span), key=lambda point: point.real)
        if width.line not in starts or leftmost.real < starts[width.line].real:
            starts[width.line] = leftmost
    return {level: starts[level] for level in LINES if level in starts}


def draw_for_page(figure: Figure, *, name: str, title: str, where: str) -> SafeString:
    """The figure as wide as there is room, and over it its words in letters of one size.

    `where` its measures are, in words.
    """
    says = f"{figure.says} Their measures are {where}."
    return _drawn(figure, name=name, title=title, says=says) + _words_over(figure)


def _words_over(figure: Figure) -> SafeString:
    """Where they stand is told in percent, so that they keep their size however small the figure is."""

    def over(word: FigureWord, css: str, **more: str) -> SafeString:
        at = {"x": f"{word.across:.2f}%", "y": f"{word.down:.2f}%"}
        name = [element("tspan", f" {word.name}", css="outline-more")] if word.sign and word.has_room else []
        return element("text", word.sign or word.name, *name, css=css, **at, **more)

    return element(
        "svg",
        *(over(level, "outline-level-word", dx="-4") for level in figure.levels),
        *(over(name, "outline-name", text_anchor=name.anchor) for name in figure.names),
        over(figure.bar_name, "outline-bar-word"),
        css="outlines-words",
        aria_hidden="true",
        focusable="false",
    )


def draw_on_paper(figure: Figure, *, scale: int, name: str, title: str) -> SafeString:
    """The figure with its words in it, drawn 1:`scale`."""
    size = PAPER_LETTER_MM * scale

    def words(word: FigureWord, **more: str | float) -> SafeString:
        said = f"{word.sign} {word.name}" if word.sign and word.has_room else word.sign or word.name
        return text(word.at.real, word.at.imag, said, size=size, **more)

    inside = (
        *(words(level, anchor="end", dx=-4) for level in figure.levels),
        *(words(name, anchor=name.anchor, font_weight=600) for name in figure.names),
        words(figure.bar_name, anchor="start", dy=figure.line_mm),
    )
    on_paper = {"width": f"{figure.width / scale:.3f}mm", "height": f"{figure.height / scale:.3f}mm"}
    return _drawn(figure, *inside, name=name, title=title, says=figure.says, **on_paper)


def _drawn(figure: Figure, *words: str, name: str, **more: str) -> SafeString:
    """Classes let a page draw some lines as wide as it is shown, whatever its scale."""
    pieces = (_piece(piece, figure.line_mm, f"url(#{name}-arrow)") for piece in figure.drawing.pieces)
    start, end = figure.bar
    bar = track("M", start.real, start.imag, "H", end.real)
    return drawing(
        arrow_head(f"{name}-arrow"),
        *chain.from_iterable(pieces),
        line(bar, Colour.INK, 3 * figure.line_mm, css="outline-bar"),
        *words,
        name=name,
        css="traced",
        box=(figure.left, figure.top, figure.width, figure.height),
        **more,
    )


def _piece(piece: PieceTracing, width: float, arrow: str) -> Iterator[SafeString]:
    d = path_of(piece.shape.outline)
    yield element("path", css="outline-shape", d=d, fill=Colour.CARD, stroke=Colour.INK, stroke_width=width)
    for start, end in (span for each in piece.widths for span in each.spans):
        across = track("M", start.real, start.imag, "L", end.real, end.imag)
        yield line(across, Colour.PIN_RED, width, css="outline-level")
    yield from drawn_marks(piece.shape.marks, width, arrow)


def drawn_marks(marks: Iterable[Mark], width: float, arrow: str) -> Iterator[SafeString]:
    """`width` of a line; `arrow`: where the marker of the grain's ends is defined."""
    for mark in marks:
        is_grain = mark.kind == "grain"
        yield line(
            mark_path(mark),
            Colour.CHALK_BLUE if is_grain else Colour.PIN_VIOLET,
            width,
            css=f"outline-{mark.kind}",
            stroke_dasharray=track(*(part * width for part in FOLD)) if mark.kind == "fold" else None,
            marker_start=arrow if is_grain else None,
            marker_end=arrow if is_grain else None,
        )


def arrow_head(name: str) -> SafeString:
    """The marker of the grain's ends, by its id."""
    head = element("path", d="M0 0L6 3L0 6z", fill=Colour.CHALK_BLUE)
    look = {"viewBox": "0 0 6 6", "refX": 5, "refY": 3, "markerWidth": 7, "markerHeight": 7}
    return element("defs", element("marker", head, id=name, orient="auto-start-reverse", **look))


def _listed(words: Iterable[FigureWord]) -> str:
    return ", ".join(f"{word.sign} {word.name}" for word in words)
