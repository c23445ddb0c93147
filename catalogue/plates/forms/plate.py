"""A plate, the measure that a proportional draft is reckoned for, and a piece."""

from typing import Any

from django import forms

from catalogue.lengths.calculation.errors import NotUnderstood
from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.forms import LengthFormField, LengthsInUnit
from catalogue.lengths.models import TypedLength
from catalogue.photographs.actions import PictureNotes, SentPicture
from catalogue.photographs.imaging import ImageRefused, read_upload
from catalogue.photographs.models import Photo
from catalogue.plates.calculation.scale import read_ratio
from catalogue.plates.loading import draft_of
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.forms.as_of import AsOf

# This group is asked of a proportional draft alone: plate.css folds it away from other plates.
FOR_A_DRAFT = "What the draft was drawn for"


class PlateForm(AsOf, LengthsInUnit, forms.ModelForm):
    picture_file = forms.FileField(
        label="or a new picture of the plate",
        required=False,
        help_text="Only if you may keep a copy of it. JPEG, PNG, WebP or TIFF.",
    )

    class Meta:
        model = Plate
        fields = (
            "title",
            "source",
            "page",
            "kind",
            "drawn_for_line",
            "drawn_for_half",
            "drawn_for_um",
            "scale_kind",
            "ratio",
            "page_um",
            "real_um",
            "across_page_um",
            "read_from",
            "allowance",
            "allowance_um",
            "rule_um",
            "drawing_um",
            "picture",
            "notes",
        )
        widgets = {"notes": forms.Textarea(attrs={"rows": 4})}
        help_texts = {"rule_um": "Of printed figures: the smallest fraction that they are given in."}

    # The fields as the page groups them.
    groups = (
        ("Where it is", ("title", "source", "page")),
        ("Kind of plate", ("kind",)),
        (FOR_A_DRAFT, ("drawn_for_line", "drawn_for_half", "drawn_for_um")),
        ("Scale", ("scale_kind", "ratio", "page_um", "real_um", "across_page_um", "read_from")),
        ("Seam allowance", ("allowance", "allowance_um")),
        ("How finely it is read", ("rule_um", "drawing_um")),
        ("Picture and notes", ("picture", "picture_file", "notes")),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        reference: ReferenceGarment = self.instance.reference
        self.fields["source"].queryset = reference.workroom.sources.all()
        self.fields["picture"].queryset = reference.photos.all()
        # The usual one, as in most manuals.
        self.initial["drawn_for_line"] = self.instance.drawn_for_line or "bust"

    def fieldsets(self) -> list[tuple[str, list[forms.BoundField], bool]]:
        """Legend, fields, and whether they are asked of a proportional draft alone."""
        return [
            (legend, [self[name] for name in names], legend == FOR_A_DRAFT) for legend, names in self.groups
        ]

    def clean_picture_file(self) -> SentPicture | None:
        file = self.cleaned_data["picture_file"]
        if not file:
            return None
        try:
            return SentPicture(file=file, prepared=read_upload(file))
        except ImageRefused as fault:
            raise forms.ValidationError(fault.sentence) from fault

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if cleaned.get("scale_kind") == Plate.ScaleKind.RATIO:
            try:
                read_ratio(cleaned.get("ratio", ""))
            except NotUnderstood as fault:
                self.add_error("ratio", fault.sentence if cleaned.get("ratio") else "Type the ratio, as 1:8.")
        elif cleaned.get("scale_kind") != Plate.ScaleKind.FIGURES:
            self._need_more_than_nothing("page_um", "Type how long it is on the page.")
            self._need_more_than_nothing("real_um", "Type how long the same is at full size.")
        if cleaned.get("allowance") == Plate.AllowanceKind.INCLUDED:
            self._need_more_than_nothing("allowance_um", "Type how wide the allowance is at full size.")
        self._need_more_than_nothing("rule_um", "Type the smallest division of your rule, as 1/16 in.")
        across = cleaned.get("across_page_um")
        if across is not None and across.um <= 0:
            self.add_error("across_page_um", "Leave it empty if both ways are the same.")
        self._clean_drawn_for(cleaned)
        return cleaned

    def _clean_drawn_for(self, cleaned: dict[str, Any]) -> None:
        if cleaned.get("kind") != Plate.Kind.DRAFT:
            # Not asked, so whatever stands in boxes that nobody sees is no fault.
            self.errors.pop("drawn_for_um", None)
            cleaned |= {"drawn_for_line": "", "drawn_for_half": True, "drawn_for_um": None}
            return
        line = cleaned.get("drawn_for_line")
        if not line:
            self.add_error("drawn_for_line", "Choose the measure that its figures are parts of.")
        elif cleaned["drawn_for_half"] and LINES[line].kind == "length":
            self.add_error("drawn_for_half", "Only a girth is halved: take off the tick for a length.")
        self._need_more_than_nothing("drawn_for_um", "Type that measure of the body drawn for, as 18 in.")

    def _need_more_than_nothing(self, name: str, sentence: str) -> None:
        length = self.cleaned_data.get(name)
        if name not in self.errors and (length is None or length.um <= 0):
            self.add_error(name, sentence)

    def notes_on_picture(self) -> PictureNotes:
        source = self.cleaned_data["source"]
        return PictureNotes(
            view=Photo.View.PLATE,
            caption=self.cleaned_data["title"] or "the plate",
            rights=source.rights if source else "",
            source=source,
        )


class DraftMeasureForm(LengthsInUnit, forms.Form):
    """For whom else a proportional draft is reckoned: typed as the draft states its own measure."""

    measure = LengthFormField(
        label="Reckon it for another",
        help_text="Figures in parts grow with it; plain ones, allowances, overlap and gap stay.",
    )

    def __init__(self, *args: Any, plate: Plate, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        half = "half " if plate.drawn_for_half else ""
        self.fields["measure"].label = f"Reckon it for another {half}{LINES[plate.drawn_for_line].label}"
        self.draft = draft_of(plate)

    def clean_measure(self) -> TypedLength:
        if self.cleaned_data["measure"].um <= 0:
            raise forms.ValidationError("Type a measure of more than nothing.")
        return self.cleaned_data["measure"]

    @property
    def body_mm(self) -> float:
        """The whole measure; the form must be valid."""
        return self.cleaned_data["measure"].mm / self.draft.share_mm(1.0)


class PieceForm(AsOf, forms.ModelForm):
    class Meta:
        model = Piece
        fields = ("name", "cut", "on_fold", "edges", "cloth", "grain", "notes", "order")

    def clean_cut(self) -> int:
        if self.cleaned_data["cut"] < 1:
            raise forms.ValidationError("A piece is cut at least once.")
        return self.cleaned_data["cut"]
