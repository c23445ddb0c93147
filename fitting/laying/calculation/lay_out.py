"""From what is asked to the lay: whole pieces and parts, the shorter of two ways of packing, what to buy.

A lay is packed by wrappers (`wrapping`) and judged by outlines: whether it is sound every point decides.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.laying.calculation.boxes import box_lay
from fitting.laying.calculation.cloth import Cloth
from fitting.laying.calculation.in_turn import in_turn_lay
from fitting.laying.calculation.nesting import nested
from fitting.laying.calculation.piece import LayPiece, Outline, OutlineNotUsable, Point
from fitting.laying.calculation.piecing import Piecing, pieced
from fitting.laying.calculation.repeat import Lattice, lattices
from fitting.laying.calculation.search import Ending, SearchResult, Watch
from fitting.laying.calculation.settling import settle
from fitting.laying.calculation.strip import (
    AS_SHORT_MM,
    Placement,
    Shape,
    Strip,
    fitting_turns,
    length_of,
)

MOST_COPIES = 1000
LONGEST_MM = 1e6
LONGEST_SECONDS = 600
DEFAULT_SECONDS = 5
WIDER_THAN_FOLDED = "This is wider than the cloth lies when folded: lay the cloth open."


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """Pieces to lay on a cloth, and how long to look for a shorter lay. Piece names differ.

    `is_folded`: the cloth lies double, its selvedges together and its fold at the left; what is cut is cut
    through both layers.
    """

    cloth: Cloth
    pieces: tuple[LayPiece, ...]
    seconds: float = DEFAULT_SECONDS
    is_folded: bool = False

    @property
    def width_mm(self) -> float:
        """Of what lies on the table."""
        return self.cloth.usable_width_mm / (2 if self.is_folded else 1)

    def faults(self) -> Iterator[Fault]:
        """Pieces that folded cloth is too narrow for: nothing is joined through both layers."""
        for at, piece in enumerate(self.pieces):
            if self.is_folded and not fitting_turns(piece.cut_outline, self.turns_deg(piece), self.width_mm):
                yield Fault(f"pieces[{at}].outline", WIDER_THAN_FOLDED)

    def turns_deg(self, piece: LayPiece) -> tuple[int, ...]:
        """A fold lies along the cloth, whatever its face allows."""
        turns = self.cloth.turns_deg
        return tuple(turn for turn in turns if turn % 180 == 0) if piece.on_fold else turns


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrangement:
    """Where every copy lies, in reading order along the cloth, and what that comes to.

    `cut_outlines` has the outline of every name in `placements`: whole pieces, and parts of pieced ones.
    `density` is the cloth in the pieces, allowance included, as a part of `width_mm` × length. `place` is the
    one of the repeat at which all matching points lie, but those of `unmatched` across.
    """

    order: Order
    length_mm: float
    length_to_buy_mm: float
    density: float
    placements: tuple[Placement, ...]
    piecings: tuple[Piecing, ...]
    cut_outlines: dict[str, Outline]
    ending: Ending
    place: Lattice
    unmatched: tuple[str, ...] = ()

    @property
    def cloth(self) -> Cloth:
        return self.order.cloth

    def matched_at(self, name: str) -> Point:
        """The matching point of a piece; of a part, that of its whole piece."""
        whole = {part.name: piecing.piece for piecing in self.piecings for part in piecing.parts}
        pieces = {piece.name: piece for piece in self.order.pieces} | whole
        return pieces[name].match_at


def lay_out(order: Order, *, watch: Watch | None = None) -> Arrangement:
    """The shortest lay found in the time allowed: about `seconds`, less where none can be shorter.

    `watch` is called a few times a second; when it answers False the best lay so far is taken.
    Raises Faults, with a path such as `pieces[0].outline`, where a piece cannot be cut from the cloth.
    """
    if faults := list(order.faults()):
        raise Faults(faults)
    width = order.width_mm
    whole, piecings = _sorted_by_width(order, width)
    to_cut = tuple(_to_cut(whole, piecings))
    strip = Strip.of(_shapes(order, to_cut), width=width, gap=order.cloth.gap_mm)
    if strip.least_length > LONGEST_MM:
        raise Faults([Fault("pieces", "These come to more than a kilometre of cloth: divide them.")])
    found = _shortest(strip, order, watch)
    length = length_of(found.lay)
    return Arrangement(
        order=order,
        length_mm=length,
        length_to_buy_mm=order.cloth.length_to_buy_mm(length),
        density=strip.area / (width * length),
        placements=tuple(
            lying.placement()
            for lying in sorted(found.lay, key=lambda one: (one.bottom, one.x + one.turned.left))
        ),
        piecings=piecings,
        cut_outlines={name: outline for name, outline, _ in to_cut},
        ending=found.ending,
        place=found.place,
        unmatched=found.place.unmatched(strip),
    )


def _shapes(order: Order, to_cut: Iterable[tuple[str, Outline, LayPiece]]) -> Iterator[Shape]:
    for name, outline, piece in to_cut:
        for mirrored, copies in piece.copies_by_side.items():
            yield Shape(
                name=name,
                outline=outline,
                mirrored=mirrored,
                copies=copies,
                turns_deg=fitting_turns(outline, order.turns_deg(piece), order.width_mm),
                at_fold=piece.on_fold,
                match=piece.match_at,
            )


def _shortest(strip: Strip, order: Order, watch: Watch | None) -> SearchResult:
    places = lattices(strip, order.cloth.repeat_laid)
    if strip.has_fold:
        return in_turn_lay(strip, places, seconds=order.seconds, watch=watch)
    best, place = box_lay(strip, places)
    if length_of(best) <= strip.least_length + AS_SHORT_MM:
        return SearchResult(best, place, Ending.NONE_SHORTER)
    if place.repeat.is_there:
        return in_turn_lay(strip, places, seconds=order.seconds, known=(best, place), watch=watch)
    nest, ending = nested(strip, seconds=order.seconds, length=length_of(best), watch=watch)
    if nest:
        settled = settle(strip, nest)
        if length_of(settled) < length_of(best) and strip.is_sound(settled):
            return SearchResult(settled, place, ending)
    return SearchResult(best, place, ending)


def _sorted_by_width(order: Order, width: float) -> tuple[tuple[LayPiece, ...], tuple[Piecing, ...]]:
    """Pieces that fit the cloth whole, and the others in parts."""
    whole, piecings, faults, taken = [], [], [], {piece.name for piece in order.pieces}
    for at, piece in enumerate(order.pieces):
        if fitting_turns(piece.cut_outline, order.turns_deg(piece), width):
            whole.append(piece)
            continue
        try:
            across_mm = order.cloth.repeat_laid.across_mm
            piecings.append(pieced(piece, width, taken=taken, repeat_mm=across_mm))
        except OutlineNotUsable as error:
            faults.append(Fault(f"pieces[{at}].outline", error.sentence))
    if sum(piece.copies for _, _, piece in _to_cut(whole, piecings)) > MOST_COPIES:
        faults.append(Fault("pieces", f"These come to more than {MOST_COPIES} to cut: divide them."))
    if faults:
        raise Faults(faults)
    return tuple(whole), tuple(piecings)


def _to_cut(
    whole: Iterable[LayPiece], piecings: Iterable[Piecing]
) -> Iterator[tuple[str, Outline, LayPiece]]:
    for piece in whole:
        yield piece.name, piece.cut_outline, piece
    for piecing in piecings:
        for part in piecing.parts:
            yield part.name, part.cut_outline, piecing.piece
