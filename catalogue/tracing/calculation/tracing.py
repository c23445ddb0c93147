"""What a traced piece comes to at full size: widths at levels, edges, lengths, what darts and pleats take up.

Points are millimetres at full size. The readings that follow are on the page: full size ÷ the plate's scale.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Any, Literal

from catalogue.lengths.calculation.errors import Fault
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.folds import Fold, Line, Span, folds_of, lines_of, slits_in
from catalogue.tracing.calculation.geometry import LONGEST_NAME, has_its_points, points_wanted
from catalogue.tracing.calculation.outline import Outline

MarkKind = Literal["grain", "fold", "notch", "dart", "pleat", "length"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """Something drawn within a piece. `line` is the word of the length that a "length" stands for.

    `count`: so many pleats alike lie beside each other, and one of them is drawn. `is_straight`: the legs of
    a dart run straight from point to point, where a pattern was parted across them; else they bow.
    """

    kind: MarkKind
    points: tuple[Point, ...]
    line: str = ""
    count: int = 1
    is_straight: bool = False

    @property
    def lines(self) -> tuple[Line, ...]:
        """What is drawn of it."""
        return lines_of(self.kind, self.points, is_straight=self.is_straight)

    @property
    def is_bowed(self) -> bool:
        return self.kind == "dart" and len(self.points) > 4 and not self.is_straight


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelLine:
    """A straight line across one or several pieces of a plate, at one level of the body."""

    line: str
    start: Point
    end: Point


@dataclass(frozen=True, kw_only=True)
class TracedShape:
    name: str
    outline: Outline
    marks: tuple[Mark, ...] = ()

    @cached_property
    def slits(self) -> list[Fold]:
        """Darts that the outline runs in to and back out of."""
        return slits_in(self.outline)

    def faults(self) -> list[Fault]:
        found = self.outline.faults(self.name)
        for number, mark in enumerate(self.marks, start=1):
            if not has_its_points(mark.kind, len(mark.points)):
                wanted = points_wanted(mark.kind, "point")
                found.append(Fault(self.name, f"Mark {number}, a {mark.kind}, has {wanted}."))
        return found

    def lengths_mm(self) -> dict[str, float]:
        """The lengths drawn on it, by their word."""
        return {
            mark.line: sum(abs(b - a) for a, b in pairwise(mark.points))
            for mark in self.marks
            if mark.kind == "length" and mark.line
        }

    def edges_mm(self) -> dict[str, float]:
        """Its named edges; those that bear one name are taken together."""
        found: dict[str, float] = {}
        for edge in self.outline.edges():
            if edge.name:
                found[edge.name] = found.get(edge.name, 0.0) + edge.length
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelWidth:
    """What a piece measures at a level; `take_up_mm` of it is folded away there.

    `spans` are the parts of the level that lie within the piece. `gaps`, between them, are neither cloth nor
    what a dart takes up.
    """

    line: str
    level: LevelLine
    width_mm: float
    take_up_mm: float
    spans: tuple[Span, ...]
    gaps: tuple[Span, ...] = ()

    @property
    def is_over_slits(self) -> bool:
        """Whether darts that are slits part it."""
        return len(self.spans) - len(self.gaps) > 1


def level_widths(shape: TracedShape, levels: Iterable[LevelLine]) -> list[LevelWidth]:
    """The piece at each level that crosses it. Of two lines at one level the longer hold counts."""
    found: dict[str, LevelWidth] = {}
    for level in levels:
        width = width_at(shape, level)
        if width.width_mm and (level.line not in found or width.width_mm > found[level.line].width_mm):
            found[level.line] = width
    return list(found.values())


def width_at(shape: TracedShape, level: LevelLine) -> LevelWidth:
    """A dart that is a slit takes up the gap between its legs: the cloth is measured across it."""
    spans = shape.outline.spans(level.start, level.end)
    gaps = [(one[1], other[0]) for one, other in pairwise(spans)]
    held = [place for slit in shape.slits if (place := slit.span(level.start, level.end))]
    slit_gaps = [gap for gap in gaps if any(_is_same(gap, place) for place in held)]
    folded = [
        (mark.count, place)
        for mark in shape.marks
        for fold in folds_of(mark.kind, mark.points, is_straight=mark.is_straight)
        if (place := fold.span(level.start, level.end))
    ]
    by_marks = sum(
        # A dart that is drawn over a slit is one dart.
        count * _long(place)
        for count, place in folded
        if not any(_is_same(place, gap, within=_long(gap) / 2) for gap in slit_gaps)
    )
    by_slits = sum(map(_long, slit_gaps))
    return LevelWidth(
        line=level.line,
        level=level,
        width_mm=sum(map(_long, spans)) + by_slits,
        take_up_mm=by_marks + by_slits,
        spans=tuple(spans),
        gaps=tuple(gap for gap in gaps if gap not in slit_gaps),
    )


def _long(span: Span) -> float:
    return abs(span[1] - span[0])


def _is_same(one: Span, other: Span, within: float = 0.01) -> bool:
    """Whether two spans of one line have the same ends, whichever is said first; to so many millimetres."""
    straight = max(abs(one[0] - other[0]), abs(one[1] - other[1]))
    turned = max(abs(one[0] - other[1]), abs(one[1] - other[0]))
    return min(straight, turned) <= within


def level_faults(shape: TracedShape, levels: Iterable[LevelLine]) -> list[Fault]:
    """Level lines that end within the piece: its width there would be cut short."""
    return [
        Fault(shape.name, f"The {level.line} line ends within this piece: draw it out past both sides.")
        for level in levels
        if any(shape.outline.contains(end) for end in (level.start, level.end))
    ]


def click_doubt_mm(mm_per_px: float, click_px: float) -> float:
    """The standard uncertainty of a distance between two clicks, each off by `click_px`."""
    return math.sqrt(2) * click_px * mm_per_px


def edge_name(given: Any) -> str:
    """As it is kept: no signs that a page or a database cannot hold, as half a pair of UTF-16 is one."""
    return "".join(sign for sign in str(given)[:LONGEST_NAME] if sign.isprintable()).strip()
