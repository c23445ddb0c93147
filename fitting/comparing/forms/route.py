from collections.abc import Mapping
from typing import Any

from django import forms

from fitting.comparing.models import RouteChoice
from fitting.wearers.models import Skill

# Common reasons, so that a choice takes one tap; words are for what none of them says.
REASONS = (
    "it is recommended",
    "I have done it this way before",
    "the date is near",
    "the cloth is dear: the safest way",
    "I want to learn it",
    "the plate is the point of it",
)


# What “How well can you …?” is answered with, one tap each.
SKILL_ANSWERS = (
    (Skill.Level.NONE.value, "Not yet"),
    (Skill.Level.LEARNING.value, "I am learning"),
    (Skill.Level.WORKING.value, "Well enough"),
)


class SkillForm(forms.Form):
    """One skill, said beside the answer that rests on it; `page` is the one to go back to."""

    skill = forms.ChoiceField(choices=Skill.Name.choices)
    level = forms.ChoiceField(choices=SKILL_ANSWERS)
    page = forms.ChoiceField(choices=[("garment", "garment"), ("comparison", "comparison")])


class RouteChoiceForm(forms.ModelForm):
    """`standings` says how each route stood in the newest comparison; any may be chosen all the same."""

    reason = forms.ChoiceField(
        label="Reason, in one tap",
        choices=[(reason, reason) for reason in REASONS],
        widget=forms.RadioSelect,
        required=False,
    )

    class Meta:
        model = RouteChoice
        fields = ("route", "reason", "why")
        widgets = {"why": forms.Textarea(attrs={"rows": 2})}

    def __init__(self, *args: Any, standings: Mapping[str, str], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["route"].choices = [
            (route, f"{label}: {standings[route]}" if route in standings else label)
            for route, label in self.fields["route"].choices
        ]


class RouteOutcomeForm(forms.ModelForm):
    class Meta:
        model = RouteChoice
        fields = ("outcome", "hours")
        widgets = {"outcome": forms.Textarea(attrs={"rows": 3})}
        help_texts = {"hours": "From plate to pattern. Three or more of yours take the place of our guess."}

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if not cleaned.get("outcome") and cleaned.get("hours") is None and not self.errors:
            self.add_error("outcome", "Say how it turned out, or how many hours it took.")
        return cleaned
