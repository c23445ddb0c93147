"""A sleeve in its armhole: what the head has over the armhole, part by part; and the head brought back to it.

The parts are those of `sleeve_walk.py`: front and back from the pitch points, what is beneath them, and the
top where it is gathered. The armhole stays; the head's notches move until every part has the ease it had.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.sides import Place, nearest
from fitting.pattern.calculation.grading.values import GradingJoin
from fitting.pattern.calculation.seam_walk import SeamTolerance, WalkedSeam, side_of, walk_seam
from fitting.pattern.calculation.sleeve_walk import NotPitched, walk_sleeve
from fitting.pattern.calculation.working.level_lines import ON_OUTLINE_MM
from fitting.pattern.calculation.working.marking import along_edge
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece
from fitting.pattern.calculation.working.reshaping import ends_of, reshaped

SLEEVE_MEETS_MM = 0.05
_TRIED_MM = 0.1
_APART_MM = 5.0  # two places of a head that are moved apart from each other
_MOST_ROUNDS = 20
_FARTHEST_AT_ONCE_MM = 15.0
_MOST_MOVED_MM = 60.0  # a head that would have to move farther is another sleeve


Figures: TypeAlias = "np.ndarray[tuple[int], np.dtype[np.float64]]"


@dataclass(frozen=True, slots=True, kw_only=True)
class TrueSleeve:
    """`piece`: one that the sleeve's head is drawn on."""

    piece: str


def parts_of(pattern: Pattern, sleeve: GradingJoin) -> dict[str, float]:
    """By how much the head is longer than the armhole, part by part; as a whole where it is not pitched."""
    walked = _walked(pattern, sleeve)
    return {one.name: one.longer_mm - one.shorter_mm for one in walked.seam.stretches} if walked else {}


def _walked(pattern: Pattern, sleeve: GradingJoin) -> WalkedSeam | None:
    """None where one of its edges is no longer there."""
    edges = {key: found for piece in pattern.pieces for key, found in piece.edges_walked.items()}
    if not {*sleeve.one, *sleeve.other} <= {*edges}:
        return None
    sewn = frozenset(frozenset(zip(seam.pieces, seam.edges, strict=True)) for seam in pattern.seams)
    head, armhole = (side_of(run, edges, sewn) for run in (sleeve.one, sleeve.other))
    try:
        return walk_sleeve(sleeve, head, armhole, SeamTolerance())
    except NotPitched:
        return walk_seam(sleeve, replace(head, is_ring=True), armhole, SeamTolerance())


def sleeve_off_mm(pattern: Pattern, sleeve: GradingJoin, eases_mm: Mapping[str, float]) -> dict[str, float]:
    """By how much each part is now longer than it was to be."""
    now = parts_of(pattern, sleeve)
    if {*now} != {*eases_mm}:
        # Its notches are other ones than they were: only the whole can be told.
        return {"whole": sum(now.values()) - sum(eases_mm.values())} if now else {}
    return {name: mm - eases_mm[name] for name, mm in now.items()}


def true_sleeve(pattern: Pattern, asked: TrueSleeve) -> Pattern:
    """Raises Faults where this piece is set into no armhole that is known, or is too far from it."""
    pattern.piece(asked.piece)
    found = [one for one in pattern.sleeves if asked.piece in {piece for piece, _ in one.join.one}]
    if not found:
        sentence = f"No armhole is known that {asked.piece} is set into: say which edges are sewn together."
        raise Faults([Fault("piece", sentence)])
    for sleeve in found:
        pattern = seated(pattern, sleeve.join, sleeve.eases_mm)
    return pattern


def seated(pattern: Pattern, sleeve: GradingJoin, eases_mm: Mapping[str, float]) -> Pattern:
    """The head moved as little as brings each part to its ease: Newton's rule, the least of its solutions."""
    places = _movable(pattern, sleeve)
    moved = np.zeros(2 * len(places))
    for _ in range(_MOST_ROUNDS):
        made = _with_head(pattern, places, moved)
        off = _off(made, sleeve, eases_mm)
        if not len(off) or np.abs(off).max() <= SLEEVE_MEETS_MM:
            return made
        slopes = np.empty((len(off), len(moved)))
        for at in range(len(moved)):
            tried = moved.copy()
            tried[at] += _TRIED_MM
            slopes[:, at] = (_off(_with_head(pattern, places, tried), sleeve, eases_mm) - off) / _TRIED_MM
        step = np.linalg.lstsq(slopes, off, rcond=None)[0]
        moved = moved - step * min(1.0, _FARTHEST_AT_ONCE_MM / max(np.abs(step).max(), SLEEVE_MEETS_MM))
        if np.abs(moved).max() > _MOST_MOVED_MM:
            break
    sentence = "The head is too far from its armhole to be trued: alter the sleeve first, or draw it anew."
    raise Faults([Fault("piece", sentence)])


def _off(
    pattern: Pattern, sleeve: GradingJoin, eases_mm: Mapping[str, float]
) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
    return np.array(list(sleeve_off_mm(pattern, sleeve, eases_mm).values()))


def _movable(pattern: Pattern, sleeve: GradingJoin) -> list[tuple[str, str, Place]]:
    """Notches of the head, its highest point and its middle: where it is moved, its ends staying."""
    found: list[tuple[str, str, Place]] = []
    for name, edge in sleeve.one:
        piece = pattern.piece(name)
        sides = [(index, side) for index, side in enumerate(piece.sides) if side.edge == edge]
        middle = along_edge(piece.edges[edge], piece.edges[edge].length / 2)
        for point in [*_notches(piece), _highest(piece, edge), middle]:
            (index, t), off = nearest([side for _, side in sides], point)
            place = (sides[index][0], t)
            is_new = all(_far(piece, place, other) > 5.0 for n, e, other in found if (n, e) == (name, edge))
            if (
                off <= ON_OUTLINE_MM
                and is_new
                and min(_far(piece, place, end) for end in ends_of(piece, edge)) > 5.0
            ):
                found.append((name, edge, place))
    return found


def _notches(piece: PatternPiece) -> list[Point]:
    return [mark.points[0] for mark in piece.marks if mark.kind == "notch"]


def _highest(piece: PatternPiece, edge: str) -> Point:
    points = [point for side in piece.edges[edge].sides for point in side.flattened(16)]
    return min(points, key=lambda point: (point * piece.grain.conjugate()).real)


def _far(piece: PatternPiece, one: Place, other: Place) -> float:
    sides = piece.outline.sides
    return abs(sides[one[0]].at(one[1]) - sides[other[0]].at(other[1]))


def _with_head(pattern: Pattern, places: Sequence[tuple[str, str, Place]], moved: Figures) -> Pattern:
    by_piece: dict[str, dict[str, list[tuple[Place, Point]]]] = {}
    for at, (name, edge, place) in enumerate(places):
        start, end = ends_of(pattern.piece(name), edge)
        knots = by_piece.setdefault(name, {}).setdefault(edge, [(start, 0j), (end, 0j)])
        knots.append((place, complex(moved[2 * at], moved[2 * at + 1])))
    return pattern.with_pieces(reshaped(pattern.piece(name), shifts) for name, shifts in by_piece.items())
