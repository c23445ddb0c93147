"""Edges of a piece shifted by amounts that are told at places along them, and run fair between these.

A neighbour of a shifted edge follows at its end, less and less towards its own far end. Curves are carried
with their directions, so that what was smooth stays smooth.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from catalogue.tracing.calculation.curve import Cubic, Point
from catalogue.tracing.calculation.sides import Place, Side, length_to, nearest, outline_of, with_points
from catalogue.tracing.calculation.tracing import Mark
from fitting.pattern.calculation.fair_curve import fair_curve
from fitting.pattern.calculation.working.level_lines import ON_OUTLINE_MM
from fitting.pattern.calculation.working.meetings import derivatives
from fitting.pattern.calculation.working.pattern import PatternPiece

# By edge, where it is shifted by how much; what is told of a place holds exactly there.
Shifts: TypeAlias = Mapping[str, Sequence[tuple[Place, Point]]]
Field: TypeAlias = Callable[[float], Point]

_STEP_MM = 1e-3
_SAME_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """One edge in its sides, and where along it shifts are told."""

    edge: str
    sides: list[Side]
    knots: list[tuple[float, Point]]
    is_led: bool  # told to shift, where others only follow

    @property
    def length(self) -> float:
        return sum(side.length for side in self.sides)


def reshaped(piece: PatternPiece, shifts: Shifts, held: Shifts | None = None) -> PatternPiece:
    """`held`: of edges that only follow, the places that stay where they are. Edges are named once."""
    led = {edge: list(knots) for edge, knots in shifts.items()}
    stay = {edge: list(knots) for edge, knots in (held or {}).items() if edge not in led}
    runs = _runs(piece, led, stay)
    ends = [_corner(before, after) for before, after in zip(runs, [*runs[1:], runs[0]], strict=True)]
    fields = [_field(run, ends[index - 1], ends[index]) for index, run in enumerate(runs)]
    sides = [side for run, field in zip(runs, fields, strict=True) for side in _shifted(run.sides, field)]
    marks = tuple(_mark(mark, runs, fields, sides) for mark in piece.marks)
    return replace(piece, outline=outline_of(sides), marks=marks)


def _runs(piece: PatternPiece, led: Shifts, stay: Shifts) -> list[_Run]:
    told = [
        (edge, place, by) for table in (led, stay) for edge, knots in table.items() for place, by in knots
    ]
    ring, starts = with_points(piece.sides, [place for _, place, _ in told])
    by_start: dict[int, list[tuple[str, Point]]] = {}
    for start, (edge, _, by) in zip(starts, told, strict=True):
        by_start.setdefault(start, []).append((edge, by))
    first = next((i for i, side in enumerate(ring) if side.edge != ring[i - 1].edge), 0)
    runs: list[_Run] = []
    at_ends: list[tuple[str, Point]] = []
    along = 0.0
    for index in [*range(first, len(ring)), *range(first)]:
        side = ring[index]
        if not runs or runs[-1].edge != side.edge:
            runs.append(_Run(edge=side.edge, sides=[], knots=[], is_led=side.edge in led))
            along = 0.0
        here = by_start.get(index, [])
        runs[-1].knots.extend((along, by) for edge, by in here if edge == side.edge)
        # A place at the very end of an edge is where the next one starts.
        at_ends += [(edge, by) for edge, by in here if edge != side.edge]
        runs[-1].sides.append(side)
        along += side.length
    for edge, by in at_ends:
        for run in runs:
            if run.edge == edge:
                run.knots.append((run.length, by))
    return runs


def _corner(before: _Run, after: _Run) -> Point:
    """By how much the point where two edges meet is shifted: as the edge that leads there is at its end."""
    ends = [
        knots[at][1]
        for run, at in ((before, -1), (after, 0))
        if run.is_led and (knots := sorted(run.knots, key=_at))
    ]
    return sum(ends, 0j) / len(ends) if ends else 0j


def _at(knot: tuple[float, Point]) -> float:
    return knot[0]


def _field(run: _Run, start: Point, end: Point) -> Field:
    length = run.length
    inner = [(at, by) for at, by in sorted(run.knots, key=_at) if _SAME_MM < at < length - _SAME_MM]
    told = {round(at, 6): by for at, by in run.knots}
    knots = [(0.0, told.get(0.0, start)), *inner, (length, told.get(round(length, 6), end))]
    if not inner:
        return lambda at: knots[0][1] + (knots[1][1] - knots[0][1]) * (at / length)
    across = fair_curve((at, by.real) for at, by in knots)
    down = fair_curve((at, by.imag) for at, by in knots)
    return lambda at: complex(across.at(at), down.at(at))


def _shifted(sides: Sequence[Side], field: Field) -> list[Side]:
    found, along = [], 0.0
    total = sum(side.length for side in sides)
    for side in sides:
        there = along + side.length
        start, end = side.start + field(along), side.end + field(there)
        speeds = [abs(derivatives(side.cubic, t)[0]) / 3 for t in (0.0, 1.0)]
        leaving = side.cubic.handle_a - side.start + _slope(field, along, total, 1) * speeds[0]
        arriving = side.end - side.cubic.handle_b + _slope(field, there, total, -1) * speeds[1]
        made = Cubic(start, start + leaving, end - arriving, end)
        plain = Cubic.straight(start, end)
        off = abs(made.handle_a - plain.handle_a) + abs(made.handle_b - plain.handle_b)
        found.append(replace(side, cubic=plain if side.cubic.is_straight and off < 1e-5 else made))
        along = there
    return found


def _slope(field: Field, at: float, total: float, way: int) -> Point:
    """How the shift grows along the edge, on the side of a place that `way` points to."""
    there = min(total, max(0.0, at + way * _STEP_MM))
    return (field(there) - field(at)) / (there - at) if there != at else 0j


def _mark(mark: Mark, runs: Sequence[_Run], fields: Sequence[Field], now: Sequence[Side]) -> Mark:
    """A notch goes with its edge; a dart with its feet, whole, so that it takes up what it did."""
    if mark.kind not in ("notch", "dart"):
        return mark
    carried = [_carried(point, runs, fields) for point in mark.points]
    feet = [by for by in carried if by is not None]
    if not feet:
        return mark
    by = sum(feet, 0j) / len(feet)
    points = [point + by for point in mark.points]
    # Where the edge has changed its form under it, each foot is set on it again.
    on_edge = [
        point if foot is None else _nearest_point(now, point)
        for point, foot in zip(points, carried, strict=True)
    ]
    return replace(mark, points=tuple(on_edge))


def _nearest_point(sides: Sequence[Side], point: Point) -> Point:
    (index, t), off = nearest(sides, point)
    return sides[index].cubic.at(t) if off > _SAME_MM else point


def _carried(point: Point, runs: Sequence[_Run], fields: Sequence[Field]) -> Point | None:
    """By how much the outline is shifted at a point on it; None for a point elsewhere."""
    for run, field in zip(runs, fields, strict=True):
        place, off = nearest(run.sides, point)
        if off <= ON_OUTLINE_MM:
            return field(length_to(run.sides, place))
    return None


def ends_of(piece: PatternPiece, edge: str) -> tuple[Place, Place]:
    """The places where an edge starts and ends."""
    sides = piece.sides
    here = [i for i, side in enumerate(sides) if side.edge == edge and sides[i - 1].edge != edge]
    start = here[0] if here else 0
    last = next(
        (start + step) % len(sides)
        for step in range(len(sides))
        if sides[(start + step + 1) % len(sides)].edge != edge or step == len(sides) - 1
    )
    return (start, 0.0), (last, 1.0)
