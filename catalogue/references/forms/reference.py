"""A garment studied: what it is, its tags, its sources, measures published of it, questions about it."""

from typing import Any

from django import forms
from django.http import QueryDict

from catalogue.lengths.calculation.errors import DateNotUnderstood
from catalogue.lengths.forms import LengthsInUnit
from catalogue.references.models.garment import PublishedMeasure, ReferenceGarment
from catalogue.references.models.question import Question
from catalogue.references.models.tag import Tag
from catalogue.sources.calculation.dates import read_date
from catalogue.sources.calculation.plain_dates import suggest_edtf
from catalogue.sources.models import Citation
from catalogue.workroom.forms.as_of import MOST_ROWS, AsOf, AsOfRows
from catalogue.workroom.models import Workroom

DAY = {"type": "date"}


class TagsField(forms.CharField):
    """Tags parted by commas, as a list of names: each once, however its letters are written."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(required=False, max_length=600, **kwargs)

    def prepare_value(self, value: Any) -> Any:
        return ", ".join(value) if isinstance(value, list) else value

    def clean(self, value: str | None) -> list[str]:
        names = (" ".join(name.split()) for name in super().clean(value).split(","))
        tags = list({name.casefold(): name for name in names if name}.values())
        longest = Tag._meta.get_field("name").max_length
        if any(len(name) > longest for name in tags):
            raise forms.ValidationError(f"A tag has at most {longest} characters. Part them by commas.")
        return tags


class ReferenceForm(AsOf, forms.ModelForm):
    """A date in plain words is never read silently: `offered_date` is what it may have meant."""

    class Meta:
        model = ReferenceGarment
        fields = (
            "name",
            "dress",
            "kind",
            "date_edtf",
            "place",
            "holder",
            "accession",
            "materials",
            "technique",
            "fastening",
            "construction_notes",
            "seam_evidence_note",
        )
        widgets = {
            "materials": forms.Textarea(attrs={"rows": 3}),
            "construction_notes": forms.Textarea(attrs={"rows": 6}),
            "seam_evidence_note": forms.Textarea(attrs={"rows": 3}),
        }

    tags = TagsField(help_text="Words of your own, parted by commas: to be drawn, loan, good stripes.")

    offered_date: str | None = None
    date_examples = ("1785", "1785~", "1785?", "177X", "17XX", "1750/1760", "1785-04", "../1760", "1760/..",
                     "[1785,1786]")  # fmt: skip

    def __init__(self, data: QueryDict | None = None, **kwargs: Any) -> None:
        if data and data.get("take_date"):
            data = data.copy()
            data["date_edtf"] = data["take_date"]
        super().__init__(data, **kwargs)
        if self.instance.pk:
            self.initial["tags"] = [tag.name for tag in self.instance.tags.all()]

    def clean_date_edtf(self) -> str:
        text = self.cleaned_data["date_edtf"]
        if not text:
            self.instance.date_earliest = self.instance.date_latest = None
            return ""
        try:
            span = read_date(text)
        except DateNotUnderstood as fault:
            self.offered_date = suggest_edtf(text)
            raise forms.ValidationError(fault.sentence, code="date") from fault
        self.instance.date_earliest, self.instance.date_latest = span.earliest, span.latest
        return span.edtf


class ReferenceCopyForm(forms.Form):
    """A copy begins with the garment's facts; what else comes along is ticked."""

    name = forms.CharField(max_length=ReferenceGarment._meta.get_field("name").max_length)
    plates = forms.BooleanField(
        label="Plates with their pieces, readings and seams", required=False, initial=False
    )
    citations = forms.BooleanField(label="Sources, with their pages", required=False, initial=True)
    measures = forms.BooleanField(label="Published measures", required=False, initial=False)


class _ReferencePartForm(LengthsInUnit, forms.ModelForm):
    """A row under a reference garment; its source is one of the workroom's."""

    def __init__(self, *args: Any, workroom: Workroom, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["source"].queryset = workroom.sources.all()


class CitationForm(_ReferencePartForm):
    class Meta:
        model = Citation
        fields = ("source", "pages", "fact")
        widgets = {
            "pages": forms.TextInput(attrs={"size": 10}),
            "fact": forms.TextInput(attrs={"size": 48}),
        }


class PublishedMeasureForm(_ReferencePartForm):
    class Meta:
        model = PublishedMeasure
        fields = ("line", "value_um", "doubt_um", "source", "pages")
        widgets = {"pages": forms.TextInput(attrs={"size": 10})}


class _ReferenceRows(AsOfRows, forms.BaseInlineFormSet):
    pass


CitationFormSet = forms.inlineformset_factory(
    ReferenceGarment,
    Citation,
    form=CitationForm,
    formset=_ReferenceRows,
    extra=3,
    can_delete=True,
    **MOST_ROWS,
)
PublishedMeasureFormSet = forms.inlineformset_factory(
    ReferenceGarment,
    PublishedMeasure,
    form=PublishedMeasureForm,
    formset=_ReferenceRows,
    extra=3,
    can_delete=True,
    **MOST_ROWS,
)


class QuestionForm(AsOf, forms.ModelForm):
    """What is asked, by whom and when."""

    class Meta:
        model = Question
        fields = ("text", "asked_by", "asked_on")
        widgets = {
            "text": forms.Textarea(attrs={"rows": 3}),
            "asked_on": forms.DateInput(attrs=DAY, format="%Y-%m-%d"),
        }


class AnswerForm(AsOf, forms.ModelForm):
    """What is known now, and from where. An answer taken out again leaves the question open."""

    class Meta:
        model = Question
        fields = ("answer", "source", "pages", "answered_by", "answered_on")
        widgets = {
            "answer": forms.Textarea(attrs={"rows": 5}),
            "answered_on": forms.DateInput(attrs=DAY, format="%Y-%m-%d"),
        }
        help_texts = {"answer": "Left empty: the question stays open."}

    def __init__(self, *args: Any, workroom: Workroom, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["source"].queryset = workroom.sources.all()

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if not cleaned.get("answer"):
            cleaned |= {"answered_on": None, "answered_by": "", "source": None, "pages": ""}
        elif cleaned.get("answered_on") is None and "answered_on" not in self.errors:
            self.add_error("answered_on", "Say on which day it was answered.")
        return cleaned
