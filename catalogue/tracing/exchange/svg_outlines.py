"""An SVG drawing as traced pieces: one of ours with all it says, any other by its closed lines.

What our own say besides their lines (corners, edges, marks, levels) stands in `data-` attributes, so that it
comes back as it was; `showing/svg.py` writes them.
"""

import json
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.levels import LINES
from catalogue.plates.models.piece import Piece
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.following import SAME_MM, TooManyPoints, as_drawn, follow
from catalogue.tracing.calculation.geometry import (
    MARK_POINTS,
    MOST_ALIKE,
    MOST_MARKS,
    MOST_POINTS,
    has_its_points,
)
from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import LevelLine, Mark, TracedShape, edge_name
from catalogue.tracing.exchange.svg_lines import DrawnLine, read_lines
from catalogue.tracing.exchange.svg_shapes import FARTHEST_MM, SQUARE_ID, numbers
from catalogue.workroom.reader.safe_xml import Element, read_xml

LEAST_MM2 = 100.0  # a square centimetre: smaller ones are letters, holes and signs, not pieces
MOST_PIECES = 60
LONGEST_NAME = 80


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadPiece:
    """`shape` in millimetres; None where no outline of ours keeps to it, and `faults` say why.

    `facts`: columns of a piece that the file states. `note`: what it stated that no longer fits its line.
    Of a pattern of ours: `levels`, those drawn with it, how far it was `moved` clear of the others, and what
    was `kept` with it.
    """

    name: str
    shape: TracedShape | None
    facts: Mapping[str, Any]
    faults: tuple[Fault, ...]
    note: str = ""
    levels: Mapping[str, tuple[Point, ...]] = field(default_factory=dict)
    moved: Point = 0j
    kept: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadDrawing:
    """`left_out`: how many there are of each kind of thing that is neither piece, mark nor level."""

    pieces: tuple[ReadPiece, ...]
    levels: tuple[LevelLine, ...]
    left_out: Mapping[str, int]
    kept: str = ""


def read_outlines(
    text: str, *, unit: str = "", times: tuple[float, float] = (1.0, 1.0), with_handles: bool = False
) -> ReadDrawing:
    """`unit` and `times` as for `read_lines`. `with_handles`: curves stay the very curves that were drawn.

    Raises XmlRefused, Faults.
    """
    root = read_xml(text)
    read = read_lines(root, unit=unit, times=times)
    left_out = Counter(read.left_out)
    drawn = _sorted_out(read.lines, left_out)
    if not drawn.outlines:
        raise Faults([Fault("file", "There is no closed line of a piece’s size in this drawing.")])
    if len(drawn.outlines) > MOST_PIECES:
        found = len(drawn.outlines)
        raise Faults([Fault("file", f"There are {found} closed lines: send {MOST_PIECES} at most.")])
    homes = {id(line.group): line for line in reversed(drawn.outlines) if line.group}
    pieces = [
        _piece(name, line, drawn.of(homes, line), left_out, with_handles=with_handles)
        for name, line in zip(_names(drawn.outlines), drawn.outlines, strict=True)
    ]
    left_out["marks in no piece"] += sum(id(mark.group) not in homes for mark in drawn.marks)
    return ReadDrawing(
        pieces=tuple(pieces),
        levels=tuple(level for line in drawn.levels for level in _level(line, left_out)),
        left_out=dict(+left_out),
        kept=root.attributes.get("data-kept", ""),
    )


@dataclass(slots=True)
class _SortedLines:
    """Lines by what they are; `own_levels` are those of one piece."""

    outlines: list[DrawnLine] = field(default_factory=list)
    marks: list[DrawnLine] = field(default_factory=list)
    levels: list[DrawnLine] = field(default_factory=list)
    own_levels: list[DrawnLine] = field(default_factory=list)

    def of(self, homes: Mapping[int, DrawnLine], outline: DrawnLine) -> "_SortedLines":
        """The marks and levels of the piece that is drawn by an outline."""
        return _SortedLines(
            marks=[line for line in self.marks if homes.get(id(line.group)) is outline],
            own_levels=[line for line in self.own_levels if homes.get(id(line.group)) is outline],
        )


def _sorted_out(lines: Iterable[DrawnLine], left_out: Counter[str]) -> _SortedLines:
    drawn = _SortedLines()
    for line in lines:
        said = line.element.attributes
        if "data-cutting" in said or said.get("id") == SQUARE_ID:
            continue
        if "data-level" in said:
            is_own = line.group is not None and "data-piece" in line.group.attributes
            (drawn.own_levels if is_own else drawn.levels).append(line)
        elif "data-mark" in said:
            drawn.marks.append(line)
        elif not line.is_closed:
            left_out["open lines"] += 1
        elif abs(sum(side.swept_area() for side in line.sides)) < LEAST_MM2:
            left_out["shapes smaller than a square centimetre"] += 1
        else:
            drawn.outlines.append(line)
    return drawn


