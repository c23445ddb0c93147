"""Marks of a piece and levels of its plate as rows to type in: places in the person's unit, at full size."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from catalogue.lengths.calculation.levels import LINES
from catalogue.tracing.calculation.geometry import (
    MARK_POINTS,
    MOST_ALIKE,
    MOST_MARKS,
    has_its_points,
    points_wanted,
)
from catalogue.tracing.calculation.tracing import LevelLine, Mark
from catalogue.tracing.forms.outline import typed_place

# What each point of a mark is called where it is asked for; lengths just count theirs.
POINT_WORDS = {
    "grain": ("one end", "other end"),
    "fold": ("one end", "other end"),
    "notch": ("its place",),
    "dart": ("one foot", "its point", "the other foot", "its second point"),
    "dart 5": ("one foot", "on that leg", "its point", "on the other leg", "the other foot"),
    "dart 8": (
        "one side",
        "on the way to its point",
        "its point",
        "on the way to the other side",
        "the other side",
        "on the way to its second point",
        "its second point",
        "on the way back",
    ),
    "pleat": ("a fold line, one end", "its other end", "the other fold line, one end", "its other end"),
    "level": ("one end", "other end"),
}
KINDS = {**MARK_POINTS, "level": (2, 2)}
# The tools of the tracing page: what each draws, and with how many presses.
TOOLS = {
    **{
        kind: {"kind": kind, "fewest": fewest, "most": most}
        for kind, (fewest, most) in KINDS.items()
        if kind != "dart"
    },
    "dart": {"kind": "dart", "fewest": 3, "most": 3},
    "dart with two points": {"kind": "dart", "fewest": 4, "most": 4},
    "bowed dart": {"kind": "dart", "fewest": 5, "most": 5},
    "bowed dart with two points": {"kind": "dart", "fewest": 8, "most": 8},
}
FEWEST_PLACES, EMPTY_ROWS = 8, 4


@dataclass(slots=True)
class MarkRow:
    kind: str = ""
    line: str = ""
    count: str = "1"
    places: list[tuple[str, str]] = field(default_factory=list)
    fault: str = ""
    points: list[list[float]] = field(default_factory=list)


class MarkRows:
    """`rows` to show; once valid `marks()` and `levels()`. A row without a kind and places is left out."""

    def __init__(
        self,
        data: Mapping[str, Any] | None,
        *,
        marks: Sequence[Mark],
        levels: Sequence[LevelLine],
        unit: Mapping[str, Any],
    ) -> None:
        self.unit_mm = unit["mm"]
        # A page that does not show them leaves them as they are.
        if data is None or "marks" not in data:
            held = [self._held(mark.kind, mark.line, mark.count, mark.points) for mark in marks]
            held += [self._held("level", level.line, 1, (level.start, level.end)) for level in levels]
            self.rows = held + [MarkRow() for _ in range(EMPTY_ROWS)]
        else:
            self.rows = [self._typed(data, number) for number in range(_whole(data["marks"], MOST_MARKS))]
        self.width = max([FEWEST_PLACES, *(len(row.places) for row in self.rows)])
        for row in self.rows:
            row.places += [("", "")] * (self.width - len(row.places))

    def _held(self, kind: str, line: str, count: int, points: Sequence[complex]) -> MarkRow:
        places = [(f"{at.real / self.unit_mm:.4f}", f"{at.imag / self.unit_mm:.4f}") for at in points]
        exact = [[at.real, at.imag] for at in points]
        return MarkRow(kind=kind, line=line, count=str(count), places=places, points=exact)

    def _typed(self, data: Mapping[str, Any], number: int) -> MarkRow:
        most = max(most for _, most in KINDS.values())
        boxes = [(f"mark-x-{number}-{at}", f"mark-y-{number}-{at}") for at in range(most)]
        places = [(data.get(x, "").strip(), data.get(y, "").strip()) for x, y in boxes if x in data]
        row = MarkRow(
            kind=data.get(f"kind-{number}", ""),
            line=data.get(f"of-{number}", ""),
            count=data.get(f"alike-{number}", "").strip() or "1",
            places=places,
        )
        if f"mark-leave-{number}" in data or not (row.kind or any(map(any, places))):
            return MarkRow()
        try:
            row.points = [typed_place(x, y, self.unit_mm) for x, y in places if x or y]
        except ValueError:
            row.fault = "Type both numbers of each place, as 12.25."
        row.fault = row.fault or _fault(row)
        return row

    def is_valid(self) -> bool:
        return not any(row.fault for row in self.rows)

    def marks(self) -> list[dict[str, Any]]:
        return [
            {"kind": row.kind, "line": row.line, "count": int(row.count), "points": row.points}
            for row in self.rows
            if row.points and row.kind != "level"
        ]

    def levels(self) -> list[dict[str, Any]]:
        return [
            {"line": row.line, "points": row.points}
            for row in self.rows
            if row.points and row.kind == "level"
        ]


def _fault(row: MarkRow) -> str:
    """What is wrong with it, as a sentence; an empty one where nothing is."""
    if row.kind not in KINDS:
        return "Choose what this is."
    if row.kind == "level":
        if len(row.points) != 2:
            return "A level has 2 places."
    elif not has_its_points(row.kind, len(row.points)):
        return f"A {row.kind} has {points_wanted(row.kind, 'place')}."
    wanted_line = {"level": "girth", "length": "length"}.get(row.kind)
    if wanted_line and (row.line not in LINES or LINES[row.line].kind != wanted_line):
        return f"Choose which {row.kind} this is."
    if not wanted_line:
        row.line = ""
    if row.kind == "level" and row.points[0] == row.points[1]:
        return "Both ends of this level are the same place."
    if not 1 <= _whole(row.count, 10**6) <= (MOST_ALIKE if row.kind == "pleat" else 1):
        return f"Type how many pleats alike: 1 to {MOST_ALIKE}; anything else there is only once."
    return ""


def _whole(typed: Any, most: int) -> int:
    """A whole number as typed, no more than `most`; 0 where it is none."""
    digits = str(typed)
    return min(int(digits[:20]), most) if digits.isascii() and digits.isdecimal() else 0
