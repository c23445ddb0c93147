"""A piece cut in two along a line; two pieces joined at a seam."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from shapely import LineString

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Cubic, Point, chord
from catalogue.tracing.calculation.sides import SAME_MM, Side, outline_of, straight, turned_round
from catalogue.tracing.calculation.tracing import Mark
from fitting.pattern.calculation.working.level_lines import Path
from fitting.pattern.calculation.working.parting import cut_through, stays_and_moves
from fitting.pattern.calculation.working.paths import Line, left_of, right_of
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece
from fitting.pattern.calculation.working.rounds import (
    APART_MM,
    apart,
    each_edge_once,
    followed,
    free_name,
    meeting,
    merged,
    refuse_names,
)

CUT = "cut"
REST = "edge"  # what is not the cut, on a piece that had no edge named


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A piece parted into two along a line; `names`: of the part left of it, of the part right of it."""

    piece: str
    along: Line
    names: tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """Two pieces made one called `name`; the second is laid with its edge along the first's, end to start."""

    pieces: tuple[str, str]
    edges: tuple[str, str]
    name: str


def cut(pattern: Pattern, asked: Cut) -> Pattern:
    """Raises Faults where the line does not cross the piece twice, or a name is taken."""
    piece = pattern.piece(asked.piece)
    others = [one.name for one in pattern.pieces if one.name != asked.piece]
    refuse_names(asked.names, others, "names")
    (one, _), (other, _) = cut_through(piece, asked.along, "along")
    parts = stays_and_moves(piece.sides, asked.along, one, other)
    along: Line = asked.along
    made = [
        _part(piece, name, sides, line)
        for name, sides, line in zip(asked.names, parts, (along, (along[1], along[0])), strict=True)
    ]
    # A level on the very line is the left part's: on both it would count twice in the girth.
    on_line = {
        level
        for level, path in piece.levels.items()
        if all(abs(right_of(point, along)) <= SAME_MM for point in path)
    }
    made[1] = _without(made[1], on_line)
    pieces = [part for old in pattern.pieces for part in (made if old is piece else [old])]
    return replace(pattern, pieces=tuple(pieces), seams=followed(pattern.seams, [piece], made))


def _part(piece: PatternPiece, name: str, sides: Sequence[Side], line: Line) -> PatternPiece:
    """What lies left of the line, closed along it."""
    rest = [replace(side, edge=side.edge or REST) for side in sides]
    closing = straight(rest[-1].end, rest[0].start, free_name(CUT, {side.edge for side in rest}))
    rest[0] = replace(rest[0], corner=True)
    levels = {level: left_of(path, line) for level, path in piece.levels.items()}
    part = replace(
        piece,
        name=name,
        outline=outline_of(each_edge_once([*rest, closing])),
        levels={level: path for level, path in levels.items() if len(path) > 1},
        marks=tuple(left for mark in piece.marks if (left := _mark_left_of(mark, line))),
    )
    # What a level was drawn past the outline may lie on the other side of the line.
    return _without(part, {level for level, mm in part.measures.levels.items() if mm <= SAME_MM})


def _without(piece: PatternPiece, levels: Collection[str]) -> PatternPiece:
    kept = {level: path for level, path in piece.levels.items() if level not in levels}
    return replace(piece, levels=kept)


def _mark_left_of(mark: Mark, line: Line) -> Mark | None:
    """What of a mark lies on a part; of a dart that is cut, what it still takes up there."""
    sides = {right_of(point, line) > SAME_MM for point in mark.points}
    if sides == {True}:
        return None
    if sides == {False}:
        return mark
    if mark.kind == "dart":
        return _dart_left_of(mark, line)
    if mark.kind == "pleat":
        folds = [left_of(mark.points[at : at + 2], line) for at in (0, 2)]
        points = tuple(point for fold in folds for point in fold)
        return replace(mark, points=points) if len(points) == 4 else None
    points = left_of(mark.points, line)
    return replace(mark, points=points) if len(points) > 1 else None


def _dart_left_of(mark: Mark, line: Line) -> Mark | None:
    """Cut across, a dart of three points is a dart above and two folds below; cut along, two darts."""
    if len(mark.points) != 3:
        return None
    foot, point, other = mark.points
    mouth = (foot, other)
    ring = left_of((foot, point, other, foot), line)
    found = [at for index, at in enumerate(ring) if abs(at - ring[index - 1]) > SAME_MM]
    keeps_point = any(abs(at - point) <= SAME_MM for at in found)
    if len(found) == 3:
        top = point if keeps_point else max(found, key=lambda at: abs(right_of(at, mouth)))
        feet = [at for at in found if abs(at - top) > SAME_MM]
        return replace(mark, points=(feet[0], top, feet[1]))
    if len(found) == 4 and not keeps_point:
        legs = [sorted(_on_leg(found, (at, point)), key=lambda at: abs(right_of(at, mouth))) for at in mouth]
        return Mark(kind="pleat", points=(*legs[0], *legs[1]))
    return None


