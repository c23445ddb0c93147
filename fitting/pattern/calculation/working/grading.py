"""Graded to a wearer: lengths first, then each level's girth at its new height, then every seam trued.

Lengths go by the levels: what a length gains between its two ends is given out over the heights between them,
and a piece without that length follows at the levels that both have.
"""

from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from itertools import pairwise

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.outline import Outline
from catalogue.tracing.calculation.sides import nearest
from fitting.pattern.calculation.working.girths import LevelShare, no_level, with_girths
from fitting.pattern.calculation.working.marking import along_edge
from fitting.pattern.calculation.working.meetings import derivatives
from fitting.pattern.calculation.working.parting import Spread, spread
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece, PatternSeam
from fitting.pattern.calculation.working.sleeves import seated
from fitting.pattern.calculation.working.truing import with_length

SEAMS_MEET_MM = 0.01
_MOST_ROUNDS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """Whole girths and lengths as they are to be; `seams`: what part of each change an edge gives."""

    girths_mm: Mapping[str, float]
    lengths_mm: Mapping[str, float]
    seams: tuple[LevelShare, ...]


def grade(pattern: Pattern, asked: Grade) -> Pattern:
    """Raises Faults for a level or a length that is not drawn, or shares that do not come to the whole."""
    girths = pattern.girths()
    if missing := [level for level in asked.girths_mm if level not in girths]:
        raise Faults([no_level(pattern, level, f"girths.{level}") for level in missing])
    graded = {one.piece for one in asked.seams}
    eases = [pattern.off_mm(seam) if seam.ease_mm is None else seam.ease_mm for seam in pattern.seams]
    for line, mm in asked.lengths_mm.items():
        pattern = _lengthened(pattern, line, mm)
    for _ in range(_MOST_ROUNDS):
        pattern = with_girths(pattern, asked.girths_mm, asked.seams, "girths")
        off = [
            (seam, gap)
            for seam, ease in zip(pattern.seams, eases, strict=True)
            if ease is not None
            and (now := pattern.off_mm(seam)) is not None
            and abs(gap := now - ease) > SEAMS_MEET_MM
        ]
        if not off:
            break
        for seam, gap in off:
            pattern = _brought_together(pattern, seam, gap, graded)
    for sleeve in pattern.sleeves:
        # A sleeve too far from its armhole stays as it is, and is told of as broken.
        with suppress(Faults):
            pattern = seated(pattern, sleeve.join, sleeve.eases_mm)
    return pattern


def _brought_together(pattern: Pattern, seam: PatternSeam, gap_mm: float, graded: set[str]) -> Pattern:
    """A collar, a cuff or a facing follows the piece it is sewn to; else each edge takes half of the gap."""
    follows = [at for at in (0, 1) if seam.pieces[at] not in graded]
    if len(follows) == 1:
        at = follows[0]
        by_mm = gap_mm if at else -gap_mm
        return _parted_at_its_middle(pattern, seam.pieces[at], seam.edges[at], by_mm)
    for name, edge, by_mm in zip(seam.pieces, seam.edges, (-gap_mm / 2, gap_mm / 2), strict=True):
        piece = pattern.piece(name)
        pattern = pattern.with_pieces([with_length(piece, edge, piece.measures.edges[edge] + by_mm)])
    return pattern


def _parted_at_its_middle(pattern: Pattern, name: str, edge: str, by_mm: float) -> Pattern:
    """Cut through at right angles and parted, or lapped, as a collar is at one place.

    The New Dressmaker, 1921, ch. 3, ills. 36-37. Where such a cut is not to be had, the edge gives at an end.
    """
    piece = pattern.piece(name)
    middle = along_edge(piece.edges[edge], piece.edges[edge].length / 2)
    (index, t), _ = nearest(piece.sides, middle)
    inwards = -piece.outward * derivatives(piece.sides[index].cubic, t)[0]
    try:
        return spread(pattern, Spread(piece=name, cut=(middle, middle + inwards), by_mm=by_mm))
    except Faults:
        longer = with_length(piece, edge, piece.measures.edges[edge] + by_mm)
        return pattern.with_pieces([longer])


def _lengthened(pattern: Pattern, line: str, wanted_mm: float) -> Pattern:
    found = [
        (piece, mark)
        for piece in pattern.pieces
        for mark in piece.marks
        if mark.kind == "length" and mark.line == line
    ]
    if not found:
        sentence = f"No piece has the length “{line}” drawn on it: draw it, or leave it out."
        raise Faults([Fault(f"lengths.{line}", sentence)])
    piece, mark = found[0]
    now_mm = sum(abs(b - a) for a, b in pairwise(mark.points))
    heights = [point.imag for point in mark.points]
    top, bottom = min(heights), max(heights)
    if bottom - top <= 1.0 or wanted_mm - now_mm <= top - bottom:
        sentence = f"The {line} does not run down the piece, or not as far as that: use another step."
        raise Faults([Fault(f"lengths.{line}", sentence)])
    by_mm = wanted_mm - now_mm

    def lower(y: float) -> float:
        return min(1.0, max(0.0, (y - top) / (bottom - top))) * by_mm

    knots = {level: lower(_height(path)) for level, path in piece.levels.items()}
    changed = []
    for one in pattern.pieces:
        has_it = any(mark.kind == "length" and mark.line == line for mark in one.marks)
        changed.append(_stretched(one, lower if has_it and one is piece else _by_levels(one, knots)))
    return pattern.with_pieces(changed)


def _height(path: Sequence[Point]) -> float:
    return sum(point.imag for point in path) / len(path)


def _by_levels(piece: PatternPiece, knots: Mapping[str, float]) -> Callable[[float], float]:
    """How far down each height goes, from the levels that it shares with the piece that was measured."""
    shared = sorted((_height(path), knots[level]) for level, path in piece.levels.items() if level in knots)
    if not shared:
        return lambda y: 0.0
    heights = [height for height, _ in shared]

    def lower(y: float) -> float:
        at = bisect_right(heights, y)
        if at in (0, len(shared)):
            return shared[0 if at == 0 else -1][1]
        (y0, d0), (y1, d1) = shared[at - 1], shared[at]
        return d0 + (d1 - d0) * (y - y0) / (y1 - y0)

    return lower


def _stretched(piece: PatternPiece, lower: Callable[[float], float]) -> PatternPiece:
    def move(point: Point) -> Point:
        return complex(point.real, point.imag + lower(point.imag))

    nodes = tuple(
        replace(
            node,
            at=move(side.start),
            # A curve takes its own handles along.
            handles=(move(side.handle_a), move(side.handle_b)) if node.curved else None,
        )
        for node, side in zip(piece.outline.nodes, piece.outline.sides, strict=True)
    )
    return replace(
        piece,
        outline=Outline(nodes=nodes),
        levels={level: tuple(map(move, path)) for level, path in piece.levels.items()},
        marks=tuple(replace(mark, points=tuple(map(move, mark.points))) for mark in piece.marks),
    )
