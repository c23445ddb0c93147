"""From what is asked to the lay: whole pieces and parts, the shorter of two ways of packing, what to buy.

A lay is packed by wrappers (`wrapping`) and judged by outlines: whether it is sound every point decides.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.laying.calculation.boxes import box_lay
from fitting.laying.calculation.cloth import Cloth
from fitting.laying.calculation.fold import fold_lay
from fitting.laying.calculation.nesting import Watch, nested
from fitting.laying.calculation.piece import LayPiece, Outline, OutlineNotUsable
from fitting.laying.calculation.piecing import Piecing, pieced
from fitting.laying.calculation.settling import settle
from fitting.laying.calculation.strip import (
    AS_SHORT_MM,
    Lying,
    Placement,
    Shape,
    Strip,
    fitting_turns,
    length_of,
)

MOST_COPIES = 1000
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
        turns = self.cloth.direction.turns_deg
        return tuple(turn for turn in turns if turn % 180 == 0) if piece.on_fold else turns


@dataclass(frozen=True, slots=True, kw_only=True)
class Lay:
    """Where every copy lies, in reading order along the cloth, and what that comes to.

    `cut_outlines` has the outline of every name in `placements`: whole pieces, and parts of pieced ones.
    `density` is the cloth in the pieces, allowance included, as a part of `width_mm` × length.
    """

    order: Order
    length_mm: float
    length_to_buy_mm: float
    density: float
    placements: tuple[Placement, ...]
    piecings: tuple[Piecing, ...]
    cut_outlines: dict[str, Outline]

    @property
    def cloth(self) -> Cloth:
        return self.order.cloth


def lay_out(order: Order, *, watch: Watch | None = None) -> Lay:
    """The shortest lay found in the time allowed: about `seconds`, less where none can be shorter.

    `watch` is called a few times a second; when it answers False the best lay so far is taken.
    Raises Faults, with a path such as `pieces[0].outline`, where a piece cannot be cut from the cloth.
    """
    if faults := list(order.faults()):
        raise Faults(faults)
    width = order.width_mm
    whole, piecings = _sorted_by_width(order, width)
    shapes = [
        Shape(
            name=name,
            outline=outline,
            mirrored=mirrored,
            copies=copies,
            turns_deg=fitting_turns(outline, order.turns_deg(piece), width),
            at_fold=piece.on_fold,
        )
        for name, outline, piece in _to_cut(whole, piecings)
        for mirrored, copies in piece.copies_by_side.items()
    ]
    strip = Strip.of(shapes, width=width, gap=order.cloth.gap_mm)
    best = _shortest(strip, order.seconds, watch)
    length = length_of(best)
    return Lay(
        order=order,
        length_mm=length,
        length_to_buy_mm=order.cloth.length_to_buy_mm(length),
        density=strip.area / (width * length),
        placements=tuple(
            lying.placement() for lying in sorted(best, key=lambda one: (one.bottom, one.x + one.turned.left))
        ),
        piecings=piecings,
        cut_outlines={name: outline for name, outline, _ in _to_cut(whole, piecings)},
    )


def _shortest(strip: Strip, seconds: float, watch: Watch | None) -> list[Lying]:
    if strip.has_fold:
        return fold_lay(strip, seconds=seconds, watch=watch)
    best = box_lay(strip)
    if length_of(best) <= strip.least_length + AS_SHORT_MM:
        return best
    found = nested(strip, seconds=seconds, length=length_of(best), watch=watch)
    if found:
        settled = settle(strip, found)
        if length_of(settled) < length_of(best) and strip.is_sound(settled):
            return settled
    return best


def _sorted_by_width(order: Order, width: float) -> tuple[tuple[LayPiece, ...], tuple[Piecing, ...]]:
    """Pieces that fit the cloth whole, and the others in parts."""
    whole, piecings, faults, taken = [], [], [], {piece.name for piece in order.pieces}
    for at, piece in enumerate(order.pieces):
        if fitting_turns(piece.cut_outline, order.turns_deg(piece), width):
            whole.append(piece)
            continue
        try:
            piecings.append(pieced(piece, width, taken=taken))
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
