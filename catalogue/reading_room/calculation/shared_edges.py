"""Which lines two traced pieces share: edges that both name, held against each other as they are laid.

Two edges are one line where neither their lengths nor their curves differ by more than twice their doubt.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from catalogue.reading_room.calculation.side_by_side import COVERAGE, Quantity
from catalogue.tracing.calculation.curve import Cubic, Point, chord
from catalogue.tracing.calculation.gap import Gap, largest_gap
from catalogue.tracing.calculation.overlay import Motion
from catalogue.tracing.calculation.tracing import TracedShape


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidPiece:
    """A piece as it lies over another, held at 0, with what its places and lengths may be off by.

    `click_mm`: one click; `drawing_mm`: the drawing itself; `relative_doubt`: the calibration, in proportion;
    `turn_doubt`: the line that was stood upright, in radians. All are standard uncertainties at full size.
    """

    shape: TracedShape
    click_mm: float
    drawing_mm: float
    relative_doubt: float
    turn_doubt: float = 0.0

    def edge(self, name: str) -> tuple[Cubic, ...]:
        """The sides of its edges of that name, in order."""
        return tuple(side for edge in self.shape.outline.edges() if edge.name == name for side in edge.sides)

    def length(self, sides: Sequence[Cubic]) -> Quantity:
        """The length of an edge, with its doubt: it lies between two clicks."""
        mm = sum(side.length() for side in sides)
        in_proportion = self.relative_doubt * mm
        return Quantity(value=mm, u=math.hypot(math.sqrt(2) * self.click_mm, self.drawing_mm, in_proportion))

    def place_doubt_mm(self, away_mm: float) -> float:
        """The doubt of a place so far from the point by which the piece is held: that was clicked too."""
        in_proportion = math.hypot(self.relative_doubt, self.turn_doubt) * away_mm
        return math.hypot(math.sqrt(2) * self.click_mm, self.drawing_mm, in_proportion)


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldEdges:
    """An edge of one piece against an edge of another.

    `gap` is as the pieces lie, from the first to the second. `own_gap_mm`: the second laid over the first by
    the middles of their chords, as if it were cut out alone; None where an edge closes in itself.
    """

    first: Quantity
    second: Quantity
    gap: Gap
    gap_u_mm: float
    own_gap_mm: float | None
    own_gap_u_mm: float

    @property
    def longer(self) -> Quantity:
        """By how much the second edge is longer than the first."""
        return Quantity(value=self.second.value - self.first.value, u=math.hypot(self.first.u, self.second.u))

    @property
    def is_one_length(self) -> bool:
        return abs(self.longer.value) <= COVERAGE * self.longer.u

    @property
    def is_one_curve(self) -> bool:
        return self.own_gap_mm is not None and self.own_gap_mm <= COVERAGE * self.own_gap_u_mm

    @property
    def lies_together(self) -> bool:
        return self.gap.mm <= COVERAGE * self.gap_u_mm

    @property
    def agreement(self) -> str:
        if self.is_one_length and self.lies_together:
            return "one line, and it lies in one place"
        if self.is_one_length and self.is_one_curve:
            return "one line, in another place"
        if self.is_one_length:
            return "one length, another curve"
        return "another line"


def held_edges(one: LaidPiece, name: str, other: LaidPiece, other_name: str) -> HeldEdges:
    """Hold an edge of one piece against an edge of the other; both pieces have an edge of that name."""
    first, second = one.edge(name), other.edge(other_name)
    first_length, second_length = one.length(first), other.length(second)
    gap = largest_gap(first, second)
    half_mm = max(first_length.value, second_length.value) / 2
    laid_over = _laid_over(first, second)
    return HeldEdges(
        first=first_length,
        second=second_length,
        gap=gap,
        gap_u_mm=math.hypot(one.place_doubt_mm(abs(gap.first)), other.place_doubt_mm(abs(gap.second))),
        own_gap_mm=largest_gap(first, laid_over).mm if laid_over else None,
        own_gap_u_mm=math.hypot(one.place_doubt_mm(half_mm), other.place_doubt_mm(half_mm)),
    )


def shared_names(one: LaidPiece, other: LaidPiece) -> tuple[list[str], list[str], list[str]]:
    """The names of edges that both have, that only the first has, and that only the second has."""
    first, second = (list(piece.shape.edges_mm()) for piece in (one, other))
    return (
        [name for name in first if name in second],
        [name for name in first if name not in second],
        [name for name in second if name not in first],
    )


def along_mm(sides: Sequence[Cubic], at: Point) -> float:
    """How far along a line, from its start, the point of it lies that is nearest to `at`."""
    steps = [step / 64 for step in range(65)]
    _, index, t = min((abs(side.at(t) - at), index, t) for index, side in enumerate(sides) for t in steps)
    before = sum(side.length() for side in sides[:index])
    return before + (sides[index].split(t)[0].length() if t else 0.0)


def _laid_over(first: Sequence[Cubic], second: Sequence[Cubic]) -> tuple[Cubic, ...] | None:
    """The second line moved on to the first, whichever way round it was traced."""
    one, other = (chord(sides[0].start, sides[-1].end) for sides in (first, second))
    if not one or not other:
        return None
    turn = one / other
    turn = turn if turn.real >= 0 else -turn
    middle, other_middle = ((sides[0].start + sides[-1].end) / 2 for sides in (first, second))
    onto = Motion(turn=turn, shift=middle - other_middle * turn)
    return tuple(
        Cubic(*(onto.place(point) for point in (side.start, side.handle_a, side.handle_b, side.end)))
        for side in second
    )
