"""What to print on which paper: shape, pieces, size, and an allowance for each edge."""

from collections.abc import Collection, Mapping
from typing import Any

from django import forms
from django.db.models import QuerySet

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.forms import LengthFormField, LengthsInUnit
from catalogue.plates.models.piece import Piece
from catalogue.workroom.models import User
from fitting.pattern.calculation.notch_numbers import notch_numbers
from fitting.pattern.calculation.sheets.miniature import largest_scale, miniature_sheet
from fitting.pattern.calculation.sheets.paper import PAPERS, Paper, faults_of
from fitting.pattern.calculation.sheets.sheet import (
    Allowances,
    PieceToPrint,
    Sheet,
    full_size_sheet,
)
from fitting.pattern.calculation.small_stand import StandRatio, ratio_for_stand
from fitting.pattern.calculation.working.level_lines import reaching
from fitting.pattern.calculation.working.pattern import Allowance, Path, PatternPiece
from fitting.pattern.loading.garment_patterns import GarmentPattern, own_cutting_line
from fitting.wearers.models import Stand

ROLL = "roll"
FULL, MINIATURE = "full size", "miniature"


class SheetsForm(LengthsInUnit, forms.Form):
    """Sent by GET: it keeps nothing, and holds no measure. `sheet` is there once it is valid.

    `of`: the pattern whose pieces are printed. `words` are the garment and the day, for every piece.
    `girths_mm` are those that a small stand stands for: the wearer's where the pieces are graded, else the
    garment's own. `is_largest`: nobody said how small a miniature is to be.
    """

    ratio: StandRatio | None = None
    is_largest = False

    shape = forms.CharField(widget=forms.HiddenInput, required=False)
    size = forms.ChoiceField(
        label="Size", choices=[(FULL, "full size, in pages"), (MINIATURE, "miniature, on one page")]
    )
    one_to = forms.FloatField(
        label="Miniature, 1 to",
        required=False,
        min_value=1,
        max_value=40,
        help_text="Left empty: the largest that fits the paper.",
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
        of: GarmentPattern,
        words: tuple[str, str],
        stands: QuerySet[Stand],
        girths_mm: Mapping[str, float],
        user: User,
        **kwargs: Any,
    ) -> None:
        self.of, self.words, self.girths_mm = of, words, girths_mm
        super().__init__(data, user=user, **kwargs)
        self.fields["stand"].queryset = stands
        pieces = of.pattern.pieces
        self.fields["pieces"].choices = [
            (key, piece.name) for key, piece in zip(of.keys, pieces, strict=True)
        ]
        self.initial.setdefault("pieces", list(of.keys))
        self.initial.setdefault("shape", of.how)
        self.with_own = [piece.name for piece in pieces if piece.allowance != Allowance()]
        edge_names = dict.fromkeys(name for piece in pieces for name in piece.edges)
        self.edges = {f"edge_{at}": name for at, name in enumerate(edge_names)}
        for field, name in self.edges.items():
            self.fields[field] = LengthFormField(label=name, required=False, unit=user.system)
            self.fields[field].widget.attrs["placeholder"] = user.system

    def edge_boxes(self) -> list[forms.BoundField]:
        return [self[field] for field in self.edges]

    def single_boxes(self) -> list[forms.BoundField]:
        return [self[name] for name in self.base_fields if name not in ("pieces", "shape")]

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
        pieces = self._to_print(cleaned["pieces"])
        if cleaned["size"] == MINIATURE:
            small = cleaned["small_allowance"]
            given = {"paper": paper, "allowance_mm": small.um / 1000 if small else 0.0}
            scale = self._scale(cleaned) or largest_scale(pieces, **given)
            if scale is None:
                raise Faults([Fault("paper", f"At no scale do the pieces lie on one page of {paper.name}.")])
            self.sheet: Sheet = miniature_sheet(pieces, scale=scale, **given)
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
    def one_to_fitting(self) -> str:
        return f"{1 / self.sheet.scale:g}"

    @property
    def allowance_text(self) -> str:
        """The allowance of what is printed, as typed."""
        is_small = self.cleaned_data["size"] == MINIATURE
        typed = self.cleaned_data["small_allowance" if is_small else "allowance"]
        return typed.text if typed else "none"

    def _scale(self, cleaned: Mapping[str, Any]) -> float | None:
        """Of a miniature, as typed or for a stand; None where it is to be as large as the paper takes."""
        stand = cleaned["stand"]
        if stand is None:
            self.is_largest = not cleaned["one_to"]
            return None if self.is_largest else 1 / cleaned["one_to"]
        stand_mm = {one.line: one.value.mm for one in stand.measures.all()}
        self.ratio = ratio_for_stand(self.girths_mm, stand_mm)
        return 1 / self.ratio.one_to

    def _paper(self, cleaned: Mapping[str, Any]) -> Paper:
        if cleaned["paper"] != ROLL:
            return PAPERS[cleaned["paper"]]
        width = cleaned["roll_width"]
        return Paper.roll(width.um / 1000 if width else 0.0)

    def _to_print(self, chosen: Collection[str]) -> list[PieceToPrint]:
        of, pattern = self.of, self.of.pattern
        numbers = notch_numbers([piece.shape for piece in pattern.pieces], of.walked())
        garment, day = self.words
        return [
            PieceToPrint(
                shape=piece.shape,
                words=(piece.name, cut_in_words(piece), garment, of.paper, f"{of.made_of(piece)}, {day}"),
                levels={
                    _level_name(level): _drawn_level(piece, path) for level, path in piece.levels.items()
                },
                numbers=numbers[piece.name],
                own_cut=own_cutting_line(pattern, piece),
            )
            for key, piece in zip(of.keys, pattern.pieces, strict=True)
            if key in chosen
        ]


def cut_in_words(piece: PatternPiece) -> str:
    """How often a piece is cut, and how many of these are mirrored."""
    fold = " on the fold" if piece.on_fold else ""
    mirrored = f", {piece.cut // 2} of them mirrored" if piece.mirrored and piece.cut > 1 else ""
    cloth = Piece.ClothRole(piece.cloth).label if piece.cloth in Piece.ClothRole.values else "outer"
    return f"cut {piece.cut}{fold}{mirrored}, {cloth}"


def _level_name(level: str) -> str:
    return LINES[level].label if level in LINES else level


def _drawn_level(piece: PatternPiece, path: Path) -> Path:
    parts = reaching(piece.outline, path)
    return (parts[0][0], *(end for _, end in parts))
