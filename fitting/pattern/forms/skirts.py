"""The boxes of skirts: part of a circle, gores, and lengths over a support."""

from collections.abc import Sequence
from typing import Any

from django import forms

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.forms import LengthFormField
from fitting.pattern.calculation.skirts import GoreShare, equal_shares
from fitting.pattern.calculation.support import Train
from fitting.pattern.forms.sheet import BoxRow, BoxTable, WorkSheet
from fitting.pattern.loading.sheet_answer import SheetAnswer
from fitting.pattern.models import WorkNote
from fitting.pattern.showing.circle import circle_sheet
from fitting.pattern.showing.skirts import gores_sheet, support_sheet

LENGTHS = ("skirt front", "skirt side", "skirt back")
FIRST_LENGTH_MM, FIRST_HIP_DEPTH_MM = 1016.0, 177.8
SHARE_ROWS, HEIGHT_ROWS = 5, 9
SHARE_COLUMNS = ("gore", "cut", "waist", "hip", "hem", "length", "straight")


class CircleSheet(WorkSheet):
    kind = WorkNote.Kind.CIRCLE
    says = "Radii of a skirt cut as a circle or part of one."

    waist = LengthFormField(label="Waist")
    length = LengthFormField(label="Length")
    part = forms.ChoiceField(
        label="How much of a circle",
        choices=[
            ("1", "a whole circle"),
            ("0.75", "three quarters"),
            ("0.5", "half a circle"),
            ("0.25", "a quarter"),
        ],
    )
    allowance = LengthFormField(label="Allowance at every edge", required=False)
    opening = LengthFormField(
        label="Laps over at the opening", required=False, help_text="A placket or a wrap, beyond the waist."
    )

    def fill(self) -> dict[str, Any]:
        return {
            "waist": self.known.finished_mm("waist"),
            "length": _length(self),
            "part": "0.5",
            "allowance": self.known.usual_mm,
        }

    def reckon(self) -> SheetAnswer:
        return circle_sheet(
            waist_mm=self.mm_or_0("waist"),
            length_mm=self.mm_or_0("length"),
            part=float(self.cleaned_data["part"]),
            allowance_mm=self.mm_or_0("allowance"),
            opening_mm=self.mm_or_0("opening"),
        )


class GoresSheet(WorkSheet):
    kind = WorkNote.Kind.GORES
    says = "Gores from waist, hip, hem and length, alike or of unequal shares, with the curves they need."

    waist_mm = LengthFormField(label="Waist")
    hip_mm = LengthFormField(label="Hip, with ease")
    hip_depth_mm = LengthFormField(label="Hip below the waist")
    hem_mm = LengthFormField(label="Hem, round")
    length_mm = LengthFormField(label="Length")
    number = forms.IntegerField(
        label="Gores, all alike", required=False, min_value=2, max_value=40,
        help_text="Or leave this empty and give each its share below.",
    )  # fmt: skip

    def add_rows(self) -> None:
        for at in range(1, SHARE_ROWS + 1):
            self.add_word(f"gore {at}", f"gore {at}")
            self.add_number(f"cut {at}", f"how often gore {at} is cut", min_value=1, max_value=12)
            for name in ("waist", "hip", "hem"):
                label = f"share of gore {at} in the {name}, percent"
                self.fields[f"{name} {at}"] = forms.FloatField(
                    required=False, label=label, min_value=0, max_value=100
                )
                self.fields[f"{name} {at}"].widget.attrs |= {"aria-label": label}
            self.add_length(f"length {at}", f"length of gore {at}")
            label = f"gore {at} has one straight edge"
            self.fields[f"straight {at}"] = forms.BooleanField(required=False, label=label)
            self.fields[f"straight {at}"].widget.attrs |= {"aria-label": label}

    def fill(self) -> dict[str, Any]:
        return {
            "waist_mm": self.known.finished_mm("waist"),
            "hip_mm": self.known.finished_mm("hip"),
            "hip_depth_mm": FIRST_HIP_DEPTH_MM,
            "hem_mm": self.known.made_mm.get("hem"),
            "length_mm": _length(self),
            "number": 6,
        }

    def tables(self) -> Sequence[BoxTable]:
        rows = [
            BoxRow(label=str(at), boxes=[self[f"{name} {at}"] for name in SHARE_COLUMNS])
            for at in range(1, SHARE_ROWS + 1)
        ]
        heads = ("", "gore", "cut", "waist, %", "hip, %", "hem, %", "own length", "one straight edge")
        says = "Each gore’s share of the whole, for one of it: times cut, every column comes to 100."
        return (BoxTable(caption="Gores of unequal shares", heads=heads, rows=rows, says=says),)

    def reckon(self) -> SheetAnswer:
        count = self.cleaned_data.get("number")
        shares = (
            equal_shares(count) if count else tuple(filter(None, map(self._share, range(1, SHARE_ROWS + 1))))
        )
        if not shares:
            raise Faults([Fault("number", "Say how many gores, or the share of each.")])
        return gores_sheet(
            shares,
            **{
                name: self.mm_or_0(name)
                for name in ("waist_mm", "hip_mm", "hem_mm", "length_mm", "hip_depth_mm")
            },
        )

    def _share(self, at: int) -> GoreShare | None:
        given = self.cleaned_data
        if not given.get(f"gore {at}"):
            return None
        return GoreShare(
            name=given[f"gore {at}"],
            waist=(given.get(f"waist {at}") or 0) / 100,
            hip=(given.get(f"hip {at}") or 0) / 100,
            hem=(given.get(f"hem {at}") or 0) / 100,
            cut=given.get(f"cut {at}") or 1,
            straight_edge=given.get(f"straight {at}") or False,
            length_mm=self.mm(f"length {at}"),
        )

    def box_of(self, where: str) -> str | None:
        """Shares that are not the whole are told in the first row, a narrowing gore in its own."""
        if where in ("waist", "hip", "hem"):
            return f"{where} 1"
        row = next(
            (at for at in range(1, SHARE_ROWS + 1) if self.cleaned_data.get(f"gore {at}") == where), None
        )
        return f"hem {row}" if row else super().box_of("hem_mm" if where == "gore" else f"{where}_mm")


