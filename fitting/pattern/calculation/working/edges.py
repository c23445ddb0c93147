"""What is done at an edge: added, taken off, a seam moved, its allowance; a facing or a band made from it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Cubic, Point
from catalogue.tracing.calculation.sides import Side, nearest, outline_of, straight
from catalogue.tracing.calculation.tracing import Mark
from fitting.pattern.calculation.working.level_lines import ON_OUTLINE_MM
from fitting.pattern.calculation.working.meetings import derivatives
from fitting.pattern.calculation.working.offsets import arrives, leaves, round_of
from fitting.pattern.calculation.working.parallels import parallel_to
from fitting.pattern.calculation.working.pattern import Allowance, Pattern, PatternPiece
from fitting.pattern.calculation.working.rounds import apart

INNER, END, OUTER = "inner", "end", "outer"


@dataclass(frozen=True, slots=True, kw_only=True)
class Add:
    """An edge moved outwards, parallel to itself; inwards where it is less than nothing."""

    piece: str
    edge: str
    by_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveSeam:
    """What the first piece gains at its edge, the second loses at its own."""

    pieces: tuple[str, str]
    edges: tuple[str, str]
    by_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAllowance:
    piece: str
    all_mm: float | None
    edges_mm: Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Facing:
    """A strip of a width within the piece along edges that adjoin, as a piece of its own."""

    piece: str
    edges: tuple[str, ...]
    width_mm: float
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A strip of a height that is sewn to edges that adjoin: a collar, a cuff, a waistband."""

    piece: str
    edges: tuple[str, ...]
    height_mm: float
    name: str


def add(pattern: Pattern, asked: Add) -> Pattern:
    """Raises Faults where a neighbour lies too flat, or nothing would be left of the edge."""
    pattern.edge(asked.piece, asked.edge)
    piece = pattern.piece(asked.piece)
    return pattern.with_pieces([added(piece, asked.edge, asked.by_mm)])


def move_seam(pattern: Pattern, asked: MoveSeam) -> Pattern:
    if asked.pieces[0] == asked.pieces[1]:
        raise Faults([Fault("pieces", "A seam lies between two pieces: name two.")])
    for name, edge in zip(asked.pieces, asked.edges, strict=True):
        pattern.edge(name, edge, "edges")
    gains, loses = (pattern.piece(name) for name in asked.pieces)
    return pattern.with_pieces(
        [added(gains, asked.edges[0], asked.by_mm), added(loses, asked.edges[1], -asked.by_mm)]
    )


def added(piece: PatternPiece, edge: str, by_mm: float) -> PatternPiece:
    """The piece with an edge moved outwards, its notches and the feet of its darts with it."""
    if not by_mm:
        return piece
    made = parallel_to(piece.sides, [edge], piece.outward, by_mm, "by")
    parallel = [replace(made.parallel[0], corner=True), *made.parallel[1:]]
    first = next((index for index, side in enumerate(made.edge) if side.is_first), None)
    if first is not None:
        # The outline starts on this edge: at its start, for a point within it may have no parallel.
        parallel[0] = replace(parallel[0], is_first=True)
    marks = tuple(_with_edge(mark, made.edge, piece.outward, by_mm) for mark in piece.marks)
    return replace(piece, outline=outline_of([*parallel, *made.rest]), marks=marks)


def inset(piece: PatternPiece, by_mm: float, keep: Sequence[str]) -> PatternPiece:
    """Every edge moved inwards but those to `keep`: the seam lines of a piece drawn with its allowance.

    Raises Faults where something of it would be lost.
    """
    moves = [side.edge for side in piece.sides if side.edge not in keep]
    if not moves:
        return piece
    if len(moves) < len(piece.sides):
        made = parallel_to(piece.sides, moves, piece.outward, -by_mm, "allowance")
        sides, edge = [*made.parallel, *made.rest], made.edge
    else:
        sides, edge = round_of(piece.sides, piece.outward, -by_mm, "allowance"), tuple(piece.sides)
    marks = tuple(_with_edge(mark, edge, piece.outward, -by_mm) for mark in piece.marks)
    return replace(piece, outline=outline_of(sides), marks=marks)


def _with_edge(mark: Mark, edge: Sequence[Side], outward: Point, by_mm: float) -> Mark:
    """A notch on the edge goes out with it, and so do the feet of a dart, along its legs."""
    if mark.kind == "notch":
        return replace(mark, points=(_shifted(mark.points[0], None, edge, outward, by_mm),))
    if mark.kind == "dart" and len(mark.points) == 3:
        one, point, other = mark.points
        feet = [_shifted(foot, foot - point, edge, outward, by_mm) for foot in (one, other)]
        return replace(mark, points=(feet[0], point, feet[1]))
    return mark


