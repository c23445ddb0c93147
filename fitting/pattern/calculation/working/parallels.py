"""The parallel of one or several edges that follow each other, and where it meets the neighbours.

A neighbour that the parallel runs into is cut there; one that it leaves behind is drawn on, straight, in the
direction in which it ends.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Cubic, Point
from catalogue.tracing.calculation.sides import Side, straight, turned_back
from fitting.pattern.calculation.working.offsets import (
    arrives,
    chain_of,
    far_from,
    first_meeting,
    leaves,
    onwards,
    together,
    up_to,
)
from fitting.pattern.calculation.working.rounds import apart

LEAST_ANGLE = math.radians(15)


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
    edge, rest = apart(sides, edges, where)
    if not rest:
        raise Faults([Fault(where, "The whole outline is this edge: name the edges of the piece first.")])
    chain = chain_of(edge, by, by_mm, where)
    ends, chain, rest = _met(edge, chain, rest, by, by_mm, where)
    back = [side.turned() for side in reversed(rest)]
    edge_back, chain_back = ([side.turned() for side in reversed(one)] for one in (edge, chain))
    starts, chain_back, back = _met(edge_back, chain_back, back, -by, by_mm, where)
    return Parallel(
        edge=tuple(edge),
        parallel=tuple(turned_back(chain_back, chain)),
        starts=tuple(starts),
        ends=tuple(ends),
        rest=tuple(turned_back(back, rest)),
    )


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
    long = far_from(edge, chain)
    drawn = [*chain, straight(chain[-1].end, chain[-1].end + arrives(chain[-1]) * long, chain[-1].edge)]
    # Does the neighbour run the way in which the edge is shifted? Then it is cut; else it is drawn on.
    is_cut = (away * (along * by * by_mm).conjugate()).real > 0
    way = rest if is_cut else [straight(corner, corner - away * long, rest[0].edge)]
    if (met := first_meeting(drawn, way)) is None:
        raise Faults([Fault(where, f"The {rest[0].edge or 'next side'} would be lost: take less.")])
    chain = together(up_to(drawn, met[0]), chain)
    if is_cut:
        return up_to(rest, met[1]), chain, onwards(rest, met[1])
    at = drawn[met[0][0]].cubic.at(met[0][1])
    on = straight(at, corner, rest[0].edge)
    follows = [on, replace(rest[0], corner=False), *rest[1:]]
    if rest[0].cubic.is_straight:
        follows = [replace(rest[0], cubic=Cubic.straight(at, rest[0].end)), *rest[1:]]
    return [on.turned()], chain, [replace(follows[0], corner=True), *follows[1:]]
