"""The boxes of the two sheets about seams: every seam of the plate, and the sleeve in its armhole."""

from collections.abc import Sequence
from typing import Any

from catalogue.forms.length import LengthFormField
from catalogue.measuring.errors import Fault, Faults
from fitting.bridge.pattern_work.seams import seams_sheet, sleeve_sheet
from fitting.bridge.pattern_work.worked import Worked
from fitting.calculation.seam_match import Stretch
from fitting.forms.pattern_work.sheet import BoxRow, BoxTable, WorkSheet
from fitting.models import WorkNote

BLANK_ROWS = 2
COLUMNS = ("name", "first", "second", "ease")


class SeamsSheet(WorkSheet):
    kind = WorkNote.Kind.SEAMS
    says = "Each seam’s two edges at full size, with their difference."

    def add_rows(self) -> None:
        self.sewn = [seam for seam in self.known.seams if not seam.is_one_edge]
        self.count = len(self.sewn) + BLANK_ROWS
        for at in range(1, self.count + 1):
            self.add_word(f"name {at}", f"seam {at}", size=30)
            self.add_length(f"first {at}", f"first edge of seam {at}")
            self.add_length(f"second {at}", f"second edge of seam {at}")
            self.add_length(f"ease {at}", f"ease of seam {at}", signed=True)

    def fill(self) -> dict[str, Any]:
        filled: dict[str, Any] = {}
        for at, seam in enumerate(self.sewn, start=1):
            filled |= {f"name {at}": str(seam)[:80], f"first {at}": seam.a_mm, f"second {at}": seam.b_mm}
            if seam.is_eased and seam.a_mm and seam.b_mm:
                filled[f"ease {at}"] = seam.a_mm - seam.b_mm
        return filled

    def tables(self) -> Sequence[BoxTable]:
        rows = [
            BoxRow(label=str(at), boxes=[self[f"{name} {at}"] for name in COLUMNS])
            for at in range(1, self.count + 1)
        ]
        says = (
            "Filled from the edges read on the plate, at full size. Ease is what the first edge is meant "
            "to be longer by. An empty row is left out."
        )
        return (
            BoxTable(
                caption="Seams", heads=("", "seam", "first edge", "second edge", "ease"), rows=rows, says=says
            ),
        )

    def reckon(self) -> Worked:
        stretches, faults = [], []
        for at in range(1, self.count + 1):
            first_mm, second_mm = self.mm(f"first {at}"), self.mm(f"second {at}")
            if first_mm is None and second_mm is None:
                continue
            if first_mm is None or second_mm is None:
                empty = "first" if first_mm is None else "second"
                faults.append(Fault(f"{empty} {at}", "Measure this edge too."))
                continue
            name = self.cleaned_data.get(f"name {at}") or f"seam {at}"
            stretches.append(
                Stretch(
                    name=name, longer_mm=first_mm, shorter_mm=second_mm, ease_mm=self.mm_or_0(f"ease {at}")
                )
            )
        if faults or not stretches:
            raise Faults(faults or [Fault("", "Give both edges of at least one seam.")])
        return seams_sheet(stretches)


class SleeveSheet(WorkSheet):
    kind = WorkNote.Kind.SLEEVE
    says = "Sleeve head against armhole, front and back apart, with the notches along both."

    head_front_mm = LengthFormField(label="Sleeve head, front, from the pitch point to the top")
    head_back_mm = LengthFormField(label="Sleeve head, back")
    armhole_front_mm = LengthFormField(label="Armhole, front")
    armhole_back_mm = LengthFormField(label="Armhole, back")
    ease_front_mm = LengthFormField(label="Ease wanted, front", required=False)
    ease_back_mm = LengthFormField(label="Ease wanted, back", required=False)
    gathered_mm = LengthFormField(label="Of the head, gathered over the top", required=False)
    gathered_into_mm = LengthFormField(label="Into so much of the armhole", required=False)
    every_mm = LengthFormField(
        label="Notches at most so far apart",
        required=False,
        help_text="Left empty: between the stretches only.",
    )

    def fill(self) -> dict[str, Any]:
        """Halves, until the pitch points are measured."""
        seam = next(
            (one for one in self.known.seams if "head" in one.edge_a and "armhole" in one.edge_b), None
        )
        if seam is None or seam.a_mm is None or seam.b_mm is None:
            return {}
        head, hole = seam.a_mm / 2, seam.b_mm / 2
        return {
            "head_front_mm": head, "head_back_mm": head, "armhole_front_mm": hole, "armhole_back_mm": hole,
            "ease_front_mm": max(0.0, head - hole), "ease_back_mm": max(0.0, head - hole),
        }  # fmt: skip

    def reckon(self) -> Worked:
        edges = {name: self.mm_or_0(name) for name in self.fields if name != "every_mm"}
        return sleeve_sheet(every_mm=self.mm("every_mm") or None, **edges)

    def box_of(self, where: str) -> str | None:
        return super().box_of(f"{where}_mm")
