"""A dart moved: its point stays, the old legs are brought together, and it opens at another place."""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.sides import (
    SAME_MM,
    Side,
    nearest,
    outline_of,
    run_of,
    straight,
    with_points,
)
from catalogue.tracing.calculation.tracing import Mark
from fitting.pattern.calculation.working.level_lines import ON_OUTLINE_MM, Path
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveDart:
    """`dart`: which of the piece's darts, from 0. `short_mm`: how far short of the old its point stops."""

    piece: str
    dart: int
    to: Point
    short_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PartDart:
    """Two darts that share a point: `share` of what the one takes up opens at another place."""

    piece: str
    dart: int
    to: Point
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class GatherDart:
    """A dart that is not sewn: what it took up is eased or gathered into the seam."""

    piece: str
    dart: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _Turning:
    """The piece about a dart's point: round from one foot (`leg`) to where it opens, then to the other foot.

    A part that moves turns about the point; what lay between the old feet is gone.
    """

    point: Point
    leg: Point
    opens: float  # angles from the leg in the order of the outline, up to a whole turn
    closes: float
    turns: int
    turn: Point  # what the moving part is multiplied by
    first_moves: bool

    def moves(self, at: Point) -> bool | None:
        """None for what lay between the feet."""
        angle = angle_from(self.leg, at, self.point, self.turns)
        return None if angle > self.closes else self.first_moves == (angle < self.opens)

    def move(self, at: Point) -> Point:
        return self.point + (at - self.point) * self.turn

    def rays(self) -> list[Point]:
        """The directions in which the piece is parted."""
        start = chord(self.point, self.leg)
        return [start * cmath.exp(1j * self.turns * angle) for angle in (0.0, self.opens, self.closes)]


def angle_from(leg: Point, at: Point, point: Point, turns: int) -> float:
    """From a leg to a place, about a point, in the order in which the outline runs; 0 to a whole turn."""
    if abs(at - point) <= SAME_MM:
        return 0.0
    return (cmath.phase((at - point) / (leg - point)) * turns) % math.tau


def move_dart(pattern: Pattern, asked: MoveDart) -> Pattern:
    """Raises Faults where there is no such dart, or it does not stand on the outline with both feet."""
    return _opened_elsewhere(pattern, asked, share=1.0)


def part_dart(pattern: Pattern, asked: PartDart) -> Pattern:
    """Raises Faults as `move_dart` does, and where nothing or all of it would be moved."""
    if not 0 < asked.share < 1:
        raise Faults([Fault("share", "Say a part of the dart between 0 and 1: 0.5 is half of it.")])
    whole = MoveDart(piece=asked.piece, dart=asked.dart, to=asked.to)
    return _opened_elsewhere(pattern, whole, share=asked.share)


def gather_dart(pattern: Pattern, asked: GatherDart) -> Pattern:
    piece = pattern.piece(asked.piece)
    number, _ = _dart(piece, asked.dart)
    marks = tuple(mark for index, mark in enumerate(piece.marks) if index != number)
    return pattern.with_pieces([replace(piece, marks=marks)])


def _opened_elsewhere(pattern: Pattern, asked: MoveDart, *, share: float) -> Pattern:
    piece = pattern.piece(asked.piece)
    mark, dart = _dart(piece, asked.dart)
    told = ((dart.points[0], "dart"), (dart.points[2], "dart"), (asked.to, "to"))
    ring, (one, other, to) = with_points(piece.sides, [_on_outline(piece, *place) for place in told])
    first, second = _as_it_runs(ring, one, other, to)
    before, after = run_of(ring, second, to), run_of(ring, to, first)
    if not before or not after:
        raise Faults([Fault("to", "The dart opens here already: choose a place beside it.")])
    starts_in_mouth = any(side.is_first for side in run_of(ring, first, second)[1:])
    moves_first = not starts_in_mouth and not any(side.is_first for side in before)
    feet = (before[0].start, after[-1].end)
    turning = _turning(piece, dart.points[1], feet, before[-1].end, moves_first=moves_first, share=share)
    sides = _turned(before, after, turning)
    mouth = (sides[len(before)].start, sides[len(before)].end)
    ends = mouth if first == one else mouth[::-1]
    new = replace(dart, points=(ends[0], _shortened(dart.points[1], mouth, asked.short_mm), ends[1]))
    moved = [new if number == mark else _mark(old, turning) for number, old in enumerate(piece.marks)]
    if share < 1:
        left = (sides[-1].end, dart.points[1], sides[-1].start)
        moved.insert(mark, replace(dart, points=left if first == one else left[::-1]))
    levels = {name: _path(path, turning) for name, path in piece.levels.items()}
    marks = tuple(one for one in moved if one)
    return pattern.with_pieces([replace(piece, outline=outline_of(sides), marks=marks, levels=levels)])


