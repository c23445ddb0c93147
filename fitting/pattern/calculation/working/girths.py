"""Girths changed at their levels: each seam gives its share there, and runs fair between the levels."""

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.sides import Place
from fitting.pattern.calculation.working.level_lines import Path, reaching
from fitting.pattern.calculation.working.meetings import derivatives
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece
from fitting.pattern.calculation.working.reshaping import ends_of, reshaped

NEAR_MM = 1e-7
_MOST_ROUNDS = 8
ALONG = 0.5  # the sine of 30°: an edge that crosses a level at less runs along it
NEAR_END_MM = 60.0
AT_A_POINT_MM = 1.0


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
    """Where a level crosses the outline, and the way out of the piece along the level.

    `ways`: the edge that it crosses and the place on it; both edges where it does so at the point where they
    meet, as a waist does between bodice and skirt.
    """

    level: str
    ways: tuple[tuple[str, Place], ...]
    out: Point

    @property
    def edge(self) -> str:
        return self.ways[0][0]

    @property
    def place(self) -> Place:
        return self.ways[0][1]

    def among(self, edges: Container[str]) -> list[tuple[str, Place]]:
        return [way for way in self.ways if way[0] in edges]


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
    of_piece = {piece.name: _shares_of(piece, seams) for piece in pattern.pieces}
    places = [(piece.name, at) for piece in pattern.pieces for at in level_places(piece)]
    for level in levels:
        give = [
            (at.among(of_piece[name])[0][0], name)
            for name, at in places
            if at.level == level and at.among(of_piece[name])
        ]
        total = sum(of_piece[name][edge] for edge, name in give)
        if not give:
            faults.append(Fault("seams", f"The {level} crosses none of these edges: name others."))
        elif abs(total - 1) > 1e-6:
            names = ", ".join(f"{edge} of {name}" for edge, name in give)
            sentence = f"The shares at the {level} come to {total:g} ({names}): they must come to 1."
            faults.append(Fault("seams", sentence))
    if faults:
        raise Faults(faults)


def _given(pattern: Pattern, by_mm: Mapping[str, float], seams: Sequence[LevelShare]) -> Pattern:
    changed = []
    for piece in pattern.pieces:
        shares = _shares_of(piece, seams)
        if not shares:
            continue
        shifts: dict[str, list[tuple[Place, Point]]] = {edge: [] for edge in shares}
        held: dict[str, list[tuple[Place, Point]]] = {}
        for at in level_places(piece):
            giving = at.among(shares)
            for edge, place in giving:
                mm = by_mm.get(at.level, 0.0) * shares[giving[0][0]] / pattern.times(piece, at.level)
                shifts[edge].append((place, mm * at.out))
            for edge, place in at.ways if not giving else ():
                held.setdefault(edge, []).append((place, 0j))
        told = {edge: knots for edge, knots in shifts.items() if knots}
        if told:
            changed.append(reshaped(piece, told, held))
    return pattern.with_pieces(changed)


def _shares_of(piece: PatternPiece, seams: Sequence[LevelShare]) -> dict[str, float]:
    return {one.edge: one.share for one in seams if one.piece == piece.name}


def level_places(piece: PatternPiece) -> list[LevelPlace]:
    """Every place where a level enters or leaves the piece.

    Where it does so across an edge that runs along it, as a waist edge does, it is told of the edge that
    meets this one there: the side seam's lower end is what gives.
    """
    return [
        LevelPlace(level=level, ways=_ways(piece, place, along, out), out=out)
        for level, path in piece.levels.items()
        for place, along, out in _outward(piece, path)
    ]


def _ways(piece: PatternPiece, place: Place, along: Point, level: Point) -> tuple[tuple[str, Place], ...]:
    """The edge that is crossed, or the two that meet where it is crossed."""
    sides, (index, t) = piece.sides, place
    at, edge = sides[index].cubic.at(t), sides[index].edge
    (start, _), (last, _) = ends_of(piece, edge)
    before, after = (start - 1) % len(sides), (last + 1) % len(sides)
    ends = [
        (abs(at - sides[start].start), (edge, (start, 0.0)), (sides[before].edge, (before, 1.0))),
        (abs(at - sides[last].end), (edge, (last, 1.0)), (sides[after].edge, (after, 0.0))),
    ]
    off, own, other = min(ends)
    if other[0] == edge:
        return ((edge, place),)
    turn = abs((along.conjugate() * level).imag) / (abs(along) * abs(level))
    if turn < ALONG and off <= NEAR_END_MM:
        return (other,)
    return (own, other) if off <= AT_A_POINT_MM else ((edge, place),)


def _outward(piece: PatternPiece, path: Path) -> list[tuple[Place, Point, Point]]:
    """Each crossing, which way the outline runs there, and which way the level goes out."""
    found = []
    for start, end in reaching(piece.outline, path):
        way = chord(start, end)
        for index, t in piece.outline.crossings(start, end):
            cubic = piece.outline.sides[index]
            share = ((cubic.at(t) - start) / (end - start)).real
            if -1e-9 <= share <= 1 + 1e-9:
                along = derivatives(cubic, t)[0]
                out = piece.outward * along
                found.append(((index, t), along, way if (way * out.conjugate()).real > 0 else -way))
    return found
