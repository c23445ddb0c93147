"""What a sheet of pattern work comes to, as a value that can be kept: no length in it has a unit yet.

A sum is written as parts: text stays as it is, a number is millimetres and is put in the unit of whoever
reads it.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

Part = str | float
Sum = tuple[Part, ...]
Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerLine:
    """One answer with the sum that leads to it."""

    label: str
    parts: Sum


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A table: the first cell of each row names it, the others are figures."""

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[Sum, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """`look`: "old", "new", "cloth" (an outline filled) or "level"."""

    points: tuple[Point, ...]
    look: str
    is_closed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SketchWord:
    at: Point
    parts: Sum
    anchor: str = "middle"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sketch:
    """In millimetres, y downwards. `says` describes it to whoever does not see it."""

    title: str
    says: str
    strokes: tuple[Stroke, ...]
    words: tuple[SketchWord, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetAnswer:
    """`figures`: the answers by name, millimetres or numbers, unrounded. `flags`: what asks for care."""

    figures: Mapping[str, float] = field(default_factory=dict)
    lines: tuple[AnswerLine, ...] = ()
    grids: tuple[Grid, ...] = ()
    flags: tuple[Sum, ...] = ()
    drawings: tuple[Sketch, ...] = ()


def written(parts: Iterable[Part], length: Callable[[float], str]) -> str:
    """A sum as a person would write it, each length by whoever knows their unit."""
    return "".join(part if isinstance(part, str) else length(part) for part in parts)


def number(value: float, digits: int = 2) -> str:
    """A number that is no length: 3, 2.5, 1.33."""
    return f"{value:.{digits}f}".rstrip("0").rstrip(".") if digits else f"{value:.0f}"


def share(part: float) -> str:
    return f"{number(100 * part, 1)} %"
