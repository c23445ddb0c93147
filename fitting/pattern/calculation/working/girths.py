"""Girths changed at their levels: each seam gives its share there, and runs fair between the levels."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.sides import Place
from fitting.pattern.calculation.working.level_lines import Path, reaching
from fitting.pattern.calculation.working.meetings import derivatives
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece
from fitting.pattern.calculation.working.reshaping import reshaped

NEAR_MM = 1e-7
_MOST_ROUNDS = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelShare:
    """What part of a level's change one edge gives."""

    piece: str
    edge: str
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Alter:
    """Whole girths by so much, at their levels; all other levels stay."""

    changes_mm: Mapping[str, float]
    seams: tuple[LevelShare, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelPlace:
    """Where a level crosses an edge, and the way out of the piece along the level."""

    level: str
    edge: str
    place: Place
    out: Point


def alter(pattern: Pattern, asked: Alter) -> Pattern:
    """Raises Faults where a level is not on the pattern, or its shares do not come to the whole."""
    return with_girths(pattern, _wanted(pattern, asked.changes_mm), asked.seams, "changes")


def _wanted(pattern: Pattern, changes_mm: Mapping[str, float]) -> dict[str, float]:
    girths = pattern.girths()
    if missing := [level for level in changes_mm if level not in girths]:
        raise Faults([no_level(pattern, level, f"changes.{level}") for level in missing])
    return {level: girths[level] + by_mm for level, by_mm in changes_mm.items()}


def no_level(pattern: Pattern, level: str, where: str) -> Fault:
    has = ", ".join(pattern.girths()) or "none"
    return Fault(where, f"No piece has the level “{level}” drawn on it; the levels are: {has}.")


def with_girths(
    pattern: Pattern, wanted_mm: Mapping[str, float], seams: Sequence[LevelShare], where: str
) -> Pattern:
    """Brought there in rounds: what moving a dart's foot or a curve has left off is given again."""
    _refuse_shares(pattern, wanted_mm, seams, where)
    for _ in range(_MOST_ROUNDS):
        girths = pattern.girths()
        off_mm = {level: mm - girths[level] for level, mm in wanted_mm.items()}
        if max(map(abs, off_mm.values()), default=0.0) <= NEAR_MM:
            break
        pattern = _given(pattern, off_mm, seams)
    return pattern


def _refuse_shares(
    pattern: Pattern, levels: Mapping[str, float], seams: Sequence[LevelShare], where: str
) -> None:
    faults = []
    for at, one in enumerate(seams):
        pattern.edge(one.piece, one.edge, f"seams[{at}]")
    crossed = {
        (piece.name, place.edge, place.level) for piece in pattern.pieces for place in level_places(piece)
    }
    for level in levels:
        give = [one for one in seams if (one.piece, one.edge, level) in crossed]
        total = sum(one.share for one in give)
        if not give:
            faults.append(Fault("seams", f"The {level} crosses none of these edges: name others."))
        elif abs(total - 1) > 1e-6:
            names = ", ".join(f"{one.edge} of {one.piece}" for one in give)
            sentence = f"The shares at the {level} come to {total:g} ({names}): they must come to 1."
            faults.append(Fault("seams", sentence))
    if faults:
        raise Faults(faults)


def _given(pattern: Pattern, by_mm: Mapping[str, float], seams: Sequence[LevelShare]) -> Pattern:
    changed = []
    for piece in pattern.pieces:
        shares = {one.edge: one.share for one in seams if one.piece == piece.name}
        if not shares:
            continue
        shifts: dict[str, list[tuple[Place, Point]]] = {edge: [] for edge in shares}
        held: dict[str, list[tuple[Place, Point]]] = {}
        for at in level_places(piece):
            if at.edge in shares:
                mm = by_mm.get(at.level, 0.0) * shares[at.edge] / pattern.times(piece, at.level)
                shifts[at.edge].append((at.place, mm * at.out))
            else:
                held.setdefault(at.edge, []).append((at.place, 0j))
        told = {edge: knots for edge, knots in shifts.items() if knots}
        if told:
            changed.append(reshaped(piece, told, held))
    return pattern.with_pieces(changed)


def level_places(piece: PatternPiece) -> list[LevelPlace]:
    """Every place where a level enters or leaves the piece."""
    return [
        LevelPlace(level=level, edge=piece.sides[place[0]].edge, place=place, out=out)
        for level, path in piece.levels.items()
        for place, out in _outward(piece, path)
    ]


def _outward(piece: PatternPiece, path: Path) -> list[tuple[Place, Point]]:
    found = []
    for start, end in reaching(piece.outline, path):
        way = chord(start, end)
        for index, t in piece.outline.crossings(start, end):
            cubic = piece.outline.sides[index]
            share = ((cubic.at(t) - start) / (end - start)).real
            if -1e-9 <= share <= 1 + 1e-9:
                out = piece.outward * derivatives(cubic, t)[0]
                found.append(((index, t), way if (way * out.conjugate()).real > 0 else -way))
    return found
