"""What was written down beside an object, typed up: the words of the paper sheet, and its measures."""

from collections.abc import Iterator
from typing import Any

from django import forms
from django.utils import timezone

from catalogue.lengths.calculation.levels import LINES, Line
from catalogue.lengths.forms import LengthFormField, LengthsInUnit
from catalogue.lengths.models import TypedLength
from catalogue.references.calculation import list_for
from catalogue.references.models.garment import ReferenceGarment

SPARE_ROWS = 4
_AREA = {"rows": 3}


class StudyForm(forms.Form):
    """Each field but the first two is a heading of the sheet as well, with room to write under it."""

    seen_on = forms.DateField(
        label="Day of the visit", widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
    )
    seen_by = forms.CharField(label="Who looked", max_length=150, help_text="Family name, given name.")
    attended = forms.CharField(label="Who attended, and what was agreed", required=False, max_length=300)
    not_touched = forms.CharField(
        label="What may not be touched or turned", required=False, widget=forms.Textarea(attrs=_AREA)
    )
    condition = forms.CharField(
        label="Condition: wear, losses, stains, repairs, alterations",
        required=False,
        widget=forms.Textarea(attrs=_AREA),
    )
    cloth = forms.CharField(
        label="Cloth: threads to the inch or centimetre, warp and weft; width between selvedges",
        required=False,
        widget=forms.Textarea(attrs=_AREA),
    )
    stitches = forms.CharField(
        label="Stitches to the inch, and which stitch, seam by seam",
        required=False,
        widget=forms.Textarea(attrs=_AREA),
    )
    making = forms.CharField(
        label="How it is made, and in which order", required=False, widget=forms.Textarea(attrs=_AREA)
    )
    not_seen = forms.CharField(
        label="What could not be seen", required=False, widget=forms.Textarea(attrs=_AREA)
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["seen_on"].initial = timezone.localdate

    def headings(self) -> Iterator[str]:
        """What the sheet leaves room to write about."""
        return (field.label for name, field in self.fields.items() if not name.startswith("seen"))

    def notes(self) -> str:
        """What was written, each under its heading."""
        said = self.cleaned_data
        names = [name for name in self.fields if not name.startswith("seen") and said[name]]
        return "\n\n".join(f"{self.fields[name].label}:\n{said[name]}" for name in names)


class StudyMeasureForm(LengthsInUnit, forms.Form):
    line = forms.ChoiceField(label="Level or length", required=False)
    value = LengthFormField(label="Measure", required=False)

    def __init__(self, *args: Any, lines: list[Line], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        first = {line.key for line in lines}
        rest = [line for key, line in LINES.items() if key not in first]
        choices = [(line.key, line.label) for line in (*lines, *rest)]
        self.fields["line"].choices = [("", "choose …"), *choices]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        value = cleaned.get("value")
        if value is not None and value.um <= 0:
            self.add_error("value", "A measure is more than nothing.")
        elif value is not None and not cleaned.get("line"):
            self.add_error("line", "Say where this was measured.")
        return cleaned


class _Measures(forms.BaseFormSet):
    """A row for each line of the sheet, in its order, and some to spare."""

    def __init__(self, *args: Any, form_kwargs: dict[str, Any], **kwargs: Any) -> None:
        super().__init__(*args, form_kwargs=form_kwargs, **kwargs)
        self.lines: list[Line] = form_kwargs["lines"]
        self.extra = len(self.lines) + SPARE_ROWS

    def get_form_kwargs(self, index: int | None) -> dict[str, Any]:
        kwargs = super().get_form_kwargs(index)
        if index is not None and index < len(self.lines):
            kwargs["initial"] = {"line": self.lines[index].key}
        return kwargs

    def taken(self) -> list[tuple[str, TypedLength]]:
        return [
            (form.cleaned_data["line"], form.cleaned_data["value"])
            for form in self.forms
            if form.cleaned_data.get("value")
        ]


StudyMeasureFormSet = forms.formset_factory(StudyMeasureForm, formset=_Measures)


def lines_of(reference: ReferenceGarment) -> list[Line]:
    """The girths and lengths that the sheet asks for: the usual ones of its kind, else those of its dress."""
    usual = list_for(reference.kind) or list_for(reference.name)
    if usual:
        return [LINES[key] for key in usual.lines]
    return [line for line in LINES.values() if reference.dress in line.groups and line.key != "height"]
