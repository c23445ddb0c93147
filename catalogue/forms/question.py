from typing import Any

from django import forms

from catalogue.models.question import Question
from catalogue.workroom.forms.as_of import AsOf
from catalogue.workroom.models import Workroom

DAY = {"type": "date"}


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
