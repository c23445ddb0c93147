from typing import Any

from django import forms

from catalogue.actions.photos import PictureNotes, SentPicture
from catalogue.forms.as_of import AsOf
from catalogue.forms.length import LengthsInUnit
from catalogue.images import ImageRefused, read_upload
from catalogue.measuring.errors import NotUnderstood
from catalogue.measuring.scale import read_ratio
from catalogue.models import Photo, Piece, Plate, ReferenceGarment


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

    # The fields as the page groups them.
    groups = (
        ("Where it is", ("title", "source", "page")),
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

    def fieldsets(self) -> list[tuple[str, list[forms.BoundField]]]:
        return [(legend, [self[name] for name in names]) for legend, names in self.groups]

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
        else:
            self._need_more_than_nothing("page_um", "Type how long it is on the page.")
            self._need_more_than_nothing("real_um", "Type how long the same is at full size.")
        if cleaned.get("allowance") == Plate.Allowance.INCLUDED:
            self._need_more_than_nothing("allowance_um", "Type how wide the allowance is at full size.")
        self._need_more_than_nothing("rule_um", "Type the smallest division of your rule, as 1/16 in.")
        across = cleaned.get("across_page_um")
        if across is not None and across.um <= 0:
            self.add_error("across_page_um", "Leave it empty if both ways are the same.")
        return cleaned

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


class PieceForm(AsOf, forms.ModelForm):
    class Meta:
        model = Piece
        fields = ("name", "cut", "on_fold", "edges", "cloth", "grain", "notes", "order")

    def clean_cut(self) -> int:
        if self.cleaned_data["cut"] < 1:
            raise forms.ValidationError("A piece is cut at least once.")
        return self.cleaned_data["cut"]
