"""What to lay on which cloth: one to three widths to compare, and every piece with how often it is cut.

What it makes is a request for a lay, which finds what is wrong with it.
"""

from collections.abc import Mapping, Sequence
from typing import Any

from django import forms

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.forms import LengthFormField, LengthsInUnit
from catalogue.lengths.models import TypedLength
from catalogue.workroom.models import User
from fitting.laying.calculation.cloth import Cloth, Direction
from fitting.laying.calculation.repeat import Repeat
from fitting.laying.loading.orders import FOLDED, Cutting, OrderedPiece, request_of
from fitting.laying.loading.pieces import PieceToLay
from fitting.pattern.forms.sheet import BoxRow, BoxTable

WIDTHS = ("width_1", "width_2", "width_3")
# Where a fault of the cloth belongs among the boxes.
_BOXES = {
    "cloth.width": "width_1",
    "cloth.selvedge": "selvedge",
    "cloth.gap": "gap",
    "cloth.repeat.along": "repeat",
    "cloth.repeat.across": "repeat_across",
    "cloth.repeat.drop": "drop",
    "cloth.unit": "unit",
    "cloth.shrinkage.length": "shrinks_length",
    "cloth.shrinkage.width": "shrinks_width",
}


class LayForm(LengthsInUnit, forms.Form):
    """`request` is there once the form is valid."""

    width_1 = LengthFormField(label="Width of the cloth")
    width_2 = LengthFormField(label="A second width to compare", required=False)
    width_3 = LengthFormField(label="A third", required=False)
    selvedge = LengthFormField(label="Width of one selvedge", required=False)
    folded = forms.ChoiceField(
        label="The cloth lies",
        choices=[("open", "open, in one layer"), (FOLDED, "folded lengthwise, cut through both layers")],
    )
    direction = forms.ChoiceField(
        label="Direction",
        choices=[
            (Direction.ONE_WAY.value, "one-way: nap or a print that has a top"),
            (Direction.TWO_WAY.value, "two-way: pieces may lie upside down"),
            (Direction.ANY.value, "any quarter turn: grain along or across"),
        ],
    )
    gap = LengthFormField(label="Gap between pieces", required=False)
    shrinks_length = forms.FloatField(label="Shrinks in length, %", required=False, min_value=0, max_value=50)
    shrinks_width = forms.FloatField(label="Shrinks in width, %", required=False, min_value=0, max_value=50)
    repeat = LengthFormField(
        label="Repeat of the pattern, along", required=False, help_text="Pieces are matched to it."
    )
    repeat_across = LengthFormField(label="Repeat across, or of stripes", required=False)
    drop = LengthFormField(
        label="Drop", required=False, help_text="Half the repeat along for a half drop; else nothing."
    )
    one_more = forms.BooleanField(label="Buy one repeat more: the shop cuts anywhere in it", required=False)
    unit = LengthFormField(label="The shop sells by")
    allowance = LengthFormField(
        label="Allowance at every edge", help_text="Full size; nothing if the plate includes it."
    )
    seconds = forms.IntegerField(
        label="Seconds to look, for each width",
        min_value=1,
        max_value=120,
        help_text="More finds shorter lays.",
    )

    def __init__(self, data: Any = None, *, pieces: Sequence[PieceToLay], user: User, **kwargs: Any) -> None:
        self.pieces = pieces
        super().__init__(data, user=user, **kwargs)
        for piece in pieces:
            self._add_piece(piece, user)
        names = dict.fromkeys(name for piece in pieces for name in piece.edge_names)
        self.edges = {f"edge {name}": name for name in names}
        for field, name in self.edges.items():
            self.fields[field] = LengthFormField(label=name, required=False, unit=user.system)
            self.fields[field].widget.attrs["placeholder"] = user.system
        for field in self.fields.values():
            if isinstance(field, LengthFormField):
                field.denominator = user.denominator

    def _add_piece(self, piece: PieceToLay, user: User) -> None:
        copies = forms.IntegerField(label=f"times {piece.name} is cut", min_value=0, max_value=200)
        copies.widget.attrs |= {"aria-label": copies.label}
        self.fields[f"cut {piece.name}"] = copies
        self.initial.setdefault(f"cut {piece.name}", piece.cut)
        if piece.is_traced:
            return
        for side, mm in (("width", piece.width_mm), ("length", piece.length_mm)):
            field = LengthFormField(required=False, label=f"{side} of {piece.name}", unit=user.system)
            field.widget.attrs |= {"placeholder": user.system, "aria-label": field.label, "size": 8}
            self.fields[f"{side} of {piece.name}"] = field
            if mm is not None:
                self.initial.setdefault(f"{side} of {piece.name}", TypedLength(text="", um=round(1000 * mm)))

    def single_boxes(self) -> list[forms.BoundField]:
        return [self[name] for name in self.base_fields]

    def edge_boxes(self) -> list[forms.BoundField]:
        return [self[field] for field in self.edges]

    def tables(self) -> Sequence[BoxTable]:
        """Traced pieces and boxes apart: the boxes say what they are."""
        traced = [
            BoxRow(label=piece.name, boxes=[self[f"cut {piece.name}"]])
            for piece in self.pieces
            if piece.is_traced
        ]
        boxed = [
            BoxRow(
                label=piece.name,
                boxes=[self[f"{word} {piece.name}"] for word in ("cut", "width of", "length of")],
            )
            for piece in self.pieces
            if not piece.is_traced
        ]
        tables = [
            BoxTable(
                caption="Pieces with their traced outlines",
                heads=("piece", "times cut"),
                rows=traced,
                says="Half of a piece cut an even number of times is mirrored, unless it is drawn to a fold.",
            ),
            BoxTable(
                caption="Pieces laid as boxes",
                heads=("piece", "times cut", "across", "along the grain"),
                rows=boxed,
                says="These are not traced, or have no fold marked to open them at, so each is laid as the "
                "box about it, from its widest reading and its longest: the lay comes out longer than it "
                "need be. Put in what you know better.",
            ),
        ]
        return [table for table in tables if table.rows]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if not self.errors:
            pieces = [asked for piece in self.pieces if (asked := self._piece(piece))]
            if not self.errors:
                self._ask(pieces)
        return cleaned

    def _piece(self, piece: PieceToLay) -> OrderedPiece | None:
        copies = self.cleaned_data[f"cut {piece.name}"]
        if not copies:
            return None
        if piece.is_traced:
            return OrderedPiece(piece=piece, copies=copies)
        sides = [f"{side} of {piece.name}" for side in ("width", "length")]
        for side in sides:
            if not (self.cleaned_data.get(side) and self.cleaned_data[side].um):
                self.add_error(side, "Say how far the piece reaches this way, or cut it 0 times.")
                return None
        width_mm, length_mm = (self.cleaned_data[side].um / 1000 for side in sides)
        return OrderedPiece(piece=piece, copies=copies, box_mm=(width_mm, length_mm))

    def _ask(self, pieces: list[OrderedPiece]) -> None:
        given = self.cleaned_data
        cutting = Cutting(
            allowance=given["allowance"].text,
            by_edge={name: given[field].um / 1000 for field, name in self.edges.items() if given[field]},
            is_folded=given["folded"] == FOLDED,
        )
        cloths = {given[width].text: self._cloth(given[width].mm) for width in WIDTHS if given.get(width)}
        try:
            self.request = request_of(
                pieces, cutting, cloths=cloths, unit=given["unit"].text, seconds=given["seconds"]
            )
        except Faults as faults:
            for fault in faults.faults:
                self._tell(fault)

    def _tell(self, fault: Fault) -> None:
        name = _BOXES.get(fault.where)
        self.add_error(name, fault.sentence if name else f"{fault.where}: {fault.sentence}")

    def _cloth(self, width_mm: float) -> Cloth:
        given = self.cleaned_data
        return Cloth(
            width_mm=width_mm,
            selvedge_mm=self._mm("selvedge"),
            direction=Direction(given["direction"]),
            gap_mm=self._mm("gap"),
            shrinkage_length=(given.get("shrinks_length") or 0) / 100,
            shrinkage_width=(given.get("shrinks_width") or 0) / 100,
            repeat=Repeat(
                along_mm=self._mm("repeat"),
                across_mm=self._mm("repeat_across"),
                drop_mm=self._mm("drop"),
                one_more=given["one_more"],
            ),
            unit_mm=given["unit"].mm,
        )

    def _mm(self, name: str) -> float:
        typed = self.cleaned_data.get(name)
        return typed.mm if typed else 0.0

    def inputs(self) -> dict[str, str]:
        """As typed, to fill the form again."""
        return {
            name: value.text if isinstance(value, TypedLength) else str(value)
            for name, value in self.cleaned_data.items()
            if value not in (None, "") and value is not False
        }


def first_values(
    user: User, *, allowance: TypedLength, given: Mapping[str, str] | None, own_width: str
) -> dict[str, Any]:
    """What the form shows at first: what was typed last time, else usual cloth of the reader's country.

    The width of the garment's own cloth in the materials comes before either.
    """
    inches = user.system == "in"
    if given:
        widths = [own_width, *(given[name] for name in WIDTHS if given.get(name))]
        widths = list(dict.fromkeys(width for width in widths if width))
        return {**given, **dict(zip(WIDTHS, widths, strict=False))}
    return {
        "width_1": own_width or ("45 in" if inches else "140 cm"),
        "selvedge": "1/4 in" if inches else "1 cm",
        "unit": "1/8 yd" if inches else "10 cm",
        "allowance": allowance,
        "direction": Direction.ONE_WAY.value,
        "seconds": 10,
    }
