"""Two edges made as long as they are to be sewn: one gives way at the end where that disturbs least."""

from dataclasses import dataclass, replace

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.sides import Place, length_to
from fitting.pattern.calculation.working.girths import level_places
from fitting.pattern.calculation.working.offsets import arrives, leaves
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece, PatternSeam
from fitting.pattern.calculation.working.reshaping import ends_of, reshaped
from fitting.pattern.calculation.working.rounds import apart

BOTH = "both"
NEAR_MM = 1e-7
_MOST_ROUNDS = 40
_FREE_MM = 20.0  # what an end needs beyond the last level that crosses, to be lengthened there alone


@dataclass(frozen=True, slots=True, kw_only=True)
class TrueEdges:
    """`gives_way`: the piece whose edge is made longer or shorter; or both, by half each."""

    pieces: tuple[str, str]
    edges: tuple[str, str]
    gives_way: str


def true_edges(pattern: Pattern, asked: TrueEdges) -> Pattern:
    """Raises Faults where an edge is not there, or would have to lose too much."""
    if asked.pieces[0] == asked.pieces[1] and asked.edges[0] == asked.edges[1]:
        raise Faults([Fault("edges", "An edge is trued to another one: name two.")])
    for name, edge in zip(asked.pieces, asked.edges, strict=True):
        pattern.edge(name, edge, "edges")
    if asked.gives_way not in (*asked.pieces, BOTH):
        names = f"“{asked.pieces[0]}”, “{asked.pieces[1]}” or “{BOTH}”"
        raise Faults([Fault("gives_way", f"Say which of the two gives way: {names}.")])
    return trued(pattern, seam_of(pattern, asked.pieces, asked.edges), asked.gives_way)


def seam_of(pattern: Pattern, pieces: tuple[str, str], edges: tuple[str, str]) -> PatternSeam:
    """The pattern's own seam of two edges, whichever is said first; one without ease where it has none."""
    for seam in pattern.seams:
        if (seam.pieces, seam.edges) == (pieces, edges):
            return seam
        if (seam.pieces, seam.edges) == (pieces[::-1], edges[::-1]):
            ease_mm = None if seam.ease_mm is None else -seam.ease_mm
            return replace(seam, pieces=pieces, edges=edges, ease_mm=ease_mm)
    return PatternSeam(pieces=pieces, edges=edges)


def trued(pattern: Pattern, seam: PatternSeam, gives_way: str) -> Pattern:
    off_mm = (pattern.off_mm(seam) or 0.0) - (seam.ease_mm or 0.0)
    if abs(off_mm) <= NEAR_MM:
        return pattern
    first = {seam.pieces[0]: 1.0, BOTH: 0.5}.get(gives_way, 0.0)
    for at, by_mm in ((0, -first * off_mm), (1, (1 - first) * off_mm)):
        if by_mm:
            piece = pattern.piece(seam.pieces[at])
            longer = with_length(piece, seam.edges[at], piece.measures.edges[seam.edges[at]] + by_mm)
            pattern = pattern.with_pieces([longer])
    return pattern


def with_length(piece: PatternPiece, edge: str, length_mm: float) -> PatternPiece:
    """An edge brought to a length along its own end, past the last level that crosses it where there is room.

    Raises Faults where less would be left than a quarter of it.
    """
    was_mm = piece.measures.edges[edge]
    if length_mm < was_mm / 4:
        sentence = f"The {edge} of {piece.name} would lose most of its length: let the other one give way."
        raise Faults([Fault("gives_way", sentence)])
    at_end, held = _free_end(piece, edge)
    (start, end), (ordered, _) = ends_of(piece, edge), apart(piece.sides, [edge], "edges")
    way = arrives(ordered[-1]) if at_end else -leaves(ordered[0])
    by_mm, step, made = length_mm - was_mm, 0.0, piece
    for _ in range(_MOST_ROUNDS):
        step += by_mm
        shifts: list[tuple[Place, Point]] = [(end if at_end else start, way * step)]
        shifts += [(start if at_end else end, 0j), *held]
        made = reshaped(piece, {edge: shifts})
        by_mm = length_mm - made.measures.edges[edge]
        if abs(by_mm) <= NEAR_MM:
            break
    return made


def _free_end(piece: PatternPiece, edge: str) -> tuple[bool, list[tuple[Place, Point]]]:
    """Whether it gives at its end, else at its start; and the levels' places, with room beyond them.

    Where no level crosses it, it gives beside the longer neighbour, to which the change is least: at the
    armhole rather than at the neck.
    """
    sides = piece.sides
    (first, _), (last, _) = ends_of(piece, edge)
    own, _ = apart(sides, [edge], "edges")
    total = piece.measures.edges[edge]
    places = [place for at in level_places(piece) for _, place in at.among((edge,))]
    along = sorted(length_to(own, ((index - first) % len(sides), t)) for index, t in places)
    if along:
        at_end = total - along[-1] >= along[0]
        room = total - along[-1] if at_end else along[0]
        return at_end, [(place, 0j) for place in places] if room >= _FREE_MM else []
    before, after = sides[first - 1].edge, sides[(last + 1) % len(sides)].edge
    edges = piece.measures.edges
    return edges.get(after, 0.0) >= edges.get(before, 0.0), []
