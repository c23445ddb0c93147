"""The parallel of one or several edges that follow each other, and where it meets the neighbours.

A neighbour that the parallel runs into is cut there; one that it leaves behind is drawn on, straight, in the
direction in which it ends.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Cubic, Point, chord
from catalogue.tracing.calculation.sides import SAME_MM, Place, Side, run_of, straight
from fitting.pattern.calculation.working.meetings import derivatives, meetings

LEAST_ANGLE = math.radians(15)
_NEAR_MM = 1e-4  # how near a parallel keeps to where it should be
_DEEPEST = 10
_SMOOTH_TO = 1e-4  # radians that two sides may turn and still go on smoothly


@dataclass(frozen=True, slots=True, kw_only=True)
class Parallel:
    """`edge` as it was, its `parallel`, and all that follows round to its start again.

    `starts` and `ends`: along the neighbours from the edge's ends to those of the parallel.
    `rest`: the neighbours from the end of the parallel round to its start.
    """

    edge: tuple[Side, ...]
    parallel: tuple[Side, ...]
    starts: tuple[Side, ...]
    ends: tuple[Side, ...]
    rest: tuple[Side, ...]


def parallel_to(sides: Sequence[Side], edges: Sequence[str], by: Point, by_mm: float, where: str) -> Parallel:
    """`by`: what a direction along the outline is multiplied by to point where more than nothing goes.

    Raises Faults where a neighbour lies too flat, a curve is too tight, or nothing is left.
    """
    edge, rest = _apart(sides, edges, where)
    if not rest:
        raise Faults([Fault(where, "The whole outline is this edge: name the edges of the piece first.")])
    runs = [
        [one for side in smooth for one in _parallel_of(side, by, by_mm, where)]
        for smooth in _smooth_runs(edge)
    ]
    chain = runs[0]
    for run in runs[1:]:
        chain = _run_on(chain, run, where)
    ends, chain, rest = _met(edge, chain, rest, by, by_mm, where)
    back = [side.turned() for side in reversed(rest)]
    edge_back, chain_back = ([side.turned() for side in reversed(one)] for one in (edge, chain))
    starts, chain_back, back = _met(edge_back, chain_back, back, -by, by_mm, where)
    return Parallel(
        edge=tuple(edge),
        parallel=tuple(_forward(chain_back, chain)),
        starts=tuple(starts),
        ends=tuple(ends),
        rest=tuple(_forward(back, rest)),
    )


def _forward(turned: Sequence[Side], before: Sequence[Side]) -> list[Side]:
    """Sides that were turned round, the right way again; what is told of their starts is as it was."""
    corners = {(round(side.start.real, 6), round(side.start.imag, 6)): side for side in before}
    found = []
    for side in reversed(turned):
        again = side.turned()
        known = corners.get((round(again.start.real, 6), round(again.start.imag, 6)))
        found.append(
            replace(again, corner=known.corner, is_first=known.is_first)
            if known
            else replace(again, corner=True, is_first=False)
        )
    return found


def _apart(sides: Sequence[Side], edges: Sequence[str], where: str) -> tuple[list[Side], list[Side]]:
    """The sides of the edges in order, and the others after them. Raises Faults where they do not adjoin."""
    wanted = set(edges)
    starts = [i for i, side in enumerate(sides) if side.edge in wanted and sides[i - 1].edge not in wanted]
    if len(starts) > 1:
        raise Faults([Fault(where, "These edges do not adjoin round the piece: name those that do.")])
    if not starts:
        return list(sides), []
    ends = next(
        (starts[0] + step) % len(sides)
        for step in range(1, len(sides) + 1)
        if sides[(starts[0] + step) % len(sides)].edge not in wanted
    )
    return run_of(sides, starts[0], ends), run_of(sides, ends, starts[0])


def _smooth_runs(edge: Sequence[Side]) -> list[list[Side]]:
    """The sides of an edge between the points where it turns."""
    runs = [[edge[0]]]
    for side in edge[1:]:
        turn = (arrives(runs[-1][-1]).conjugate() * leaves(side)).imag
        if abs(turn) <= _SMOOTH_TO:
            runs[-1].append(side)
        else:
            runs.append([side])
    return runs


def _parallel_of(side: Side, by: Point, by_mm: float, where: str) -> list[Side]:
    if side.cubic.is_straight:
        shift = chord(side.start, side.end) * by * by_mm
        return [replace(side, cubic=Cubic.straight(side.start + shift, side.end + shift), is_first=False)]
    cubics = _offset(side.cubic, by, by_mm, where, _DEEPEST)
    return [
        replace(side, cubic=cubic, is_first=False, corner=side.corner and number == 0)
        for number, cubic in enumerate(cubics)
    ]


def _offset(cubic: Cubic, by: Point, by_mm: float, where: str, depth: int) -> list[Cubic]:
    """The parallel of a curve by curves that share its ends' directions, halved until its middle is right."""
    speeds = [_offset_speed(cubic, t, by, by_mm) for t in (0.0, 0.5, 1.0)]
    if min(share for _, share in speeds) <= 0:
        raise Faults(
            [Fault(where, "The edge bends more tightly than that: its parallel would turn back on itself.")]
        )
    start, middle, end = (_shifted(cubic, t, by, by_mm) for t in (0.0, 0.5, 1.0))
    (leaving, first), _, (arriving, last) = speeds
    made = Cubic(start, start + leaving * first / 3, end - arriving * last / 3, end)
    if depth == 0 or abs(made.at(0.5) - middle) <= _NEAR_MM:
        return [made]
    one, other = cubic.split(0.5)
    return _offset(one, by, by_mm, where, depth - 1) + _offset(other, by, by_mm, where, depth - 1)


