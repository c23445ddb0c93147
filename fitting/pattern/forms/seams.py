"""The boxes of every seam of a garment: walked on its traced pieces, or with typed edges."""

from collections.abc import Sequence
from typing import Any

from django import forms

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.forms import LengthFormField
from fitting.pattern.calculation.seam_match import Stretch
from fitting.pattern.calculation.seam_walk import SeamTolerance, named
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.sheet_answer import SheetAnswer
from fitting.pattern.forms.sheet import BoxRow, BoxTable, WorkSheet
from fitting.pattern.showing.seams import seams_sheet

BLANK_ROWS = 2
COLUMNS = ("name", "first", "second", "ease")


class SeamsSheet(WorkSheet):
    answers_at_once = True

    every = LengthFormField(
        label="Notches at most so far apart", required=False, help_text="Left empty: those that are traced."
    )

    def add_rows(self) -> None:
        self.walked = self.known.walkable.named_joins if self.known.walkable else ()
        if self.walked:
            walkable = self.known.walkable
            shapes = [(how, walkable.said[how]) for how in walkable.shapes]
            self.fields["pieces"] = forms.ChoiceField(label="Pieces", choices=shapes)
            self.order_fields(["pieces"])
        for at, (seam, _) in enumerate(self.walked, start=1):
            self.add_box(f"allowed {at}", ask.Length("ease", f"ease allowed: {seam}", is_signed=True))
            self.add_box(f"ratio {at}", ask.Number("ratio", f"gathers, to 1: {seam}", least=1, most=20))
        self.typed = [seam for seam in self.known.seams if not seam.is_one_edge and not seam.is_traced]
        self.count = len(self.typed) + BLANK_ROWS
        for at in range(1, self.count + 1):
            self.add_box(f"name {at}", ask.Text("name", f"seam {at}", default="", size=30))
            self.add_box(f"first {at}", ask.Length("first", f"first edge of seam {at}"))
            self.add_box(f"second {at}", ask.Length("second", f"second edge of seam {at}"))
            self.add_box(f"ease {at}", ask.Length("ease", f"ease of seam {at}", is_signed=True))

    def fill(self) -> dict[str, Any]:
        filled: dict[str, Any] = {}
        if self.walked:
            filled["pieces"] = self.known.walkable.best
            for at, allowed in enumerate(self.known.walkable.allowed(), start=1):
                filled[f"allowed {at}"] = allowed.ease_mm or None
        for at, seam in enumerate(self.typed, start=1):
            filled |= {f"name {at}": str(seam)[:80], f"first {at}": seam.a_mm, f"second {at}": seam.b_mm}
            if seam.is_eased and seam.a_mm and seam.b_mm:
                filled[f"ease {at}"] = seam.a_mm - seam.b_mm
        return filled

    def tables(self) -> Sequence[BoxTable]:
        walked_rows = [
            BoxRow(label=f"{at} · {named(join)}", boxes=[self[f"allowed {at}"], self[f"ratio {at}"]])
            for at, (_, join) in enumerate(self.walked, start=1)
        ]
        typed_rows = [
            BoxRow(label=str(at), boxes=[self[f"{name} {at}"] for name in COLUMNS])
            for at in range(1, self.count + 1)
        ]
        walked = BoxTable(
            caption="Seams of the traced pieces",
            heads=("seam", "ease allowed", "or gathers, to 1"),
            rows=walked_rows,
            says="Their edges are measured. Say how much longer the first is meant to be: filled where the "
            "plate has an edge eased on to the other.",
        )
        typed = BoxTable(
            caption="Other seams" if self.walked else "Seams",
            heads=("", "seam", "first edge", "second edge", "ease"),
            rows=typed_rows,
            says="Filled from the edges read on the plate, at full size. Ease is what the first edge is "
            "meant to be longer by. An empty row is left out.",
        )
        return (walked, typed) if self.walked else (typed,)

    def reckon(self) -> SheetAnswer:
        stretches = self._typed_stretches()
        if not (stretches or self.walked):
            raise Faults([Fault("", "Give both edges of at least one seam.")])
        if not self.walked:
            return seams_sheet([], stretches)
        allowed, how = self._allowed(), self.cleaned_data["pieces"]
        walked = zip(self.known.walkable.walked(how, allowed), allowed, strict=True)
        shapes = self.known.walkable.shapes[how]
        return seams_sheet(list(walked), stretches, shapes=shapes, every_mm=self.mm("every") or None)

    def box_of(self, where: str) -> str | None:
        return super().box_of("every" if where == "notches_every" else where)

    def _typed_stretches(self) -> list[Stretch]:
        stretches, faults = [], []
        for at in range(1, self.count + 1):
            edges = {edge: self.mm(f"{edge} {at}") for edge in ("first", "second")}
            empty = [edge for edge, mm in edges.items() if mm is None]
            if len(empty) == 1:
                faults.append(Fault(f"{empty[0]} {at}", "Measure this edge too."))
            elif not empty:
                name = self.cleaned_data.get(f"name {at}") or f"seam {at}"
                longer_mm, shorter_mm = edges.values()
                ease_mm = self.mm_or_0(f"ease {at}")
                stretches.append(
                    Stretch(name=name, longer_mm=longer_mm, shorter_mm=shorter_mm, ease_mm=ease_mm)
                )
        if faults:
            raise Faults(faults)
        return stretches

    def _allowed(self) -> list[SeamTolerance]:
        return [
            SeamTolerance(
                ease_mm=self.mm_or_0(f"allowed {at}"), ratio=self.cleaned_data.get(f"ratio {at}") or None
            )
            for at in range(1, len(self.walked) + 1)
        ]
