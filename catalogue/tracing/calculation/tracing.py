"""What a traced piece comes to at full size: widths at levels, edges, lengths, what darts and pleats take up.

Points are millimetres at full size. The readings that follow are on the page: full size ÷ the plate's scale.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, Literal

from catalogue.lengths.calculation.errors import Fault
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.geometry import LONGEST_NAME, MARK_POINTS
from catalogue.tracing.calculation.outline import Outline

MarkKind = Literal["grain", "fold", "notch", "dart", "pleat", "length"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """Something drawn within a piece. `line` is the word of the length that a "length" stands for.

    `count`: so many pleats alike lie beside each other, and one of them is drawn.
    """

    kind: MarkKind
    points: tuple[Point, ...]
    line: str = ""
    count: int = 1

    def folds(self) -> tuple[tuple[Point, Point], ...]:
        """The lines between which the cloth is folded away, in pairs: one side, the other."""
        if self.kind == "dart":
            left, tip, right, *foot = self.points
            sides = ((left, tip), (right, tip))
            return (*sides, (left, foot[0]), (right, foot[0])) if foot else sides
        return (self.points[:2], self.points[2:]) if self.kind == "pleat" else ()  # type: ignore[return-value]


@dataclass(frozen=True, slots=True, kw_only=True)
class TracedShape:
    name: str
    outline: Outline
    marks: tuple[Mark, ...] = ()

    def faults(self) -> list[Fault]:
        found = self.outline.faults(self.name)
        for number, mark in enumerate(self.marks, start=1):
            fewest, most = MARK_POINTS[mark.kind]
            if not fewest <= len(mark.points) <= most:
                wanted = str(fewest) if fewest == most else f"{fewest} to {most}"
                found.append(Fault(self.name, f"Mark {number}, a {mark.kind}, has {wanted} points."))
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
class LevelLine:
    """A straight line across one or several pieces of a plate, at one level of the body."""

    line: str
    start: Point
    end: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelWidth:
    """What a piece measures at a level; `take_up_mm` of it is folded away there."""

    line: str
    width_mm: float
    take_up_mm: float
    spans: tuple[tuple[Point, Point], ...]


def level_widths(shape: TracedShape, levels: Iterable[LevelLine]) -> list[LevelWidth]:
    """The piece at each level that crosses it. Of two lines at one level the longer hold counts."""
    found: dict[str, LevelWidth] = {}
    for level in levels:
        spans = shape.outline.spans(level.start, level.end)
        width_mm = sum(abs(b - a) for a, b in spans)
        if width_mm and (level.line not in found or width_mm > found[level.line].width_mm):
            found[level.line] = LevelWidth(
                line=level.line,
                width_mm=width_mm,
                take_up_mm=sum(_folded_away(mark, level) for mark in shape.marks),
                spans=tuple(spans),
            )
    return list(found.values())


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


def _folded_away(mark: Mark, level: LevelLine) -> float:
    folds: Sequence[tuple[Point, Point]] = mark.folds()
    return mark.count * sum(
        abs(b - a)
        for one, other in zip(folds[::2], folds[1::2], strict=True)
        if (a := _meeting(one, level)) is not None and (b := _meeting(other, level)) is not None
    )


def _meeting(line: tuple[Point, Point], level: LevelLine) -> Point | None:
    """Where a drawn line meets the level; None where it does not reach."""
    along = level.end - level.start
    start, end = (((point - level.start) * along.conjugate()).imag for point in line)
    # Half open: a level through the widest point of a dart meets its upper legs or its lower, not both.
    if (start <= 0) == (end <= 0):
        return None
    meeting = line[0] + (line[1] - line[0]) * (start / (start - end))
    return meeting if 0 <= ((meeting - level.start) / along).real <= 1 else None


def edge_name(given: Any) -> str:
    """As it is kept: no signs that a page or a database cannot hold, as half a pair of UTF-16 is one."""
    return "".join(sign for sign in str(given)[:LONGEST_NAME] if sign.isprintable()).strip()
