"""What a sheet of pattern work comes to, as a value that can be kept: no length in it has a unit yet.

A sum is written as parts: text stays as it is, a number is millimetres and is put in the unit of whoever
reads it.
"""

from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, field
from typing import Any, Self

from catalogue.lengths.showing import Writing

Part = str | float
Sum = tuple[Part, ...]
Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
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
class Word:
    at: Point
    parts: Sum
    anchor: str = "middle"


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """In millimetres, y downwards. `says` describes it to whoever does not see it."""

    title: str
    says: str
    strokes: tuple[Stroke, ...]
    words: tuple[Word, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """`figures`: the answers by name, millimetres or numbers, unrounded. `flags`: what asks for care."""

    figures: Mapping[str, float] = field(default_factory=dict)
    lines: tuple[Line, ...] = ()
    grids: tuple[Grid, ...] = ()
    flags: tuple[Sum, ...] = ()
    drawings: tuple[Drawing, ...] = ()

    def to_json(self) -> dict[str, Any]:
        return asdict(self)

    @classmethod
    def from_json(cls, kept: Mapping[str, Any]) -> Self:
        return cls(
            figures=kept["figures"],
            lines=tuple(Line(label=one["label"], parts=tuple(one["parts"])) for one in kept["lines"]),
            grids=tuple(_grid(one) for one in kept["grids"]),
            flags=tuple(tuple(one) for one in kept["flags"]),
            drawings=tuple(_drawing(one) for one in kept["drawings"]),
        )


def written(parts: Iterable[Part], writing: Writing) -> str:
    """A sum as a person would write it, in their unit."""
    return "".join(part if isinstance(part, str) else writing.length(part) for part in parts)


def number(value: float, digits: int = 2) -> str:
    """A number that is no length: 3, 2.5, 1.33."""
    return f"{value:.{digits}f}".rstrip("0").rstrip(".") if digits else f"{value:.0f}"


def share(part: float) -> str:
    return f"{number(100 * part, 1)} %"


def _grid(kept: Mapping[str, Any]) -> Grid:
    rows = tuple(tuple(tuple(cell) for cell in row) for row in kept["rows"])
    return Grid(caption=kept["caption"], heads=tuple(kept["heads"]), rows=rows)


def _drawing(kept: Mapping[str, Any]) -> Drawing:
    return Drawing(
        title=kept["title"],
        says=kept["says"],
        strokes=tuple(
            Stroke(
                points=tuple((x, y) for x, y in one["points"]), look=one["look"], is_closed=one["is_closed"]
            )
            for one in kept["strokes"]
        ),
        words=tuple(
            Word(at=(one["at"][0], one["at"][1]), parts=tuple(one["parts"]), anchor=one["anchor"])
            for one in kept["words"]
        ),
    )
