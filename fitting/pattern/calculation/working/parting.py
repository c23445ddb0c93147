"""A piece parted at a line: lengthened, spread, lapped, or turned on one end of a cut.

Seen from the first point of the line to its second, what lies on the left stays and what lies on the right
moves. Opened, the two parts are joined by straight sides that belong to the edge that they part. Lapped, the
moved part lies on top, and of the other what is under it is gone.
"""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.outline import crossings
from catalogue.tracing.calculation.sides import (
    SAME_MM,
    Place,
    Side,
    outline_of,
    run_of,
    straight,
    with_points,
)
from catalogue.tracing.calculation.tracing import Mark
from fitting.pattern.calculation.working.level_lines import ON_OUTLINE_MM
from fitting.pattern.calculation.working.paths import (
    Line,
    Move,
    mark_parted,
    path_parted,
    right_of,
)
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece

_ON_CUT_MM = 1.0  # how far beside the cut a bust point may be marked


@dataclass(frozen=True, slots=True, kw_only=True)
class Lengthen:
    """Pieces parted at a line, at right angles to it. Less than nothing laps them."""

    pieces: tuple[str, ...]
    line: Line
    by_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """One piece, in the same way: slashed and spread, or lapped."""

    piece: str
    cut: Line
    by_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """A piece cut from its outline to a hinge on it, and opened; `by_mm` is the chord at the opening."""

    piece: str
    cut: Line
    by_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FullBust:
    """Cloth given over the bust: a cut from an edge over the bust point to a hinge, opened.

    `by_mm` is what is opened at the bust point; what opens below it is a dart that ends there.
    """

    piece: str
    cut: Line
    point: Point
    by_mm: float


def lengthen(pattern: Pattern, asked: Lengthen, where: str = "line") -> Pattern:
    """Raises Faults where the line does not cross a piece twice, or takes up all of what stays."""
    start, end = asked.line
    if abs(end - start) <= SAME_MM:
        raise Faults([Fault(where, "A line needs two points that lie apart.")])
    by = chord(start, end) * 1j * asked.by_mm
    return pattern.with_pieces(
        _parted(pattern.piece(name), asked.line, lambda point: point + by, asked.by_mm, where)
        for name in asked.pieces
    )


def spread(pattern: Pattern, asked: Spread, where: str = "cut") -> Pattern:
    return lengthen(pattern, Lengthen(pieces=(asked.piece,), line=asked.cut, by_mm=asked.by_mm), where)


def turn(pattern: Pattern, asked: Turn) -> Pattern:
    """Raises Faults where an end of the cut is not on the outline, or the opening is too wide for it."""
    piece = pattern.piece(asked.piece)
    opening, hinge = (at for _, at in cut_through(piece, asked.cut, "cut", ends=True))
    reach = abs(opening - hinge)
    if abs(asked.by_mm) >= math.sqrt(2) * reach:
        sentence = "A cut is opened by less than a right angle: say less, or begin the cut farther away."
        raise Faults([Fault("by", sentence)])
    turned = cmath.exp(-2j * math.asin(asked.by_mm / (2 * reach)))
    return pattern.with_pieces(
        [
            _parted(
                piece,
                (opening, hinge),
                lambda point: hinge + (point - hinge) * turned,
                asked.by_mm,
                "cut",
                hinge=hinge,
            )
        ]
    )


def full_bust(pattern: Pattern, asked: FullBust) -> Pattern:
    """Raises Faults as `turn` does, and where the bust point is not on the cut."""
    opening, hinge = asked.cut
    share = ((asked.point - hinge) / (opening - hinge)).real if opening != hinge else 0.0
    if abs(right_of(asked.point, asked.cut)) > _ON_CUT_MM or not 0 < share < 1:
        sentence = "The bust point lies on the cut, between its two ends: draw the cut over it."
        raise Faults([Fault("point", sentence)])
    if asked.by_mm <= 0:
        raise Faults([Fault("by", "A full bust is given more than nothing.")])
    opened = turn(pattern, Turn(piece=asked.piece, cut=asked.cut, by_mm=asked.by_mm / share))
    piece = opened.piece(asked.piece)
    angle = 2 * math.asin(asked.by_mm / share / (2 * abs(opening - hinge)))
    other = hinge + (opening - hinge) * cmath.exp(-1j * angle)
    top = hinge + (opening - hinge) * share * cmath.exp(-0.5j * angle)
    made = Mark(kind="dart", points=(opening, top, other))
    return opened.with_pieces([replace(piece, marks=(*piece.marks, made))])


