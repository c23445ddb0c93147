"""Corners: moved; a shoulder with its armhole; a line that runs on smoothly across a closed seam."""

import cmath
import math
from dataclasses import dataclass, replace

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.sides import Place, outline_of, turned_back
from fitting.pattern.calculation.working.girths import level_places
from fitting.pattern.calculation.working.offsets import arrives, leaves
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece
from fitting.pattern.calculation.working.reshaping import ends_of, reshaped
from fitting.pattern.calculation.working.rounds import apart, run_alike
from fitting.pattern.calculation.working.taking_over import END, START, run_out


@dataclass(frozen=True, slots=True, kw_only=True)
class SlopeShoulder:
    """The shoulder raised at the armhole, along the grain, or dropped below 0; its armhole goes with it."""

    piece: str
    shoulder: str
    armhole: str
    by_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TrueCorner:
    """Two neighbours of a seam turned until they run on into each other where it is closed.

    `end`: which end of the first edge, as it is drawn. Each neighbour turns by half of what is wanting, over
    `blend_mm` of its length.
    """

    pieces: tuple[str, str]
    edges: tuple[str, str]
    end: str
    blend_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveCorner:
    """The point where two edges meet, moved across the grain and down along it; both edges follow.

    So the fork of trousers is lengthened, or a point of a collar. `across_mm` is out of the piece.
    """

    piece: str
    edges: tuple[str, str]
    across_mm: float
    down_mm: float


def move_corner(pattern: Pattern, asked: MoveCorner) -> Pattern:
    """Raises Faults where the two edges do not meet. Levels that cross them stay as wide as they are."""
    for edge in asked.edges:
        pattern.edge(asked.piece, edge, "edges")
    piece = pattern.piece(asked.piece)
    names = list(piece.edges)
    first, second = asked.edges
    if names[(names.index(second) + 1) % len(names)] == first:
        first, second = second, first
    if first == second or names[(names.index(first) + 1) % len(names)] != second:
        sentence = f"The {asked.edges[0]} and the {asked.edges[1]} do not meet: name two that do."
        raise Faults([Fault("edges", sentence)])
    by = _way_out(piece, second) * asked.across_mm + piece.grain * asked.down_mm
    (start, corner), (corner_after, end) = ends_of(piece, first), ends_of(piece, second)
    shifts = {first: [(start, 0j), (corner, by)], second: [(corner_after, by), (end, 0j)]}
    for at in level_places(piece):
        for edge, place in at.among(shifts):
            if place not in (start, corner, corner_after, end):
                shifts[edge].append((place, 0j))
    return pattern.with_pieces([reshaped(piece, shifts)])


def _way_out(piece: PatternPiece, second: str) -> Point:
    """Across the grain, to the side on which the corner lies."""
    corner = piece.edges[second].start
    points = [node.at for node in piece.outline.nodes]
    middle = sum(points, 0j) / len(points)
    across = piece.grain * 1j
    return across if ((corner - middle) * across.conjugate()).real > 0 else -across


def slope_shoulder(pattern: Pattern, asked: SlopeShoulder) -> Pattern:
    """Raises Faults where the two edges do not meet."""
    piece = pattern.piece(asked.piece)
    for edge in (asked.shoulder, asked.armhole):
        pattern.edge(asked.piece, edge)
    shoulder, armhole = piece.edges[asked.shoulder], piece.edges[asked.armhole]
    before, after = ends_of(piece, asked.shoulder)
    at_end = abs(shoulder.end - armhole.start) < abs(shoulder.start - armhole.end)
    if min(abs(shoulder.end - armhole.start), abs(shoulder.start - armhole.end)) > 1e-6:
        sentence = f"The {asked.shoulder} of {asked.piece} does not meet its {asked.armhole}."
        raise Faults([Fault("armhole", sentence)])
    up = -piece.grain * asked.by_mm
    still, moving = (before, after) if at_end else (after, before)
    start, end = ends_of(piece, asked.armhole)
    shifts = {asked.shoulder: [(still, 0j), (moving, up)], asked.armhole: [(start, up), (end, up)]}
    held: dict[str, list[tuple[Place, Point]]] = {}
    for at in level_places(piece):
        for edge, place in at.ways:
            held.setdefault(edge, []).append((place, 0j))
    return pattern.with_pieces([reshaped(piece, shifts, held)])


def true_corner(pattern: Pattern, asked: TrueCorner) -> Pattern:
    """Raises Faults where an edge is not there."""
    if asked.end not in (START, END):
        raise Faults([Fault("end", f"This must be “{START}” or “{END}”.")])
    for name, edge in zip(asked.pieces, asked.edges, strict=True):
        pattern.edge(name, edge, "edges")
    first, second = (pattern.piece(name) for name in asked.pieces)
    alike = run_alike(first, asked.edges[0], second, asked.edges[1])
    ends = (asked.end, asked.end if alike else (START if asked.end == END else END))
    corners = [
        (pattern.piece(name), edge, end)
        for name, edge, end in zip(asked.pieces, asked.edges, ends, strict=True)
    ]
    wanting = math.pi - sum(_inside_angle(*corner) for corner in corners)
    for piece, edge, end in corners:
        pattern = pattern.with_pieces(
            [_turned(pattern.piece(piece.name), edge, end, wanting / 2, asked.blend_mm)]
        )
    return pattern


def _inside_angle(piece: PatternPiece, edge: str, end: str) -> float:
    """Between the edge and its neighbour, within the piece, in radians."""
    own, rest = apart(piece.sides, [edge], "edges")
    leaving, back = (
        (leaves(rest[0]), -arrives(own[-1])) if end == END else (leaves(own[0]), -arrives(rest[-1]))
    )
    return (cmath.phase(back / leaving) * piece.outline.turns) % math.tau


def _turned(piece: PatternPiece, edge: str, end: str, by: float, blend_mm: float) -> PatternPiece:
    """The neighbour at that end opened by so much against the edge, and run back to its old self."""
    own, rest = apart(piece.sides, [edge], "edges")
    turns = piece.outline.turns
    if end == END:
        new = run_out(rest, rest[0].start, _rotated(leaves(rest[0]), -by * turns), blend_mm)
    else:
        back = [side.turned() for side in reversed(rest)]
        out = run_out(back, back[0].start, _rotated(leaves(back[0]), by * turns), blend_mm)
        new = turned_back(out, rest)
    return replace(piece, outline=outline_of([*own, *new]))


def _rotated(way: Point, by: float) -> Point:
    return way * cmath.exp(1j * by)
