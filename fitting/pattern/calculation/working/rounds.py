"""Rounds of sides put together: names kept apart, straight sides made one, seams and levels that follow."""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import chord
from catalogue.tracing.calculation.sides import Side, run_of, straight
from fitting.pattern.calculation.working.level_lines import Path
from fitting.pattern.calculation.working.pattern import PatternPiece, PatternSeam

APART_MM = 0.5  # edges that are joined may differ by so much
_LEVEL = 0.3  # an edge that goes down by less of its length lies level


def apart(sides: Sequence[Side], edges: Sequence[str], where: str) -> tuple[list[Side], list[Side]]:
    """The sides of the edges in order, and the others after them. Raises Faults where they do not adjoin."""
    wanted = set(edges)
    starts = [i for i, side in enumerate(sides) if side.edge in wanted and sides[i - 1].edge not in wanted]
    if len(starts) > 1:
        raise Faults([Fault(where, "These edges do not adjoin round the piece: name those that do.")])
    if not starts:
        return list(sides), []
    ends = next(
        (starts[0] + step) % len(sides)
        for step in range(1, len(sides) + 1)
        if sides[(starts[0] + step) % len(sides)].edge not in wanted
    )
    return run_of(sides, starts[0], ends), run_of(sides, ends, starts[0])


def merged(sides: Sequence[Side]) -> list[Side]:
    """Two straight sides of one edge that go on in one line are one."""
    found: list[Side] = []
    for side in sides:
        before = found[-1] if found else None
        if before and _go_on(before, side):
            found[-1] = replace(before, cubic=straight(before.start, side.end, "").cubic)
        else:
            found.append(side)
    if len(found) > 3 and _go_on(found[-1], found[0]) and not found[0].is_first:
        last = found.pop()
        found[0] = replace(last, cubic=straight(last.start, found[0].end, "").cubic)
    return found


def _go_on(before: Side, after: Side) -> bool:
    return (
        before.edge == after.edge
        and not after.is_first
        and before.cubic.is_straight
        and after.cubic.is_straight
        and abs(chord(before.start, before.end) - chord(after.start, after.end)) < 1e-9
    )


def each_edge_once(sides: Sequence[Side]) -> list[Side]:
    """Where two runs of sides bear one name, the later one is called “… 2”."""
    found: list[Side] = []
    runs: dict[str, int] = {}
    for index, side in enumerate(sides):
        if index == 0 or side.edge != sides[index - 1].edge:
            runs[side.edge] = runs.get(side.edge, 0) + 1
        name = side.edge if runs[side.edge] == 1 else f"{side.edge} {runs[side.edge]}"
        found.append(replace(side, edge=name))
    # The last run goes on into the first.
    if sides and sides[-1].edge == sides[0].edge and found[-1].edge != found[0].edge:
        last = found[-1].edge
        found = [replace(side, edge=sides[0].edge) if side.edge == last else side for side in found]
    return found


def meeting(one: Path, other: Path) -> Path:
    """Two paths end to end, by the ends that lie nearest."""
    ways = [(one, other), (one[::-1], other), (one, other[::-1]), (one[::-1], other[::-1])]
    before, after = min(ways, key=lambda way: abs(way[0][-1] - way[1][0]))
    together = (*before, *(after[1:] if abs(before[-1] - after[0]) <= APART_MM else after))
    return together if before == one else together[::-1]


def followed(
    seams: Iterable[PatternSeam], old: Sequence[PatternPiece], made: Sequence[PatternPiece]
) -> tuple[PatternSeam, ...]:
    """The seams of pieces that are gone, of the new ones that have their edges whole; no others."""
    lengths = {(piece.name, edge): mm for piece in old for edge, mm in piece.measures.edges.items()}
    found = []
    for seam in seams:
        ways = [seam.pieces]
        for at in (0, 1):
            if (mm := lengths.get((seam.pieces[at], seam.edges[at]))) is not None:
                has = [
                    piece.name
                    for piece in made
                    if abs(piece.measures.edges.get(seam.edges[at], -1.0) - mm) <= APART_MM
                ]
                ways = [(name, way[1]) if at == 0 else (way[0], name) for way in ways for name in has]
        found += [replace(seam, pieces=way) for way in ways]
    return tuple(found)


def free_name(name: str, taken: Collection[str]) -> str:
    """The name, or the first “… 2”, “… 3” that is not taken."""
    free, number = name, 2
    while free in taken:
        free, number = f"{name} {number}", number + 1
    return free


def refuse_names(names: Sequence[str], others: Sequence[str], where: str) -> None:
    """Raises Faults for a name that another piece has, or two of the same."""
    taken = [name for index, name in enumerate(names) if name in others or name in names[:index]]
    if taken:
        raise Faults([Fault(where, f"Another piece is named “{taken[0]}”: give this one a name of its own.")])


def run_alike(one: PatternPiece, edge: str, other: PatternPiece, other_edge: str) -> bool:
    """Whether two edges that are sewn together are drawn from the same end: the start of one on the other's.

    Told by the neighbours that bear one name, as both armholes do; else by which end lies higher. Of two that
    tell nothing one runs against the other, as edges of pieces laid side by side do.
    """
    (before, after), (their_before, their_after) = _neighbours(one, edge), _neighbours(other, other_edge)
    alike = (before == their_before) + (after == their_after)
    against = (before == their_after) + (after == their_before)
    if alike != against:
        return alike > against
    down, theirs = _down(one, edge), _down(other, other_edge)
    return down * theirs > 0 if min(abs(down), abs(theirs)) > _LEVEL else False


def _neighbours(piece: PatternPiece, edge: str) -> tuple[str, str]:
    names = list(piece.edges)
    at = names.index(edge)
    return names[at - 1], names[(at + 1) % len(names)]


def _down(piece: PatternPiece, edge: str) -> float:
    """What part of the way from its start to its end goes down along the grain."""
    way = chord(piece.edges[edge].start, piece.edges[edge].end)
    return (way * piece.grain.conjugate()).real