def _names(outlines: Sequence[DrawnLine]) -> list[str]:
    """What each is called in the file; those that stand together under one name are counted."""
    found, taken = [], Counter[tuple[int, str]]()
    for number, line in enumerate(outlines, start=1):
        group = line.group or Element(name="g", attributes={})
        said = line.element.titled() or group.attributes.get("data-piece") or group.titled()
        name = said or line.element.attributes.get("id") or group.attributes.get("id") or f"piece {number}"
        taken[id(group), name] += 1
        again = taken[id(group), name]
        found.append((name if again == 1 else f"{name[: LONGEST_NAME - 4]} {again}")[:LONGEST_NAME])
    return found


def _piece(
    name: str,
    line: DrawnLine,
    of: _SortedLines,
    left_out: Counter[str],
    *,
    with_handles: bool,
) -> ReadPiece:
    said = line.group.attributes if line.group else {}
    facts = _facts(said)
    corners, edges, note = _said_of_points(line)
    drawn = as_drawn if with_handles else follow
    try:
        nodes = _named(drawn(line.sides, corners), line, edges)
    except TooManyPoints:
        sentence = f"No {MOST_POINTS} points follow this line: simplify it first."
        return ReadPiece(name=name, shape=None, facts=facts, faults=(Fault(name, sentence),))
    read = [_mark(mark) for mark in of.marks]
    left_out["marks that are not understood"] += read.count(None)
    shape = TracedShape(name=name, outline=Outline(nodes=nodes), marks=tuple(filter(None, read)))
    faults = shape.faults()
    if len(shape.marks) > MOST_MARKS:
        faults.append(Fault(name, f"A piece has at most {MOST_MARKS} marks."))
    return ReadPiece(
        name=name,
        shape=shape,
        facts=facts,
        faults=tuple(faults),
        note=note,
        levels={edge_name(level.element.attributes["data-level"]): level.points for level in of.own_levels},
        moved=_point(said.get("data-moved", "")),
        kept=said.get("data-kept", ""),
    )


def _point(said: str) -> Point:
    given = numbers(said)
    return complex(*given) if len(given) == 2 and max(map(abs, given)) < FARTHEST_MM else 0j


def _facts(said: Mapping[str, str]) -> dict[str, Any]:
    facts: dict[str, Any] = {}
    cut = said.get("data-cut", "")
    if cut.isdecimal() and 1 <= int(cut[:3]) < 100:
        facts["cut"] = int(cut[:3])
    if said.get("data-on-fold") in {"yes", "no"}:
        facts["on_fold"] = said["data-on-fold"] == "yes"
    for column, choices in (("cloth", Piece.ClothRole), ("grain", Piece.Grain)):
        if said.get(f"data-{column}") in choices.values:
            facts[column] = said[f"data-{column}"]
    return facts


def _said_of_points(line: DrawnLine) -> tuple[set[int] | None, dict[int, str], str]:
    """Which points are corners (None: not said), what edge starts where, and whether that no longer fits."""
    said = line.element.attributes
    if "data-points" not in said:
        return None, {}, ""
    if said["data-points"] != str(len(line.sides)):
        return None, {}, "Its points were changed elsewhere: name its edges again."
    corners = {int(at) for at in said.get("data-corners", "").split() if at.isdecimal() and len(at) < 5}
    try:
        edges = json.loads(said.get("data-edges", "{}"))
        named = {int(at): edge_name(name) for at, name in edges.items() if at.isdecimal() and len(at) < 5}
    except (ValueError, AttributeError, RecursionError):
        return corners, {}, "The names of its edges could not be read."
    return corners, {at: name for at, name in named.items() if at < len(line.sides)}, ""


def _named(nodes: Sequence[Node], line: DrawnLine, edges: Mapping[int, str]) -> tuple[Node, ...]:
    """The same points with the names of the edges that start at them; points may have come between."""
    starts = [(line.sides[at].start, name) for at, name in edges.items()]
    return tuple(
        replace(node, edge=next((name for start, name in starts if abs(start - node.at) < SAME_MM), ""))
        for node in nodes
    )


def _mark(line: DrawnLine) -> Mark | None:
    said = line.element.attributes
    kind, length = said["data-mark"], said.get("data-line", "")
    if kind not in MARK_POINTS or (length and (length not in LINES or LINES[length].kind != "length")):
        return None
    points = line.points[:1] if MARK_POINTS[kind][1] == 1 else line.points
    if kind == "dart" and len(points) > 4 and abs(points[-1] - points[0]) < SAME_MM:
        points = points[:-1]  # one with two points, whose bowed legs are drawn all round
    if not has_its_points(kind, len(points)):
        return None
    count = said.get("data-count", "1")
    alike = int(count) if kind == "pleat" and count.isdecimal() and len(count) < 4 else 1
    if not 1 <= alike <= MOST_ALIKE:
        return None
    is_straight = said.get("data-straight") == "yes"
    return Mark(kind=kind, points=points, line=length, count=alike, is_straight=is_straight)  # type: ignore[arg-type]


def _level(line: DrawnLine, left_out: Counter[str]) -> list[LevelLine]:
    name, start, end = line.element.attributes["data-level"], line.points[0], line.points[-1]
    if name not in LINES or LINES[name].kind != "girth" or abs(end - start) < SAME_MM:
        left_out["level lines that are not understood"] += 1
        return []
    return [LevelLine(line=name, start=start, end=end)]
