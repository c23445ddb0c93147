"""The boxes of bias, piping, boning, fastenings and sewing time."""

from collections.abc import Sequence
from typing import Any

from django import forms

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.forms import LengthFormField
from fitting.pattern.forms.sheet import BoxRow, BoxTable, WorkSheet
from fitting.pattern.loading.sheet_answer import SheetAnswer, number
from fitting.pattern.models import WorkNote
from fitting.pattern.showing.trimming import (
    bias_sheet,
    boning_sheet,
    fastening_sheet,
    piping_sheet,
    sewing_sheet,
)

CHANNELS, BLANK_SEAMS = 10, 3
HOLE_FROM_EDGE_MM = 9.525  # 3/8 in; common practice, no source


class BiasSheet(WorkSheet):
    kind = WorkNote.Kind.BIAS
    says = "Bias strips for a length: from a square, across the cloth, or from the piece you have."

    total_mm = LengthFormField(label="Length wanted")
    strip_mm = LengthFormField(label="Width of the strip")
    seam_mm = LengthFormField(label="Allowance at each join", required=False)
    width_mm = LengthFormField(label="Width of the cloth")
    length_mm = LengthFormField(label="Length of the piece you have", required=False)

    def fill(self) -> dict[str, Any]:
        hem = self.known.made_mm.get("hem") or self.known.finished_mm("waist")
        return {"total_mm": hem, "strip_mm": 38.1, "seam_mm": 6.35, "width_mm": 1143.0}

    def reckon(self) -> SheetAnswer:
        given = {name: self.mm_or_0(name) for name in self.fields if name != "length_mm"}
        return bias_sheet(**given, length_mm=self.mm("length_mm"))

    def box_of(self, where: str) -> str | None:
        return super().box_of("width" if where == "cloth_width" else where)


class PipingSheet(WorkSheet):
    kind = WorkNote.Kind.PIPING
    says = "The bias strip round a cord."

    cord_mm = LengthFormField(label="Thickness of the cord")
    allowance_mm = LengthFormField(label="Allowance on each side")
    length_mm = LengthFormField(label="Length of piping")

    def fill(self) -> dict[str, Any]:
        return {
            "cord_mm": 3.175,
            "allowance_mm": self.known.usual_mm,
            "length_mm": self.known.finished_mm("waist"),
        }

    def reckon(self) -> SheetAnswer:
        return piping_sheet(**{name: self.mm_or_0(name) for name in self.fields})

    def box_of(self, where: str) -> str | None:
        return super().box_of("cord_mm" if where == "strip" else where)


class BoningSheet(WorkSheet):
    kind = WorkNote.Kind.BONING
    says = "Bones from the channels they go into: each length, how many, and how much to buy."

    bone_width = LengthFormField(label="Width of a bone")
    sides = forms.ChoiceField(label="Sides", choices=[("2", "both sides alike"), ("1", "as listed")])

    def add_rows(self) -> None:
        for at in range(CHANNELS):
            self.add_length(f"channel {at}", f"channel {at + 1}")

    def fill(self) -> dict[str, Any]:
        return {"bone_width": 6.35, "sides": "2"}

    def tables(self) -> Sequence[BoxTable]:
        rows = [BoxRow(label=str(at + 1), boxes=[self[f"channel {at}"]]) for at in range(CHANNELS)]
        return (BoxTable(caption="Channels", heads=("channel", "its length"), rows=rows),)

    def reckon(self) -> SheetAnswer:
        self.filled_at = [at for at in range(CHANNELS) if self.mm(f"channel {at}") is not None]
        if not self.filled_at:
            raise Faults([Fault("channels[0]", "Give at least one channel.")])
        return boning_sheet(
            [self.mm_or_0(f"channel {at}") for at in self.filled_at],
            bone_width_mm=self.mm_or_0("bone_width"),
            sides=int(self.cleaned_data["sides"]),
        )

    def box_of(self, where: str) -> str | None:
        """`channels[i]` counts those given: an empty box between two is passed over."""
        at = int(where.removeprefix("channels[").removesuffix("]"))
        return f"channel {self.filled_at[at] if self.filled_at else at}"


