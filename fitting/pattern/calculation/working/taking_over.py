"""An edge of another pattern taken over, point for point: an armhole, with the sleeve that belongs to it.

It is turned so that both pieces' grain agree, and laid where the receiver's own was held; it is never
stretched or blended. The receiver's neighbours run out to its ends, and arrive there as the donor's own
did: so the line across a closed seam turns as it did on the donor.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Cubic, Point, chord
from catalogue.tracing.calculation.sides import (
    SAME_MM,
    Side,
    nearest,
    outline_of,
    sides_of,
    turned_back,
    turned_round,
)
from catalogue.tracing.calculation.tracing import Mark
from fitting.pattern.calculation.working.level_lines import ON_OUTLINE_MM
from fitting.pattern.calculation.working.offsets import arrives, leaves
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece
from fitting.pattern.calculation.working.rounds import apart

START, END = "start", "end"
USUAL_BLEND_MM = 50.8  # 2 in: common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeOverEdge:
    """One edge for each of `pieces`, from the piece of `donors` in the same place.

    `hold`: which end of each edge stays where it was, as the receiver is drawn. `blend_mm`: over how much of
    a neighbour it runs out to the new end.
    """

    pieces: tuple[str, ...]
    edges: tuple[str, ...]
    donors: tuple[str, ...]
    donor_edges: tuple[str, ...]
    hold: tuple[str, ...]
    blend_mm: float = USUAL_BLEND_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ends:
    """The donor's edge, and the directions in which its neighbours come to it and leave it."""

    edge: list[Side]
    coming: Point
    leaving: Point


def take_over_edge(pattern: Pattern, asked: TakeOverEdge) -> Pattern:
    """Raises Faults where an edge is not there, or nothing of a neighbour would be left."""
    donors = [pattern.piece(name, "from") for name in asked.donors]
    changed = []
    for at, (name, edge) in enumerate(zip(asked.pieces, asked.edges, strict=True)):
        pattern.edge(name, edge, "edges")
        pattern.edge(asked.donors[at], asked.donor_edges[at], "donor_edges")
        if donors[at].name == name:
            raise Faults([Fault("from", "A piece takes an edge over from another one: name the other.")])
        changed.append(
            _with_edge_of(
                pattern.piece(name), edge, donors[at], asked.donor_edges[at], asked.hold[at], asked.blend_mm
            )
        )
    return pattern.with_pieces(changed)


def _with_edge_of(
    piece: PatternPiece, edge: str, donor: PatternPiece, donor_edge: str, hold: str, blend_mm: float
) -> PatternPiece:
    own, rest = apart(piece.sides, [edge], "edges")
    theirs, marks = _laid(piece, own, donor, donor_edge, hold)
    new = [
        replace(side, edge=edge, is_first=index == 0 and any(one.is_first for one in own))
        for index, side in enumerate(theirs.edge)
    ]
    if not rest:
        raise Faults([Fault("edges", f"{edge} is the whole outline of {piece.name}: name its edges first.")])
    rest = run_out(rest, theirs.edge[-1].end, theirs.leaving, blend_mm)
    back = [side.turned() for side in reversed(rest)]
    back = run_out(back, theirs.edge[0].start, -theirs.coming, blend_mm)
    rest = turned_back(back, rest)
    own_marks = tuple(mark for mark in piece.marks if not _is_notch_on(mark, own))
    return replace(piece, outline=outline_of([*new, *rest]), marks=(*own_marks, *marks))


def _laid(
    piece: PatternPiece, own: Sequence[Side], donor: PatternPiece, donor_edge: str, hold: str
) -> tuple[_Ends, tuple[Mark, ...]]:
    """The donor's edge where it will lie, and the notches on it."""
    if donor.outline.turns != piece.outline.turns:
        donor = replace(donor, outline=outline_of(turned_round(sides_of(donor.outline))))
    theirs, others = apart(donor.sides, [donor_edge], "donor_edges")
    turn = piece.grain / donor.grain
    anchor, from_anchor = (own[0].start, theirs[0].start) if hold == START else (own[-1].end, theirs[-1].end)

    def lay(point: Point) -> Point:
        return anchor + (point - from_anchor) * turn

    notches = tuple(
        replace(mark, points=(lay(mark.points[0]),)) for mark in donor.marks if _is_notch_on(mark, theirs)
    )
    laid = [side.moved(lay) for side in theirs]
    others = others or theirs
    coming, leaving = arrives(others[-1]), leaves(others[0])
    return _Ends(edge=laid, coming=coming * turn, leaving=leaving * turn), notches


def _is_notch_on(mark: Mark, sides: Sequence[Side]) -> bool:
    return mark.kind == "notch" and nearest(sides, mark.points[0])[1] <= ON_OUTLINE_MM


def run_out(rest: list[Side], start: Point, leaving: Point, blend_mm: float) -> list[Side]:
    """The neighbour that leaves here, from the new start to where it is its old self again."""
    is_there = abs(start - rest[0].start) <= SAME_MM and abs(leaving - leaves(rest[0])) <= SAME_MM
    if is_there:
        return rest
    edge, kept, along = rest[0].edge, list(rest), 0.0
    while kept and kept[0].edge == edge and along + kept[0].length <= blend_mm:
        along += kept.pop(0).length
    arriving: Point | None = None
    if kept and kept[0].edge == edge and along < blend_mm:
        before, after = kept[0].split(kept[0].cubic.t_at(blend_mm - along))
        kept[0], arriving = after, arrives(before)
    elif kept and kept[0].edge == edge:
        arriving = leaves(kept[0])
    end = kept[0].start if kept else rest[-1].end
    third = abs(end - start) / 3
    into = arriving if arriving is not None else 2 * chord(start, end) - leaving
    run = Cubic(start, start + leaving * third, end - into * third, end)
    return [Side(cubic=run, edge=edge), *kept]
