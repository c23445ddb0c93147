"""An outer layer from the one beneath: it lies so much farther out, at every level and round each opening."""

import math
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.sides import Place
from fitting.pattern.calculation.working.edges import added
from fitting.pattern.calculation.working.girths import NEAR_MM, LevelPlace, level_places
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece
from fitting.pattern.calculation.working.reshaping import reshaped

# Edges by the words in their names, and which way each goes for a layer that lies farther out: the shoulder
# is raised, neck and armhole are cut wider. Common practice, no source.
GOES_OUT = {"shoulder": 1.0, "neck": -1.0, "armhole": -1.0, "armscye": -1.0}
_MOST_ROUNDS = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class OuterLayer:
    """`keep`: edges where both layers are sewn in one seam, by name, of any piece or of one (piece, edge)."""

    pieces: tuple[str, ...]
    by_mm: float
    keep: tuple[str, ...] = ()
    keep_of: tuple[tuple[str, str], ...] = ()

    def keeps(self, piece: str, edge: str) -> bool:
        return edge in self.keep or (piece, edge) in self.keep_of


def outer_layer(pattern: Pattern, asked: OuterLayer) -> Pattern:
    """Each level's girth + 2πt. Raises Faults where all edges that a level crosses are kept."""
    for name in asked.pieces:
        pattern.piece(name, "pieces")
    before = pattern.girths()
    levels = {level for name in asked.pieces for level in pattern.piece(name).levels}
    wanted = {level: before[level] + math.tau * asked.by_mm for level in levels}
    for name in asked.pieces:
        pattern = pattern.with_pieces([_opened(pattern.piece(name), asked)])
    for _ in range(_MOST_ROUNDS):
        girths = pattern.girths()
        off_mm = {level: mm - girths[level] for level, mm in wanted.items()}
        if max(map(abs, off_mm.values()), default=0.0) <= NEAR_MM:
            break
        pattern = _widened(pattern, asked, off_mm)
    return pattern


def _opened(piece: PatternPiece, asked: OuterLayer) -> PatternPiece:
    for edge in piece.edges:
        way = next((way for word, way in GOES_OUT.items() if word in edge.lower()), 0.0)
        if way and not asked.keeps(piece.name, edge):
            piece = added(piece, edge, way * asked.by_mm)
    return piece


def _widened(pattern: Pattern, asked: OuterLayer, off_mm: dict[str, float]) -> Pattern:
    """By pieces in proportion to their width at a level; of one piece, by the edges that may give."""
    places = {
        name: [at for at in level_places(pattern.piece(name)) if at.level in off_mm] for name in asked.pieces
    }
    may_give = {name: _giving(pattern, pattern.piece(name), asked) for name in asked.pieces}
    widths = {level: _width(pattern, asked, level, may_give, places) for level in off_mm}
    if stuck := [level for level, width_mm in widths.items() if not width_mm]:
        sentence = f"At the {stuck[0]} every edge is kept, so nothing can be added there: keep fewer edges."
        raise Faults([Fault("keep", sentence)])
    changed = []
    for name in asked.pieces:
        piece = pattern.piece(name)
        shifts: dict[str, list[tuple[Place, Point]]] = {}
        held: dict[str, list[tuple[Place, Point]]] = {}
        for at in places[name]:
            giving = at.among(may_give[name])
            gives = sum(one.level == at.level and bool(one.among(may_give[name])) for one in places[name])
            for edge, place in giving:
                mm = off_mm[at.level] * piece.measures.levels[at.level] / widths[at.level] / gives
                shifts.setdefault(edge, []).append((place, mm * at.out))
            for edge, place in at.ways if not giving else ():
                held.setdefault(edge, []).append((place, 0j))
        if shifts:
            changed.append(reshaped(piece, shifts, held))
    return pattern.with_pieces(changed)


def _giving(pattern: Pattern, piece: PatternPiece, asked: OuterLayer) -> set[str]:
    """The edges that are sewn to another piece; where none is said to be, all that levels cross."""
    sewn = {
        edge
        for seam in pattern.seams
        for name, edge in zip(seam.pieces, seam.edges, strict=True)
        if name == piece.name
    }
    crossed = {edge for at in level_places(piece) for edge, _ in at.ways}
    return {edge for edge in (sewn & crossed or crossed) if not asked.keeps(piece.name, edge)}


def _width(
    pattern: Pattern,
    asked: OuterLayer,
    level: str,
    may_give: dict[str, set[str]],
    places: dict[str, list[LevelPlace]],
) -> float:
    """What all pieces that can give at a level measure there, as often as they are cut."""
    return sum(
        pattern.times(pattern.piece(name), level) * pattern.piece(name).measures.levels[level]
        for name in asked.pieces
        if any(at.level == level and at.among(may_give[name]) for at in places[name])
    )