class FasteningSheet(WorkSheet):
    kind = WorkNote.Kind.FASTENING
    says = "Holes, buttons or hooks spaced to come out even, and the lace for getting in."

    length = LengthFormField(label="Length of the edge")
    spacing_mm = LengthFormField(label="About so far apart")
    first_mm = LengthFormField(label="The first from the upper edge", required=False)
    last_mm = LengthFormField(label="The last from the lower edge", required=False)
    at_mm = LengthFormField(
        label="One of them exactly at", required=False, help_text="From the upper edge, such as at the waist."
    )
    gap_mm = LengthFormField(
        label="Opened by, to get in",
        required=False,
        help_text="For a lace; leave empty for buttons or hooks.",
    )
    from_edge_1_mm = LengthFormField(label="Holes in from their edge, one side", required=False)
    from_edge_2_mm = LengthFormField(label="Holes in from their edge, the other side", required=False)
    ends_mm = LengthFormField(label="Each end of the lace, to tie", required=False)

    def fill(self) -> dict[str, Any]:
        lengths = self.known.made_mm
        return {
            "length": lengths.get("front waist") or lengths.get("nape to waist"),
            "spacing_mm": 25.4, "first_mm": 12.7, "last_mm": 12.7, "ends_mm": 304.8,
            "from_edge_1_mm": HOLE_FROM_EDGE_MM, "from_edge_2_mm": HOLE_FROM_EDGE_MM,
        }  # fmt: skip

    def reckon(self) -> SheetAnswer:
        given = {name: self.mm_or_0(name) for name in ("spacing_mm", "first_mm", "last_mm", "ends_mm")}
        return fastening_sheet(
            length_mm=self.mm_or_0("length"),
            at_mm=self.mm("at_mm"),
            gap_mm=self.mm("gap_mm"),
            from_edges_mm=[self.mm_or_0("from_edge_1_mm"), self.mm_or_0("from_edge_2_mm")],
            **given,
        )


class SewingSheet(WorkSheet):
    kind = WorkNote.Kind.SEWING
    says = "Hours of sewing by hand, from one seam that you sewed and timed."

    sample_mm = LengthFormField(label="Length of the seam you timed")
    minutes = forms.FloatField(label="Minutes it took", min_value=0.1, max_value=10_000)
    per_inch = forms.FloatField(label="Stitches to the inch", min_value=0.5, max_value=100)

    def add_rows(self) -> None:
        if timed := self.known.timed:
            self.fields["sample_mm"].help_text = f"From the log, {timed.day:%-d %B %Y}."
        self.sewn = [seam for seam in self.known.seams if seam.a_mm]
        self.count = len(self.sewn) + BLANK_SEAMS
        for at in range(1, self.count + 1):
            self.add_word(f"name {at}", f"seam {at}", size=30)
            self.add_length(f"length {at}", f"length of seam {at}")
            self.add_number(f"times {at}", f"how often seam {at} is sewn", min_value=1, max_value=99)

    def fill(self) -> dict[str, Any]:
        filled: dict[str, Any] = {"sample_mm": 254.0, "per_inch": "10"}
        if timed := self.known.timed:
            filled["sample_mm"] = timed.seam.mm
            filled["minutes"] = number(timed.seam_minutes)
        for at, seam in enumerate(self.sewn, start=1):
            times = 1 if seam.is_one_edge else seam.cut
            filled |= {f"name {at}": str(seam)[:80], f"length {at}": seam.a_mm, f"times {at}": times}
        return filled

    def tables(self) -> Sequence[BoxTable]:
        rows = [
            BoxRow(label=str(at), boxes=[self[f"{name} {at}"] for name in ("name", "length", "times")])
            for at in range(1, self.count + 1)
        ]
        says = "Both sides of the body counted. A felled seam is sewn twice: count it twice."
        heads = ("", "seam", "length", "times sewn")
        return (BoxTable(caption="Seams to sew", heads=heads, rows=rows, says=says),)

    def reckon(self) -> SheetAnswer:
        given = self.cleaned_data
        seams = [
            (given.get(f"name {at}") or f"seam {at}", mm, given.get(f"times {at}") or 1)
            for at in range(1, self.count + 1)
            if (mm := self.mm(f"length {at}")) is not None
        ]
        if not seams:
            raise Faults([Fault("length 1", "Give the length of at least one seam.")])
        return sewing_sheet(
            seams, sample_mm=self.mm_or_0("sample_mm"), minutes=given["minutes"], per_inch=given["per_inch"]
        )

    def box_of(self, where: str) -> str | None:
        return super().box_of("sample_mm" if where == "sample" else where)
