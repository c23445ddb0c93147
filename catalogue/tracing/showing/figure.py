"""A drawing as a figure for a page: its pieces numbered, its levels lettered, and a bar of a round length."""

import math
import string
from dataclasses import dataclass, replace

from catalogue.lengths.calculation.levels import LINES
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.loading.drawing import Drawing

FOOT = 0.09  # of the width: room for the bar below the pieces
SIDE = 0.17  # and for the names of levels, where they begin at the left of the drawing
LETTER, LINE = 1.2, 4.0  # how wide and high a letter is, in percent of a figure as wide as a page
BARS = {"in": (25.4, "in", (1, 2, 4, 6, 12, 24, 48, 96)), "cm": (10.0, "cm", (2, 5, 10, 20, 50, 100, 200))}


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
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

    drawing: Drawing
    left: float
    top: float
    width: float
    height: float
    names: tuple[Word, ...]
    levels: tuple[Word, ...]
    bar: tuple[Point, Point]
    bar_name: Word

    @property
    def lines(self) -> tuple[str, ...]:
        """The keys of the levels, in the order of their signs."""
        return tuple(_level_starts(self.drawing))

    @property
    def box(self) -> str:
        return f"{self.left:.3f} {self.top:.3f} {self.width:.3f} {self.height:.3f}"

    @property
    def line_mm(self) -> float:
        """A line that is seen when the whole figure is as wide as a page."""
        return self.width / 600


def figure_of(drawing: Drawing, system: str) -> Figure:
    """`system`: "in" or "cm", in which the bar is a round length."""
    starts = _level_starts(drawing)
    nearest = min((at.real for at in starts.values()), default=math.inf)
    side = max(0.0, SIDE - (nearest - drawing.left) / drawing.width)
    width = max(drawing.width * (1 + side), drawing.height / (1 - FOOT))
    height = drawing.height + FOOT * width
    left, top = drawing.left - max(side * drawing.width, (width - drawing.width) / 2), drawing.top

    def word(sign: str, name: str, at: Point) -> Word:
        across, down = 100 * (at.real - left) / width, 100 * (at.imag - top) / height
        return Word(sign=sign, name=name, at=at, across=across, down=down)

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
            word(sign, LINES[line].label, at)
            for sign, (line, at) in zip(string.ascii_lowercase, starts.items(), strict=False)
        ),
        bar=(start, end),
        bar_name=word("", f"{count} {unit}", end + 0.012 * width),
    )


def _apart(words: list[Word]) -> tuple[Word, ...]:
    """The same words; where two names would run into each other both keep to their signs."""

    def meet(one: Word, other: Word) -> bool:
        letters = len(one.name) + len(other.name) + 4
        near = abs(one.across - other.across) < letters / 2 * LETTER
        return one is not other and near and abs(one.down - other.down) < LINE

    return tuple(replace(one, has_room=not any(meet(one, other) for other in words)) for one in words)


def _level_starts(drawing: Drawing) -> dict[str, Point]:
    """The leftmost point of each level, in the order of the body."""
    starts: dict[str, Point] = {}
    for width in (width for piece in drawing.pieces for width in piece.widths):
        leftmost = min((point for span in width.spans for point in span), key=lambda point: point.real)
        if width.line not in starts or leftmost.real < starts[width.line].real:
            starts[width.line] = leftmost
    return {line: starts[line] for line in LINES if line in starts}
