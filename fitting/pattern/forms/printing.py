"""What to print on which paper: shape, pieces, size, and an allowance for each edge."""

from collections.abc import Iterable, Mapping
from typing import Any

from django import forms
from django.db.models import QuerySet

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.forms import LengthFormField, LengthsInUnit
from catalogue.plates.models.piece import Piece
from catalogue.tracing.calculation.tracing import TracedShape
from catalogue.workroom.models import User
from fitting.pattern.calculation.sheets.paper import PAPERS, Paper, faults_of
from fitting.pattern.calculation.sheets.sheet import (
    Allowances,
    PieceToPrint,
    Sheet,
    full_size_sheet,
    miniature_sheet,
)
from fitting.pattern.calculation.small_stand import StandRatio, ratio_for_stand
from fitting.wearers.models import Stand

ROLL = "roll"
FULL, MINIATURE = "full size", "miniature"
DRAWN, GRADED = "as drawn", "graded"


class SheetsForm(LengthsInUnit, forms.Form):
    """Sent by GET: it keeps nothing, and holds no measure. `sheet` is there once it is valid.

    `made` says how drawn and graded pieces came about; `words` are the garment, the version of
    its pattern and the day, for every piece.
    `girths_mm` are those that a small stand stands for: the wearer's where the pieces are graded, else the
    garment's own.
    """

    ratio: StandRatio | None = None

    shape = forms.ChoiceField(label="Pieces", choices=[(DRAWN, "as drawn on the plate")])
    size = forms.ChoiceField(
        label="Size", choices=[(FULL, "full size, in pages"), (MINIATURE, "miniature, on one page")]
    )
    one_to = forms.FloatField(
        label="Miniature, 1 to", required=False, min_value=1, max_value=40, help_text="As on the plate."
    )
    stand = forms.ModelChoiceField(
        queryset=Stand.objects.none(),
        to_field_name="key",
        label="Miniature for a small stand",
        required=False,
        empty_label="no, 1 to what is said",
        help_text="Then the ratio follows from its girths.",
    )
    paper = forms.ChoiceField(
        label="Paper", choices=[*((name, name) for name in PAPERS), (ROLL, "a roll, of the width below")]
    )
    roll_width = LengthFormField(label="Width of the roll", required=False)
    overlap = LengthFormField(label="Pages overlap by")
    allowance = LengthFormField(label="Usual allowance")
    small_allowance = LengthFormField(
        label="Allowance of a miniature", required=False, help_text="As it measures on the tissue."
    )
    pieces = forms.MultipleChoiceField(label="Which pieces", widget=forms.CheckboxSelectMultiple)

    def __init__(
        self,
        data: Any = None,
        *,
        shapes: Mapping[Piece, TracedShape],
        graded: Mapping[str, TracedShape],
        edge_names: Iterable[str],
        made: Mapping[str, str],
        words: tuple[str, str, str],
        stands: QuerySet[Stand],
        girths_mm: Mapping[str, Mapping[str, float]],
        user: User,
        **kwargs: Any,
    ) -> None:
        self.shapes, self.graded, self.made, self.words = shapes, graded, made, words
        self.girths_mm = girths_mm
        super().__init__(data, user=user, **kwargs)
        self.fields["stand"].queryset = stands
        self.fields["pieces"].choices = [(str(piece.key), piece.name) for piece in shapes]
        self.initial.setdefault("pieces", [str(piece.key) for piece in shapes])
        if graded:
            self.fields["shape"].choices = [*self.fields["shape"].choices, (GRADED, "graded to the wearer")]
        self.edges = {f"edge_{at}": name for at, name in enumerate(edge_names)}
        for field, name in self.edges.items():
            self.fields[field] = LengthFormField(label=name, required=False, unit=user.system)
            self.fields[field].widget.attrs["placeholder"] = user.system

    def edge_boxes(self) -> list[forms.BoundField]:
        return [self[field] for field in self.edges]

    def single_boxes(self) -> list[forms.BoundField]:
        return [self[name] for name in self.base_fields if name != "pieces"]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if not self.errors:
            try:
                self._lay_out(cleaned)
            except Faults as faults:
                for fault in faults.faults:
                    self.add_error(fault.where if fault.where in self.fields else None, fault.sentence)
        return cleaned

    def _lay_out(self, cleaned: Mapping[str, Any]) -> None:
        paper, overlap_mm = self._paper(cleaned), cleaned["overlap"].um / 1000
        if faults := faults_of(paper, overlap_mm):
            raise Faults(faults)
        pieces = [self._to_print(piece) for piece in self.shapes if str(piece.key) in cleaned["pieces"]]
        if cleaned["size"] == MINIATURE:
            small = cleaned["small_allowance"]
            self.sheet: Sheet = miniature_sheet(
                pieces,
                paper=paper,
                scale=1 / self._one_to(cleaned),
                allowance_mm=small.um / 1000 if small else 0.0,
            )
            return
        usual_mm = cleaned["allowance"].um / 1000
        by_edge = {name: cleaned[field].um / 1000 for field, name in self.edges.items() if cleaned[field]}
        self.sheet = full_size_sheet(
            pieces,
            paper=paper,
            allowances=Allowances(usual_mm=usual_mm, by_edge=by_edge),
            overlap_mm=overlap_mm,
        )

    @property
    def allowance_text(self) -> str:
        """The allowance of what is printed, as typed."""
        is_small = self.cleaned_data["size"] == MINIATURE
        typed = self.cleaned_data["small_allowance" if is_small else "allowance"]
        return typed.text if typed else "none"

    def _one_to(self, cleaned: Mapping[str, Any]) -> float:
        stand = cleaned["stand"]
        if stand is None and not cleaned["one_to"]:
            raise Faults([Fault("one_to", "Say how many times smaller, or choose a stand.")])
        if stand is None:
            return cleaned["one_to"]
        stand_mm = {one.line: one.value.mm for one in stand.measures.all()}
        self.ratio = ratio_for_stand(self.girths_mm[cleaned["shape"]], stand_mm)
        return self.ratio.one_to

    def _paper(self, cleaned: Mapping[str, Any]) -> Paper:
        if cleaned["paper"] != ROLL:
            return PAPERS[cleaned["paper"]]
        width = cleaned["roll_width"]
        return Paper.roll(width.um / 1000 if width else 0.0)

    def _to_print(self, piece: Piece) -> PieceToPrint:
        made = self.cleaned_data["shape"] if piece.name in self.graded else DRAWN
        shape = self.graded[piece.name] if made == GRADED else self.shapes[piece]
        garment, version, day = self.words
        about = (piece.name, _cut(piece), garment, version, f"{self.made[made]}, {day}")
        return PieceToPrint(shape=shape, words=about)


def _cut(piece: Piece) -> str:
    fold = " on the fold" if piece.on_fold else ""
    return f"cut {piece.cut}{fold}, {piece.get_cloth_display()}"
