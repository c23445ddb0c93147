"""What to lay on which cloth: one to three widths to compare, and every piece with how often it is cut.

What it makes is what the `lay` command reads, once for each width; its reader finds what is wrong.
"""

import json
from collections.abc import Mapping, Sequence
from typing import Any

from django import forms

from catalogue.forms.length import LengthFormField, LengthsInUnit
from catalogue.measuring.errors import Fault, Faults
from catalogue.models import User
from catalogue.models.length import TypedLength
from fitting.bridge.pattern_work.pieces import PieceToLay, lay_entry, lay_order
from fitting.calculation.lay import Direction
from fitting.exchange.lay_file import read_lay
from fitting.forms.pattern_work.sheet import BoxRow, BoxTable

WIDTHS = ("width_1", "width_2", "width_3")
# Where a fault of the file belongs among the boxes.
_BOXES = {
    "cloth.width": "width_1",
    "cloth.selvedge": "selvedge",
    "cloth.gap": "gap",
    "cloth.repeat": "repeat",
    "cloth.unit": "unit",
    "cloth.shrinkage.length": "shrinks_length",
    "cloth.shrinkage.width": "shrinks_width",
}


class LayForm(LengthsInUnit, forms.Form):
    """`orders` are there once the form is valid: one for each width."""

    width_1 = LengthFormField(label="Width of the cloth")
    width_2 = LengthFormField(label="A second width to compare", required=False)
    width_3 = LengthFormField(label="A third", required=False)
    selvedge = LengthFormField(label="Width of one selvedge", required=False)
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
    repeat = LengthFormField(label="Repeat of the pattern", required=False)
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
        for at, piece in enumerate(pieces):
            self._add_piece(at, piece, user)
        for field in self.fields.values():
            if isinstance(field, LengthFormField):
                field.denominator = user.denominator

    def _add_piece(self, at: int, piece: PieceToLay, user: User) -> None:
        copies = forms.IntegerField(label=f"times {piece.name} is cut", min_value=0, max_value=200)
        copies.widget.attrs |= {"aria-label": copies.label}
        self.fields[f"cut_{at}"] = copies
        self.initial.setdefault(f"cut_{at}", piece.cut)
        if piece.is_traced:
            return
        for side, mm in (("width", piece.width_mm), ("length", piece.length_mm)):
            field = LengthFormField(required=False, label=f"{side} of {piece.name}", unit=user.system)
            field.widget.attrs |= {"placeholder": user.system, "aria-label": field.label, "size": 8}
            self.fields[f"box_{side}_{at}"] = field
            if mm is not None:
                self.initial.setdefault(f"box_{side}_{at}", TypedLength(text="", um=round(1000 * mm)))

    def single_boxes(self) -> list[forms.BoundField]:
        return [self[name] for name in self.fields if not name.startswith(("cut_", "box_"))]

    def tables(self) -> Sequence[BoxTable]:
        """Traced pieces and boxes apart: the boxes say what they are."""
        numbered = list(enumerate(self.pieces))
        traced = [
            BoxRow(label=piece.name, boxes=[self[f"cut_{at}"]]) for at, piece in numbered if piece.is_traced
        ]
        boxed = [
            BoxRow(
                label=piece.name, boxes=[self[f"{name}_{at}"] for name in ("cut", "box_width", "box_length")]
            )
            for at, piece in numbered
            if not piece.is_traced
        ]
        tables = [
            BoxTable(caption="Pieces with their traced outlines", heads=("piece", "times cut"), rows=traced),
            BoxTable(
                caption="Pieces laid as boxes",
                heads=("piece", "times cut", "across", "along the grain"),
                rows=boxed,
                says="These are not traced, so each is laid as the box about it, from its widest reading "
                "and its longest: the lay comes out longer than it need be. Put in what you know better.",
            ),
        ]
        return [table for table in tables if table.rows]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if not self.errors:
            pieces = [one for at, piece in enumerate(self.pieces) if (one := self._piece(at, piece))]
            if not self.errors:
                self.orders = [self._order(width, pieces) for width in WIDTHS if cleaned.get(width)]
                self._check()
        return cleaned

    def _check(self) -> None:
        for order in self.orders:
            try:
                read_lay(json.dumps(order))
            except Faults as faults:
                for fault in faults.faults:
                    self._tell(fault)
                return

    def _tell(self, fault: Fault) -> None:
        name = _BOXES.get(fault.where)
        self.add_error(name, fault.sentence if name else f"{fault.where}: {fault.sentence}")

    def _piece(self, at: int, piece: PieceToLay) -> dict[str, Any] | None:
        copies = self.cleaned_data[f"cut_{at}"]
        if not copies:
            return None
        box_mm = None
        if not piece.is_traced:
            sides = [self.cleaned_data.get(f"box_{side}_{at}") for side in ("width", "length")]
            if not all(side and side.um for side in sides):
                empty = "width" if not (sides[0] and sides[0].um) else "length"
                self.add_error(
                    f"box_{empty}_{at}", "Say how far the piece reaches this way, or cut it 0 times."
                )
                return None
            box_mm = (sides[0].um / 1000, sides[1].um / 1000)
        allowance = self.cleaned_data["allowance"].text
        return lay_entry(piece, copies=copies, allowance=allowance, box_mm=box_mm)

    def _order(self, width: str, pieces: list[dict[str, Any]]) -> dict[str, Any]:
        given = self.cleaned_data
        texts = {name: given[name].text for name in ("selvedge", "gap", "repeat", "unit") if given.get(name)}
        shrinkage = {side: (given.get(f"shrinks_{side}") or 0) / 100 for side in ("length", "width")}
        cloth = {"width": given[width].text, "direction": given["direction"], "shrinkage": shrinkage, **texts}
        return lay_order(pieces, cloth=cloth, seconds=given["seconds"])

    def inputs(self) -> dict[str, str]:
        """As typed, to fill the form again."""
        return {
            name: value.text if isinstance(value, TypedLength) else str(value)
            for name, value in self.cleaned_data.items()
            if value not in (None, "")
        }


def first_values(user: User, *, allowance: TypedLength, given: Mapping[str, str] | None) -> dict[str, Any]:
    """What the form shows at first: what was typed last time, else usual cloth of the reader's country."""
    if given:
        return dict(given)
    inches = user.system == "in"
    return {
        "width_1": "45 in" if inches else "140 cm",
        "selvedge": "1/4 in" if inches else "1 cm",
        "unit": "1/8 yd" if inches else "10 cm",
        "allowance": allowance,
        "direction": Direction.ONE_WAY.value,
        "seconds": 10,
    }