def _on_leg(points: Sequence[Point], leg: Line) -> list[Point]:
    """The two points that lie on it, or nearest to it."""
    return sorted(points, key=lambda at: abs(right_of(at, leg)))[:2]


def join(pattern: Pattern, asked: Join) -> Pattern:
    """Raises Faults where the edges are more than half a millimetre apart, in length or in shape."""
    if asked.pieces[0] == asked.pieces[1]:
        raise Faults([Fault("pieces", "A piece is joined to another one: name two.")])
    first, second = (pattern.piece(name, "pieces") for name in asked.pieces)
    others = [one.name for one in pattern.pieces if one.name not in asked.pieces]
    refuse_names([asked.name], others, "name")
    for name, edge in zip(asked.pieces, asked.edges, strict=True):
        pattern.edge(name, edge, "edges")
    if first.outline.turns != second.outline.turns:
        second = replace(second, outline=outline_of(turned_round(second.sides)))
    second = _laid_along(first, second, asked.edges)
    rests = [
        apart(piece.sides, [edge], "edges")[1]
        for piece, edge in zip((first, second), asked.edges, strict=True)
    ]
    sides = _joined(*rests)
    made = replace(
        first,
        name=asked.name,
        outline=outline_of(each_edge_once(sides)),
        levels=_levels_joined(first, second),
        marks=(*first.marks, *(mark for mark in second.marks if mark.kind != "grain")),
    )
    kept = tuple(piece for piece in pattern.pieces if piece.name not in asked.pieces)
    seams = [
        seam for seam in pattern.seams if {*seam.pieces} != {*asked.pieces} or {*seam.edges} != {*asked.edges}
    ]
    return replace(pattern, pieces=(*kept, made), seams=followed(seams, [first, second], [made]))


def _laid_along(first: PatternPiece, second: PatternPiece, edges: tuple[str, str]) -> PatternPiece:
    here, there = first.edges[edges[0]], second.edges[edges[1]]
    off = abs(here.length - there.length)
    if off > APART_MM:
        sentence = (
            f"The edges differ by {off:.1f} mm in length: true them first, to within half a millimetre."
        )
        raise Faults([Fault("edges", sentence)])
    turn = chord(here.end, here.start) / (chord(there.start, there.end) or 1)
    middle, their_middle = (here.start + here.end) / 2, (there.start + there.end) / 2
    laid = second.moved(lambda point: middle + (point - their_middle) * turn)
    far = max(
        abs(one - other)
        for one, other in zip(
            _evenly(first.edges[edges[0]].sides), reversed(_evenly(laid.edges[edges[1]].sides)), strict=True
        )
    )
    if far > APART_MM:
        sentence = f"The edges lie up to {far:.1f} mm apart when one is laid on the other: true them first."
        raise Faults([Fault("edges", sentence)])
    return laid


def _evenly(sides: Sequence[Cubic], count: int = 64) -> list[Point]:
    flat = [sides[0].start, *(point for side in sides for point in side.flattened(24))]
    line = LineString([(point.real, point.imag) for point in flat])
    places = (line.interpolate(number / count, normalized=True) for number in range(count + 1))
    return [complex(place.x, place.y) for place in places]


def _joined(mine: list[Side], theirs: list[Side]) -> list[Side]:
    """One round of two; the second's ends are laid on the first's points, at most half a millimetre off."""
    if not mine or not theirs:
        raise Faults([Fault("edges", "A piece with a single edge cannot be joined along it.")])
    theirs = [replace(side, is_first=False) for side in theirs]
    theirs[0] = replace(theirs[0], corner=True, cubic=replace(theirs[0].cubic, start=mine[-1].end))
    theirs[-1] = replace(theirs[-1], cubic=replace(theirs[-1].cubic, end=mine[0].start))
    mine[0] = replace(mine[0], corner=True)
    return merged([*mine, *theirs])


def _levels_joined(first: PatternPiece, second: PatternPiece) -> dict[str, Path]:
    """Levels of one name that meet at the seam are one line; else the first's stands."""
    levels = dict(second.levels) | dict(first.levels)
    for name in set(first.levels) & set(second.levels):
        levels[name] = meeting(first.levels[name], second.levels[name])
    return levels