def _shifted(cubic: Cubic, t: float, by: Point, by_mm: float) -> Point:
    speed, _ = derivatives(cubic, t)
    return cubic.at(t) + by * by_mm * speed / abs(speed)


def _offset_speed(cubic: Cubic, t: float, by: Point, by_mm: float) -> tuple[Point, float]:
    """The curve's own speed at t, and by what it is multiplied on the parallel."""
    speed, bend = derivatives(cubic, t)
    turn = (speed.conjugate() * bend).imag / abs(speed) ** 3
    return speed, 1 - by_mm * turn * by.imag


def leaves(side: Side) -> Point:
    """The direction in which a side leaves its start."""
    return _unit(derivatives(side.cubic, 0.0)[0])


def arrives(side: Side) -> Point:
    return _unit(derivatives(side.cubic, 1.0)[0])


def _unit(way: Point) -> Point:
    return way / abs(way)


def _run_on(chain: list[Side], run: list[Side], where: str) -> list[Side]:
    """Two parallels of sides that follow each other: drawn on until they meet, or cut where they cross."""
    long = _far(chain, run)
    one = [*chain, straight(chain[-1].end, chain[-1].end + arrives(chain[-1]) * long, chain[-1].edge)]
    other = [straight(run[0].start - leaves(run[0]) * long, run[0].start, run[0].edge), *run]
    if (met := _first_meeting(one, other, last_of_first=True)) is None:
        raise Faults([Fault(where, "A corner of this edge would be lost: take less, or add side by side.")])
    kept, gone_on = _up_to(one, met[0]), _from(other, met[1])
    return [*_together(kept, chain), *_together(gone_on, run)]


def _together(sides: list[Side], was: Sequence[Side]) -> list[Side]:
    """A straight side and what it was drawn on by are one side."""
    found: list[Side] = []
    for side in sides:
        before = found[-1] if found else None
        if before and before.edge == side.edge and before.cubic.is_straight and side.cubic.is_straight:
            on = abs((chord(before.start, before.end).conjugate() * chord(side.start, side.end)).imag) < 1e-9
            is_drawn_on = before not in was or side not in was
            if on and is_drawn_on:
                found[-1] = replace(before, cubic=Cubic.straight(before.start, side.end))
                continue
        found.append(side)
    return found


def _far(*chains: Sequence[Side]) -> float:
    points = [point for chain in chains for side in chain for point in (side.start, side.end)]
    return 10 * (1 + max(abs(point - points[0]) for point in points))


def _met(
    edge: Sequence[Side], chain: list[Side], rest: list[Side], by: Point, by_mm: float, where: str
) -> tuple[list[Side], list[Side], list[Side]]:
    """Along the neighbour to where the parallel ends, the parallel so far, and the neighbour from there."""
    corner, away, along = edge[-1].end, leaves(rest[0]), arrives(edge[-1])
    if abs((along.conjugate() * away).imag) < math.sin(LEAST_ANGLE):
        sentence = (
            f"The {rest[0].edge or 'next side'} runs on from this edge at less than 15°: the two would meet"
            " nowhere near. Move both, or cut a corner first."
        )
        raise Faults([Fault(where, sentence)])
    long = _far(edge, chain)
    drawn = [*chain, straight(chain[-1].end, chain[-1].end + arrives(chain[-1]) * long, chain[-1].edge)]
    # Does the neighbour run the way in which the edge is shifted? Then it is cut; else it is drawn on.
    is_cut = (away * (along * by * by_mm).conjugate()).real > 0
    way = rest if is_cut else [straight(corner, corner - away * long, rest[0].edge)]
    if (met := _first_meeting(drawn, way)) is None:
        raise Faults([Fault(where, f"The {rest[0].edge or 'next side'} would be lost: take less.")])
    chain = _together(_up_to(drawn, met[0]), chain)
    if is_cut:
        return _up_to(rest, met[1]), chain, _from(rest, met[1])
    at = drawn[met[0][0]].cubic.at(met[0][1])
    on = straight(at, corner, rest[0].edge)
    follows = [on, replace(rest[0], corner=False), *rest[1:]]
    if rest[0].cubic.is_straight:
        follows = [replace(rest[0], cubic=Cubic.straight(at, rest[0].end)), *rest[1:]]
    return [on.turned()], chain, [replace(follows[0], corner=True), *follows[1:]]


def _up_to(sides: Sequence[Side], place: Place) -> list[Side]:
    index, t = place
    kept = list(sides[:index])
    if abs(sides[index].cubic.at(t) - sides[index].start) > SAME_MM:
        kept.append(sides[index] if t >= 1 else sides[index].split(t)[0])
    return kept


def _from(sides: Sequence[Side], place: Place) -> list[Side]:
    index, t = place
    kept = list(sides[index + 1 :])
    if abs(sides[index].cubic.at(t) - sides[index].end) > SAME_MM:
        after = sides[index] if t <= 0 else sides[index].split(t)[1]
        kept.insert(0, replace(after, corner=True))
    return kept


def _first_meeting(
    one: Sequence[Side], other: Sequence[Side], *, last_of_first: bool = False
) -> tuple[Place, Place] | None:
    """Where one path meets another, first along the other; or last along the one."""
    found = [
        ((i, t), (j, u))
        for i, a in enumerate(one)
        for j, b in enumerate(other)
        for t, u in meetings(a.cubic, b.cubic)
    ]
    if not found:
        return None
    return max(found, key=lambda met: met[0]) if last_of_first else min(found, key=lambda met: met[1])
