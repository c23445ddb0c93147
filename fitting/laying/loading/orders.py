"""What is asked of a lay, as it is kept in its row: for each cloth what the `lay` command reads.

Beside these stand the things that the command has no word for: cutting lines whose edges differ in their
allowance, halves at a fold, and whether the cloth lies folded.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.lengths import parse_length
from fitting.laying.calculation.lay_out import Order
from fitting.laying.calculation.lines import Lines, box_lines
from fitting.laying.calculation.piece import OutlineNotUsable, read_outline
from fitting.laying.exchange.lay_file import FORMAT, VERSION, LayFile, lay_from_json
from fitting.laying.loading.pieces import PieceToLay
from fitting.pattern.calculation.sheets.sheet import Allowances

FOLDED = "folded"  # as the form has it


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderedPiece:
    """`box_mm`, across and along, unfolded, where the piece has no outline."""

    piece: PieceToLay
    copies: int
    box_mm: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutting:
    """How the pieces are cut; `allowance` as typed, `by_edge` in millimetres where an edge has another."""

    allowance: str
    by_edge: Mapping[str, float] = field(default_factory=dict)
    is_folded: bool = False

    def lines(self, asked: OrderedPiece) -> Lines | None:
        usual_mm, piece = float(parse_length(self.allowance)), asked.piece
        if asked.box_mm is not None:
            half = self.is_folded and piece.on_fold and piece.turn_deg == 0
            return box_lines(*asked.box_mm, allowance_mm=usual_mm, half=half)
        return piece.lines(Allowances(usual_mm=usual_mm, by_edge=self.by_edge), half=self.is_folded)


def asked_of(
    pieces: Sequence[OrderedPiece],
    cutting: Cutting,
    *,
    cloths: Iterable[Mapping[str, Any]],
    seconds: float,
) -> dict[str, Any]:
    """What a row keeps: `orders`, one for each cloth; `lines`, `folded`, `matched`, where each is matched to
    a repeat, and `spare`, by name, what both layers yield one more of than is asked for. Raises Faults where
    a piece cannot be cut.
    """
    found = {asked.piece.name: (asked, lines) for asked in pieces if (lines := cutting.lines(asked))}
    entries = [_entry(asked, lines, cutting) for asked, lines in found.values()]
    return {
        "orders": [
            {
                "format": FORMAT,
                "version": VERSION,
                "cloth": dict(cloth),
                "seconds": seconds,
                "pieces": entries,
            }
            for cloth in cloths
        ],
        "lines": {
            name: {"cut": lines.cut_outline, "half": lines.is_half} for name, (_, lines) in found.items()
        },
        "folded": cutting.is_folded,
        "spare": [
            name
            for name, (asked, lines) in found.items()
            if cutting.is_folded and not lines.is_half and asked.copies % 2
        ],
        "boxes": [asked.piece.name for asked in pieces if asked.box_mm is not None],
        "matched": {name: asked.piece.match.said for name, (asked, _) in found.items()},
    }


def _entry(asked: OrderedPiece, lines: Lines, cutting: Cutting) -> dict[str, Any]:
    through_both = cutting.is_folded and not lines.is_half
    is_pair = asked.piece.is_pair and asked.copies % 2 == 0
    return {
        "name": asked.piece.name,
        "outline": [list(point) for point in lines.outline],
        "cut": (asked.copies + 1) // 2 if through_both else asked.copies,
        "mirrored_pair": is_pair and not cutting.is_folded,
        "allowance": cutting.allowance,
        **({"match": list(lines.match)} if lines.match else {}),
    }


def orders_in(inputs: Mapping[str, Any]) -> list[LayFile]:
    """The orders of a row, each with what the command has no word for. Raises Faults."""
    return [_order(order, inputs) for order in inputs["orders"]]


def _order(given: Mapping[str, Any], inputs: Mapping[str, Any]) -> LayFile:
    read = lay_from_json(given)
    lines = inputs.get("lines", {})
    try:
        pieces = tuple(
            replace(
                piece,
                cut_outline=read_outline([(x, y) for x, y in lines[piece.name]["cut"]]),
                on_fold=lines[piece.name]["half"],
            )
            if piece.name in lines
            else piece
            for piece in read.order.pieces
        )
    except OutlineNotUsable as error:
        raise Faults([Fault("pieces", error.sentence)]) from error
    order = replace(read.order, pieces=pieces, is_folded=inputs.get("folded", False))
    if faults := list(order.faults()):
        raise Faults([_named(fault, order, given["cloth"]["width"]) for fault in faults])
    return replace(read, order=order)


def _named(fault: Fault, order: Order, width: str) -> Fault:
    """By its piece and its cloth in place of a number."""
    at = int(fault.where.removeprefix("pieces[").split("]")[0])
    return Fault(f"{order.pieces[at].name}, on cloth {width} wide", fault.sentence)
