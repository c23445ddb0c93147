"""Which edges of a pattern can give what its levels are to change by, and which of them do so unasked."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from fitting.pattern.calculation.working.girths import level_places
from fitting.pattern.calculation.working.pattern import Pattern
from fitting.pattern.loading.alterable_seams import NEVER, NEVER_OF_LIMB, OF_LIMB, OF_TRUNK

NO_RANK = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class GivingEdge:
    """An edge of a piece with those that go on from it at a level: a side seam and the skirt's below it."""

    piece: str
    edges: tuple[str, ...]

    @property
    def box(self) -> str:
        return f"parts {self.piece}: {self.edges[0]}"

    def __str__(self) -> str:
        return f"{self.piece}: {', '.join(self.edges)}"


def crossing_edges(pattern: Pattern) -> dict[str, list[GivingEdge]]:
    """By level, what it crosses, once for each place where it does."""
    found: dict[str, list[GivingEdge]] = {}
    for piece in pattern.pieces:
        if piece.cloth not in pattern.counted:
            continue
        places = level_places(piece)
        together = _together(list(piece.edges), [[edge for edge, _ in place.ways] for place in places])
        for place in places:
            if edges := together.get(place.ways[0][0]):
                found.setdefault(place.level, []).append(GivingEdge(piece=piece.name, edges=edges))
    return found


def _together(edges: Sequence[str], meeting: Sequence[Sequence[str]]) -> dict[str, tuple[str, ...]]:
    """Each edge with all that it meets at a level, and that these meet, in order round the piece."""
    groups = [{edge} for edge in edges]
    for met in meeting:
        touched = [group for group in groups if group & {*met}]
        groups = [group for group in groups if group not in touched] + [set().union(*touched)]
    ordered = [tuple(edge for edge in edges if edge in group) for group in groups]
    return {edge: group for group in ordered for edge in group}


def usual_parts(pattern: Pattern, crossing: Mapping[str, Sequence[GivingEdge]]) -> dict[GivingEdge, int]:
    """One part for each edge of the seams that take a change first; the same ones at every level that they
    cross. Common practice, no source.
    """
    # Both edges of a seam take it, whichever of them bears the word.
    sewn = {pair: seam.edges for seam in pattern.seams for pair in zip(seam.pieces, seam.edges, strict=True)}
    found: dict[GivingEdge, int] = {}
    for is_limb in (False, True):
        of_these = {
            level: edges for level, edges in crossing.items() if (level in pattern.of_one_limb) == is_limb
        }
        never, first = (NEVER_OF_LIMB, OF_LIMB) if is_limb else (NEVER, OF_TRUNK)
        ranks = {
            edge: _rank(
                [both for name in edge.edges for both in sewn.get((edge.piece, name), ())], never, first
            )
            for edges in of_these.values()
            for edge in edges
        }
        # The levels with most to choose from choose first.
        for edges in sorted(of_these.values(), key=len, reverse=True):
            best = min((ranks[edge] for edge in edges), default=NO_RANK)
            if best < NO_RANK and not any(edge in found for edge in edges):
                found |= {edge: 1 for edge in edges if ranks[edge] == best}
        for edges in of_these.values():
            found |= dict.fromkeys(_in_their_stead(edges, found, first), 1)
    return found


def _in_their_stead(
    edges: Sequence[GivingEdge], found: Collection[GivingEdge], first: Sequence[str]
) -> Iterator[GivingEdge]:
    """For a piece whose edge ends above this level, what lies below it by its name: the vent of a side."""
    for piece in {one.piece for one in found}:
        here = [edge for edge in edges if edge.piece == piece]
        if here and not any(edge in found for edge in here):
            best = min(here, key=lambda edge: _rank(edge.edges, (), first))
            if _rank(best.edges, (), first) < len(first):
                yield best


def _rank(names: Sequence[str], never: Sequence[str], first: Sequence[str]) -> int:
    """The place of the first word that is in one of the names; a side back seam is one of the back."""
    may = [name for name in names if not any(word in name for word in never)]
    words = (
        at
        for at, word in enumerate(first)
        for name in may
        if word in name and not (word == "side" and ("side back" in name or "side front" in name))
    )
    return next(words, len(first) if may else NO_RANK)