def cut_through(
    piece: PatternPiece, line: Line, where: str, *, ends: bool = False
) -> list[tuple[Place, Point]]:
    """The two places where a line, drawn on, crosses the outline, from its first point to its second.

    With `ends` both points of the line lie on the outline. Raises Faults where they do not, or where it
    crosses less or more than twice.
    """
    start, end = line
    if abs(end - start) <= SAME_MM:
        raise Faults([Fault(where, "A line needs two points that lie apart.")])
    sides = piece.outline.sides
    places = [(place, sides[place[0]].at(place[1])) for place in piece.outline.crossings(start, end)]
    if len(places) != 2 or not _has_both_sides(piece, line):
        times = f"{len(places)} times" if len(places) not in (0, 2) else "nowhere"
        sentence = f"The line crosses {piece.name} {times}: draw it where it crosses the outline twice."
        raise Faults([Fault(where, sentence)])
    places.sort(key=lambda place: ((place[1] - start) / (end - start)).real)
    for (_, at), given, which in zip(places, line, ("first", "second"), strict=True):
        if ends and abs(at - given) > ON_OUTLINE_MM:
            sentence = f"The {which} point is not on the outline of {piece.name}, nor within 0.1 mm of it."
            raise Faults([Fault(where, sentence)])
    return places


def _has_both_sides(piece: PatternPiece, line: Line) -> bool:
    """Whether some of the piece lies on either side: a line along one of its own sides parts nothing."""
    reach = [right_of(side.at(quarter / 4), line) for side in piece.outline.sides for quarter in range(4)]
    return min(reach) < -SAME_MM and max(reach) > SAME_MM


def chains(sides: Sequence[Side], one: Place, other: Place) -> tuple[list[Side], list[Side]]:
    """A closed round of sides in two: from the one place to the other, and back."""
    parted, (here, there) = with_points(sides, (one, other))
    return run_of(parted, here, there), run_of(parted, there, here)


def stays_and_moves(
    sides: Sequence[Side], line: Line, one: Place, other: Place
) -> tuple[list[Side], list[Side]]:
    """The two chains that a line cuts a round of sides into: that on its left, that on its right."""
    first, second = chains(sides, one, other)
    return (first, second) if _lies_right(second, line) >= _lies_right(first, line) else (second, first)


def _lies_right(chain: Sequence[Side], line: Line) -> float:
    reach = [right_of(side.cubic.at(quarter / 4), line) for side in chain for quarter in range(5)]
    return max(reach, key=abs, default=0.0)


def _parted(
    piece: PatternPiece, line: Line, move: Move, by_mm: float, where: str, hinge: Point | None = None
) -> PatternPiece:
    (one, _), (other, _) = cut_through(piece, line, where)
    if abs(by_mm) <= SAME_MM:
        return piece
    stays, moves = stays_and_moves(piece.sides, line, one, other)
    opens_at, closes_at = stays[-1].end, stays[0].start
    over = None if by_mm > 0 else (move(line[0]), move(line[1]))
    if over:
        stays = _uncovered(stays, over, hinge, where)
    moved = [side.moved(move) for side in moves]
    joined = [
        *_turning_at_its_start(stays),
        straight(stays[-1].end, move(opens_at), stays[-1].edge),
        *_turning_at_its_start(moved),
        straight(move(closes_at), stays[0].start, moved[-1].edge),
    ]
    levels = {name: (path_parted(path, line, move, over), path) for name, path in piece.levels.items()}
    return replace(
        piece,
        outline=outline_of(joined),
        # One that the lap covers whole is drawn through on what lies over it.
        levels={name: parted if len(parted) > 1 else path for name, (parted, path) in levels.items()},
        marks=tuple(mark for one in piece.marks if (mark := mark_parted(one, line, move, over))),
    )


def _turning_at_its_start(chain: list[Side]) -> list[Side]:
    return [replace(chain[0], corner=True), *chain[1:]]


def _uncovered(stays: list[Side], over: Line, hinge: Point | None, where: str) -> list[Side]:
    """What stays of a part under a lap, up to the line that the moved part's cut edge lies on."""
    closed = [*stays, straight(stays[-1].end, stays[0].start, "")]
    cubics = [side.cubic for side in closed]
    places = [
        (index, t)
        for index, t in crossings(cubics, *over)
        if index < len(stays) and (hinge is None or abs(cubics[index].at(t) - hinge) > ON_OUTLINE_MM)
    ]
    if hinge is not None:
        at_end = abs(stays[-1].end - hinge) < abs(stays[0].start - hinge)
        places.append((len(stays) - 1, 1.0) if at_end else (0, 0.0))
    if len(places) != 2:
        raise Faults([Fault(where, "The lap would cover what is to stay: take less, or cut elsewhere.")])
    kept, _ = stays_and_moves(closed, over, *places)
    if not kept or any(side is closed[-1] for side in kept):
        raise Faults([Fault(where, "The lap would cover what is to stay: take less, or cut elsewhere.")])
    return kept
