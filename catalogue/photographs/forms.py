from typing import Any

from django import forms

from catalogue.photographs.actions import PictureNotes, SentPicture
from catalogue.photographs.imaging import FORMATS, ImageRefused, read_upload
from catalogue.photographs.models import Photo
from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.forms.as_of import AsOf

MOST_AT_ONCE = 12


class _SeveralFiles(forms.ClearableFileInput):
    allow_multiple_selected = True


class PicturesField(forms.FileField):
    """Several picture files. Cleans to those that could be read; `refused` says why the others were not."""

    widget = _SeveralFiles

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.widget.attrs["accept"] = ",".join(f"image/{name.lower()}" for name in FORMATS)
        self.refused: list[str] = []

    def clean(self, data: Any, initial: Any = None) -> list[SentPicture]:
        files = data or [None]
        self.refused = []
        taken: list[SentPicture] = []
        if len(files) > MOST_AT_ONCE:
            raise forms.ValidationError(f"Send no more than {MOST_AT_ONCE} pictures at once.")
        for file in files:
            file = super().clean(file, initial)
            if not file:
                continue
            try:
                taken.append(SentPicture(file=file, prepared=read_upload(file)))
            except ImageRefused as fault:
                self.refused.append(f"{file.name}: {fault.sentence}")
        if self.refused and not taken:
            raise forms.ValidationError(self.refused)
        return taken


class PhotosForm(forms.ModelForm):
    """Photographs sent together, and what is said of all of them."""

    pictures = PicturesField(
        label="Pictures",
        help_text=f"JPEG, PNG, WebP or TIFF, up to {MOST_AT_ONCE} at once. Place and camera are left out.",
    )
    field_order = ("pictures",)

    class Meta:
        model = Photo
        fields = ("view", "caption", "credit", "rights", "source")

    def __init__(self, *args: Any, reference: ReferenceGarment, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["source"].queryset = reference.workroom.sources.all()

    @property
    def refused(self) -> list[str]:
        return self.fields["pictures"].refused

    def notes(self) -> PictureNotes:
        return PictureNotes(**{name: self.cleaned_data[name] for name in self.Meta.fields})


class PhotoForm(AsOf, forms.ModelForm):
    class Meta:
        model = Photo
        fields = ("view", "caption", "credit", "rights", "source", "order")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["source"].queryset = self.instance.reference.workroom.sources.all()