def _dart(piece: PatternPiece, number: int) -> tuple[int, Mark]:
    darts = [(index, mark) for index, mark in enumerate(piece.marks) if mark.kind == "dart"]
    if not 0 <= number < len(darts):
        has = f"it has {len(darts)}, counted from 0" if darts else "it has none"
        raise Faults([Fault("dart", f"{piece.name} has no dart {number}: {has}.")])
    index, dart = darts[number]
    if len(dart.points) != 3:
        sentence = "Only a dart with straight legs and one point can be moved: draw its legs straight first."
        raise Faults([Fault("dart", sentence)])
    return index, dart


def _on_outline(piece: PatternPiece, point: Point, where: str) -> tuple[int, float]:
    place, off = nearest(piece.sides, point)
    if off > ON_OUTLINE_MM:
        what = "A foot of this dart" if where == "dart" else "This point"
        sentence = f"{what} lies {off:.1f} mm off the outline of {piece.name}: it must be on it."
        raise Faults([Fault(where, sentence)])
    return place


def _as_it_runs(ring: Sequence[Side], one: int, other: int, to: int) -> tuple[int, int]:
    """The feet in the order in which the outline runs across the dart's mouth, the shorter way."""
    lengths = [sum(side.length for side in run_of(ring, *ends)) for ends in ((one, other), (other, one))]
    first, second = (one, other) if lengths[0] <= lengths[1] else (other, one)
    inside = [(first + step) % len(ring) for step in range(1, (second - first) % len(ring))]
    if to in inside:
        raise Faults([Fault("to", "This point lies between the feet of the dart: choose a place beside it.")])
    return first, second


def _turning(
    piece: PatternPiece,
    point: Point,
    feet: tuple[Point, Point],
    to: Point,
    *,
    moves_first: bool,
    share: float,
) -> _Turning:
    """The part that moves turns until its leg lies along the leg that stays."""
    turns, (leg, other_leg) = piece.outline.turns, feet
    opens, closes = (angle_from(leg, at, point, turns) for at in (to, other_leg))
    if not 0 < opens < closes:
        raise Faults([Fault("to", "From the dart's point this place lies behind the dart: choose another.")])
    onto, from_leg = (other_leg, leg) if moves_first else (leg, other_leg)
    turn = cmath.exp(1j * share * cmath.phase(chord(point, onto) / chord(point, from_leg)))
    return _Turning(
        point=point, leg=leg, opens=opens, closes=closes, turns=turns, turn=turn, first_moves=moves_first
    )


def _turned(before: list[Side], after: list[Side], turning: _Turning) -> list[Side]:
    """From the one foot round to the other, the part that moves turned; the new mouth is closed straight."""
    if turning.first_moves:
        before = [side.moved(turning.move) for side in before]
    else:
        after = [side.moved(turning.move) for side in after]
    before[0], after[0] = replace(before[0], corner=True), replace(after[0], corner=True)
    mouth = straight(before[-1].end, after[0].start, before[-1].edge)
    legs = straight(after[-1].end, before[0].start, after[-1].edge)
    return [*before, mouth, *after, legs]


def _shortened(point: Point, mouth: tuple[Point, Point], short_mm: float) -> Point:
    way = (mouth[0] + mouth[1]) / 2 - point
    if short_mm >= abs(way):
        raise Faults([Fault("short", "The new dart is not as long as that: let it stop less short.")])
    return point + way / abs(way) * short_mm


def _path(path: Sequence[Point], turning: _Turning) -> Path:
    """A level or a mark, parted as the piece is; what lay between the old feet is left out."""
    found: list[Point] = []
    for start, end in pairwise(path):
        stops = [start, *_crossings(start, end, turning), end]
        for here, there in pairwise(stops):
            moves = turning.moves((here + there) / 2)
            if moves is None:
                continue
            for point in (here, there):
                at = turning.move(point) if moves else point
                if not found or abs(at - found[-1]) > SAME_MM:
                    found.append(at)
    return tuple(found)


def _crossings(start: Point, end: Point, turning: _Turning) -> list[Point]:
    places = []
    for ray in turning.rays():
        here, there = (((at - turning.point) / ray).imag for at in (start, end))
        if (here < 0) == (there < 0):
            continue
        share = here / (here - there)
        at = start + (end - start) * share
        if ((at - turning.point) / ray).real > 0:
            places.append((share, at))
    return [at for _, at in sorted(places, key=lambda place: place[0])]


def _mark(mark: Mark, turning: _Turning) -> Mark | None:
    """None where it lay between the old feet."""
    if len(mark.points) == 1 or mark.kind in ("grain", "fold", "pleat"):
        middle = sum(mark.points, 0j) / len(mark.points)
        moves = turning.moves(middle)
        if moves is None:
            return None
        return replace(mark, points=tuple(map(turning.move, mark.points))) if moves else mark
    points = _path(mark.points, turning)
    if len(points) < 2:
        return None
    gained = len(points) != len(mark.points) and not mark.is_bowed
    return replace(mark, points=points, is_straight=mark.is_straight or gained)
