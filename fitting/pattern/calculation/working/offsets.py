"""The parallel of a run of sides: each drawn on until it meets the next, or cut where they cross."""

from collections.abc import Sequence
from dataclasses import replace

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Cubic, Point, chord
from catalogue.tracing.calculation.sides import SAME_MM, Place, Side, straight
from fitting.pattern.calculation.working.meetings import derivatives, meetings

_NEAR_MM = 1e-4  # how near a parallel keeps to where it should be
_DEEPEST = 10
_SMOOTH_TO = 1e-4  # radians that two sides may turn and still go on smoothly


def chain_of(edge: Sequence[Side], by: Point, by_mm: float, where: str) -> list[Side]:
    """Raises Faults where a curve is too tight for it, or a side between two corners would be lost."""
    runs = [
        [one for side in smooth for one in _parallel_of(side, by, by_mm, where)]
        for smooth in _smooth_runs(edge)
    ]
    chain = runs[0]
    for run in runs[1:]:
        chain = _run_on(chain, run, where)
    return chain


def round_of(sides: Sequence[Side], by: Point, by_mm: float, where: str) -> list[Side]:
    """The parallel of a whole outline, begun in the middle of a side, where nothing is cut or drawn on."""
    first, second = sides[0].split(0.5)
    chain = chain_of([second, *sides[1:], first], by, by_mm, where)
    start, end = chain[0], chain[-1]
    if start.cubic.is_straight and end.cubic.is_straight:
        chain = [replace(end, cubic=Cubic.straight(end.start, start.end)), *chain[1:-1]]
    else:
        chain = [end, *chain[:-1]]
    return [replace(side, is_first=index == 0) for index, side in enumerate(chain)]


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
    long = far_from(chain, run)
    one = [*chain, straight(chain[-1].end, chain[-1].end + arrives(chain[-1]) * long, chain[-1].edge)]
    other = [straight(run[0].start - leaves(run[0]) * long, run[0].start, run[0].edge), *run]
    if (met := first_meeting(one, other, last_of_first=True)) is None:
        raise Faults([Fault(where, "A corner of this edge would be lost: take less, or add side by side.")])
    kept, gone_on = up_to(one, met[0]), onwards(other, met[1])
    return [*together(kept, chain), *together(gone_on, run)]


def together(sides: list[Side], was: Sequence[Side]) -> list[Side]:
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


def far_from(*chains: Sequence[Side]) -> float:
    points = [point for chain in chains for side in chain for point in (side.start, side.end)]
    return 10 * (1 + max(abs(point - points[0]) for point in points))


def up_to(sides: Sequence[Side], place: Place) -> list[Side]:
    index, t = place
    kept = list(sides[:index])
    if abs(sides[index].cubic.at(t) - sides[index].start) > SAME_MM:
        kept.append(sides[index] if t >= 1 else sides[index].split(t)[0])
    return kept


def onwards(sides: Sequence[Side], place: Place) -> list[Side]:
    index, t = place
    kept = list(sides[index + 1 :])
    if abs(sides[index].cubic.at(t) - sides[index].end) > SAME_MM:
        after = sides[index] if t <= 0 else sides[index].split(t)[1]
        kept.insert(0, replace(after, corner=True))
    return kept


def first_meeting(
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