def _shifted(at: Point, leg: Point | None, edge: Sequence[Side], outward: Point, by_mm: float) -> Point:
    place, off = nearest(edge, at)
    if off > ON_OUTLINE_MM:
        return at
    speed = derivatives(edge[place[0]].cubic, place[1])[0]
    out = outward * speed / abs(speed)
    if leg is None:
        return at + out * by_mm
    way = leg / abs(leg)
    across = (way * out.conjugate()).real
    return at + way * by_mm / across if abs(across) > 0.2 else at + out * by_mm


def set_allowance(pattern: Pattern, asked: SetAllowance) -> Pattern:
    piece = pattern.piece(asked.piece)
    for name in asked.edges_mm:
        pattern.edge(asked.piece, name, f"edges.{name}")
    allowance = Allowance(
        usual_mm=piece.allowance.usual_mm if asked.all_mm is None else asked.all_mm,
        by_edge={**(piece.allowance.by_edge if asked.all_mm is None else {}), **asked.edges_mm},
    )
    return pattern.with_pieces([replace(piece, allowance=allowance)])


def facing(pattern: Pattern, asked: Facing) -> Pattern:
    """Raises Faults where the edges do not adjoin, or the piece is too narrow for it."""
    piece = _of_edges(pattern, asked.piece, asked.edges, asked.name)
    apart(piece.sides, asked.edges, "edges")
    made = parallel_to(piece.sides, asked.edges, piece.outward, -asked.width_mm, "width")
    sides = [
        *made.edge,
        *(_new(side) for side in made.ends),
        *(_new(side.turned(), INNER) for side in reversed(made.parallel)),
        *(_new(side.turned()) for side in reversed(made.starts)),
    ]
    return _with_piece(pattern, piece, asked.name, sides)


def band(pattern: Pattern, asked: Band) -> Pattern:
    """A rectangle where every side of the edges is straight; else it follows their curve.

    Raises Faults where the edges do not adjoin, or bend too tightly for it.
    """
    piece = _of_edges(pattern, asked.piece, asked.edges, asked.name)
    edge, _ = apart(piece.sides, asked.edges, "edges")
    if all(side.cubic.is_straight for side in edge):
        return _with_piece(pattern, piece, asked.name, _rectangle(edge, asked.height_mm))
    made = parallel_to(
        _closed_square(edge, piece.outward, asked.height_mm),
        asked.edges,
        piece.outward,
        asked.height_mm,
        "height",
    )
    outer = [_new(side, OUTER) for side in made.parallel]
    sides = [
        *(side.turned() for side in reversed(edge)),
        straight(edge[0].start, outer[0].start, END),
        *outer,
        straight(outer[-1].end, edge[-1].end, f"{END} 2"),
    ]
    return _with_piece(pattern, piece, asked.name, sides)


def _closed_square(edge: Sequence[Side], outward: Point, by_mm: float) -> list[Side]:
    """The edges with neighbours that stand square on their ends, on the side away from the band."""
    starts = edge[0].start - leaves(edge[0]) * outward * by_mm
    ends = edge[-1].end - arrives(edge[-1]) * outward * by_mm
    return [
        *edge,
        straight(edge[-1].end, ends, END),
        straight(ends, starts, INNER),
        straight(starts, edge[0].start, OUTER),
    ]


def _rectangle(edge: Sequence[Side], height_mm: float) -> list[Side]:
    sides: list[Side] = []
    here = 0j
    for side in edge:
        there = here + side.length
        sides.append(replace(side, cubic=Cubic.straight(here, there), corner=True, is_first=not sides))
        here = there
    top = 1j * height_mm
    return [
        *sides,
        straight(here, here + top, END),
        straight(here + top, top, OUTER),
        straight(top, 0j, f"{END} 2"),
    ]


def _of_edges(pattern: Pattern, piece: str, edges: Sequence[str], name: str) -> PatternPiece:
    for edge in edges:
        pattern.edge(piece, edge, "edges")
    if any(one.name == name for one in pattern.pieces):
        raise Faults([Fault("name", f"Another piece is named “{name}”: give this one a name of its own.")])
    return pattern.piece(piece)


def _new(side: Side, edge: str | None = None) -> Side:
    return replace(side, edge=side.edge if edge is None else edge, corner=True, is_first=False)


def _with_piece(pattern: Pattern, like: PatternPiece, name: str, sides: Sequence[Side]) -> Pattern:
    """A new piece, cut as often as the one it was made from; its grain lies as that one's does."""
    first = [replace(side, is_first=index == 0) for index, side in enumerate(sides)]
    grain = tuple(mark for mark in like.marks if mark.kind == "grain")
    made = replace(like, name=name, outline=outline_of(first), levels={}, marks=grain)
    return replace(pattern, pieces=(*pattern.pieces, made))
