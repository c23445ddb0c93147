"""The boxes of gathers, tiers, pleats and tucks: fill what is known, the rest is reckoned."""

from typing import Any

from django import forms

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.forms import LengthFormField
from fitting.pattern.calculation.pleats import Pleat, PleatGivens
from fitting.pattern.calculation.tucks import TuckGivens
from fitting.pattern.forms.sheet import WorkSheet
from fitting.pattern.loading.sheet_answer import SheetAnswer, number
from fitting.pattern.models import WorkNote
from fitting.pattern.showing.fullness import (
    ClothForStrips,
    gathers_sheet,
    pleats_sheet,
    tiers_sheet,
    tucks_sheet,
)

LINE = "waist"  # where fullness is read from the plate


def _number(label: str, **kwargs: Any) -> forms.FloatField:
    return forms.FloatField(label=label, required=False, min_value=0, max_value=1000, **kwargs)


class StripSheet(WorkSheet):
    """A sheet whose flat length may be joined from strips of a cloth."""

    cloth_width = LengthFormField(label="Width of the cloth, for strips", required=False)
    strip_depth = LengthFormField(label="Depth of a strip as cut", required=False)
    join = LengthFormField(label="Allowance at each join", required=False)
    is_round = forms.BooleanField(label="Joined to a ring", required=False)

    def add_rows(self) -> None:
        for name in ("cloth_width", "strip_depth", "join", "is_round"):
            self.fields[name] = self.fields.pop(name)  # after the boxes of the sheet itself

    def cloth(self) -> ClothForStrips | None:
        """None where no strips are asked for."""
        width_mm, depth_mm = self.mm("cloth_width"), self.mm("strip_depth")
        if width_mm is None and depth_mm is None:
            return None
        if width_mm is None or depth_mm is None:
            empty = "cloth_width" if width_mm is None else "strip_depth"
            raise Faults([Fault(empty, "Strips need both the width of the cloth and their depth.")])
        return ClothForStrips(
            width_mm=width_mm,
            depth_mm=depth_mm,
            join_mm=self.mm_or_0("join"),
            is_round=self.cleaned_data["is_round"],
        )


class GathersSheet(StripSheet):
    kind = WorkNote.Kind.GATHERS
    says = "Flat cloth, finished length, or the ratio between them; and the strips that makes."

    finished = LengthFormField(label="Finished length", required=False)
    flat = LengthFormField(label="Flat cloth", required=False)
    ratio = _number("Flat ÷ finished", help_text="Give two of these three.")

    def fill(self) -> dict[str, Any]:
        """The ratio of the plate, over the wearer's length."""
        flat_mm, made_mm = self.known.flat_mm.get(LINE), self.known.made_mm.get(LINE)
        ratio = flat_mm / made_mm if flat_mm and made_mm and flat_mm > 1.05 * made_mm else None
        return {"finished": self.known.finished_mm(LINE), "ratio": ratio and number(ratio, 3)}

    def reckon(self) -> SheetAnswer:
        return gathers_sheet(
            finished_mm=self.mm("finished"),
            flat_mm=self.mm("flat"),
            ratio=self.cleaned_data.get("ratio"),
            cloth=self.cloth(),
        )


class TiersSheet(StripSheet):
    kind = WorkNote.Kind.TIERS
    says = "Tiers gathered one to the next: hem, ratio or number from the others."

    top = LengthFormField(label="Girth at the top")
    hem = LengthFormField(label="Hem", required=False)
    ratio = _number("Each tier × the one above")
    number = forms.IntegerField(
        label="Number of tiers",
        required=False,
        min_value=1,
        max_value=40,
        help_text="Give two of hem, ratio and number.",
    )

    def fill(self) -> dict[str, Any]:
        return {"top": self.known.finished_mm(LINE), "number": 3, "ratio": "1.5"}

    def reckon(self) -> SheetAnswer:
        given = self.cleaned_data
        return tiers_sheet(
            top_mm=self.mm_or_0("top"),
            hem_mm=self.mm("hem"),
            ratio=given.get("ratio"),
            count=given.get("number"),
            cloth=self.cloth(),
        )


class PleatsSheet(StripSheet):
    kind = WorkNote.Kind.PLEATS
    says = "Knife, box, inverted, double box or cartridge pleats: give what is known, get the rest."

    pleat = forms.ChoiceField(label="Pleats", choices=[(one.value, one.value) for one in Pleat])
    finished = LengthFormField(label="Finished length", required=False)
    flat = LengthFormField(label="Flat cloth", required=False)
    number = forms.IntegerField(label="How many", required=False, min_value=1, max_value=2000)
    width = LengthFormField(label="Width of one, as it shows", required=False)
    depth = LengthFormField(
        label="Depth of a fold",
        required=False,
        help_text="Give three of these five; the others follow, in whole pleats.",
    )

    def fill(self) -> dict[str, Any]:
        flat_mm, made_mm = self.known.flat_mm.get(LINE), self.known.made_mm.get(LINE)
        wanted_mm = self.known.finished_mm(LINE)
        is_full = bool(flat_mm and made_mm and flat_mm > 1.05 * made_mm)
        return {
            "pleat": Pleat.KNIFE.value,
            "finished": wanted_mm,
            "flat": flat_mm if is_full else None,
            "width": 25.4,
            "depth": None if is_full else 25.4,
        }

    def reckon(self) -> SheetAnswer:
        known = PleatGivens(
            finished=self.mm("finished"),
            flat=self.mm("flat"),
            number=self.cleaned_data.get("number"),
            width=self.mm("width"),
            depth=self.mm("depth"),
        )
        return pleats_sheet(Pleat(self.cleaned_data["pleat"]), known, self.cloth())


class TucksSheet(StripSheet):
    kind = WorkNote.Kind.TUCKS
    says = "Tucks side by side, spaced to come out even: give what is known, get the rest."

    finished = LengthFormField(label="Finished length", required=False)
    flat = LengthFormField(label="Flat cloth", required=False)
    number = forms.IntegerField(label="How many", required=False, min_value=2, max_value=2000)
    spacing = LengthFormField(label="At most so far apart, stitching to stitching", required=False)
    depth = LengthFormField(
        label="Depth of a tuck",
        required=False,
        help_text="Give three of these five; the others follow, in whole tucks.",
    )
    edge = LengthFormField(label="The outer ones so far from the edges", required=False)

    def fill(self) -> dict[str, Any]:
        return {"finished": self.known.finished_mm(LINE), "spacing": 25.4, "depth": 6.35}

    def reckon(self) -> SheetAnswer:
        known = TuckGivens(
            finished=self.mm("finished"),
            flat=self.mm("flat"),
            number=self.cleaned_data.get("number"),
            spacing=self.mm("spacing"),
            depth=self.mm("depth"),
        )
        return tucks_sheet(known, edge_mm=self.mm_or_0("edge"), cloth=self.cloth())
