"""What is asked of a lay: pieces cut with their allowances, the cloths to lay them on, and how it is kept."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.lengths import parse_length
from catalogue.workroom.reader.codec import from_json
from fitting.laying.calculation.cloth import Cloth
from fitting.laying.calculation.lay_out import Order
from fitting.laying.calculation.lines import Lines, box_lines
from fitting.laying.calculation.piece import LayPiece, OutlineNotUsable, read_outline
from fitting.laying.exchange.lay_file import lay_from_json
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


@dataclass(frozen=True, slots=True, kw_only=True)
class LayRequest:
    """What a row keeps of a lay that is asked for: the same pieces on each of its `cloths`.

    `widths` and `unit`, in which the shop sells, are as typed, `form` all that was. By the names of pieces:
    which are `graded` or `boxes` for want of an outline, where each is `matched` to a repeat, which
    `cannot_match`, and of which both layers yield one to `spare`. `version`: the number of the version of
    the working pattern that is laid, `of` as it is said; 0 where the plate's pieces are. `with_own`: pieces
    that are cut with allowances of their own.
    """

    cloths: tuple[Cloth, ...]
    widths: tuple[str, ...]
    pieces: tuple[LayPiece, ...]
    seconds: float
    unit: str
    is_folded: bool = False
    form: Mapping[str, str] = field(default_factory=dict)
    graded: tuple[str, ...] = ()
    boxes: tuple[str, ...] = ()
    spare: tuple[str, ...] = ()
    matched: Mapping[str, str] = field(default_factory=dict)
    cannot_match: tuple[str, ...] = ()
    version: int = 0
    of: str = ""
    with_own: tuple[str, ...] = ()

    @property
    def orders(self) -> list[Order]:
        """One for each cloth."""
        return [
            Order(cloth=cloth, pieces=self.pieces, seconds=self.seconds, is_folded=self.is_folded)
            for cloth in self.cloths
        ]

    def check(self) -> None:
        """Raises Faults, those of a piece by its name and its cloth."""
        for order, width in zip(self.orders, self.widths, strict=True):
            if faults := [Fault(f"cloth.{fault.where}", fault.sentence) for fault in order.cloth.faults()]:
                raise Faults(faults)
            if faults := [_named(fault, order, width) for fault in order.faults()]:
                raise Faults(faults)


def request_of(
    pieces: Sequence[OrderedPiece],
    cutting: Cutting,
    *,
    cloths: Mapping[str, Cloth],
    unit: str,
    seconds: float,
) -> LayRequest:
    """`cloths` by their widths as typed. Raises Faults where a piece cannot be cut, or not from a cloth."""
    found = [(asked, lines) for asked in pieces if (lines := cutting.lines(asked))]
    request = LayRequest(
        cloths=tuple(cloths.values()),
        widths=tuple(cloths),
        pieces=tuple(_piece(asked, lines, cutting) for asked, lines in found),
        seconds=seconds,
        unit=unit,
        is_folded=cutting.is_folded,
        spare=tuple(
            asked.piece.name
            for asked, lines in found
            if cutting.is_folded and not lines.is_half and asked.copies % 2
        ),
        boxes=tuple(asked.piece.name for asked in pieces if asked.box_mm is not None),
        matched={asked.piece.name: asked.piece.match.said for asked, _ in found},
    )
    request.check()
    return request


def _piece(asked: OrderedPiece, lines: Lines, cutting: Cutting) -> LayPiece:
    through_both = cutting.is_folded and not lines.is_half
    is_pair = asked.piece.is_pair and asked.copies % 2 == 0
    try:
        return LayPiece(
            name=asked.piece.name,
            outline=read_outline(lines.outline),
            cut_outline=read_outline(lines.cut_outline),
            copies=(asked.copies + 1) // 2 if through_both else asked.copies,
            mirrored_pair=is_pair and not cutting.is_folded,
            allowance_mm=float(parse_length(cutting.allowance)),
            on_fold=lines.is_half,
            match=lines.match,
        )
    except OutlineNotUsable as error:
        raise Faults([Fault(asked.piece.name, error.sentence)]) from error


def _named(fault: Fault, order: Order, width: str) -> Fault:
    """By its piece and its cloth in place of a number."""
    at = int(fault.where.removeprefix("pieces[").split("]")[0])
    return Fault(f"{order.pieces[at].name}, on cloth {width} wide", fault.sentence)


def lay_request(kept: Mapping[str, Any]) -> LayRequest:
    """What a row asks. Raises Faults where it does not hold that."""
    return _from_orders(kept) if "orders" in kept else from_json(LayRequest, kept)


def _from_orders(kept: Mapping[str, Any]) -> LayRequest:
    """Of rows and archives from before 30 November 2026: for each cloth what the `lay` command reads, and
    beside that what it has no word for.
    """
    read = [lay_from_json(order) for order in kept["orders"]]
    lines = kept.get("lines", {})
    request = LayRequest(
        cloths=tuple(one.order.cloth for one in read),
        widths=tuple(order["cloth"]["width"] for order in kept["orders"]),
        pieces=tuple(
            _with_lines(piece, lines.get(piece.name)) for one in read[:1] for piece in one.order.pieces
        ),
        seconds=read[0].order.seconds if read else 0.0,
        unit=read[0].unit if read else "",
        is_folded=kept.get("folded", False),
        form=kept["form"],
        matched=kept.get("matched", {}),
        **{name: tuple(kept.get(name, ())) for name in ("graded", "boxes", "spare", "cannot_match")},
    )
    request.check()
    return request


def _with_lines(piece: LayPiece, lines: Mapping[str, Any] | None) -> LayPiece:
    if lines is None:
        return piece
    try:
        cut = read_outline([(x, y) for x, y in lines["cut"]])
    except OutlineNotUsable as error:
        raise Faults([Fault(piece.name, error.sentence)]) from error
    return replace(piece, cut_outline=cut, on_fold=lines["half"])