class SupportSheet(WorkSheet):
    kind = WorkNote.Kind.SUPPORT
    says = "A skirt’s length all round over hoops, pads or a bustle, from heights taped to the floor."

    clearance = LengthFormField(label="Hem clear of the floor by", required=False)
    train = LengthFormField(label="Train at centre back", required=False)
    train_from = forms.ChoiceField(
        label="The train begins at",
        choices=[("0.5", "the side"), ("0.375", "a little before the side"), ("0.75", "behind the side")],
    )

    def add_rows(self) -> None:
        for at in range(HEIGHT_ROWS):
            self.add_length(f"height {at}", f"height {at} eighths round from centre front")

    def fill(self) -> dict[str, Any]:
        body = self.known.body_mm
        places = {0: "skirt front", 4: "skirt side", 8: "skirt back"}
        return {"clearance": 25.4, "train_from": "0.5"} | {
            f"height {at}": body.get(line) for at, line in places.items()
        }

    def tables(self) -> Sequence[BoxTable]:
        names = {0: "centre front", 4: "side", 8: "centre back"}
        rows = [
            BoxRow(label=names.get(at, f"{at}/8 round"), boxes=[self[f"height {at}"]])
            for at in range(HEIGHT_ROWS)
        ]
        says = (
            "Over the support, from the waist down to the floor: centre front, centre back and three between."
        )
        return (BoxTable(caption="Taped heights", heads=("place", "height"), rows=rows, says=says),)

    def reckon(self) -> SheetAnswer:
        heights = [
            (at / (HEIGHT_ROWS - 1), mm)
            for at in range(HEIGHT_ROWS)
            if (mm := self.mm(f"height {at}")) is not None
        ]
        train = Train(length_mm=self.mm_or_0("train"), from_place=float(self.cleaned_data["train_from"]))
        return support_sheet(heights, clearance_mm=self.mm_or_0("clearance"), train=train)

    def box_of(self, where: str) -> str | None:
        return "height 0" if where == "heights" else super().box_of(where)


def _length(sheet: WorkSheet) -> float:
    """As taken on the wearer, else as the plate has it."""
    for found in (sheet.known.body_mm, sheet.known.made_mm):
        for line in LENGTHS:
            if line in found:
                return found[line]
    return FIRST_LENGTH_MM
