"""A wearer, and erasing one; a dress stand with its measures; a maker's limits, skills and hours."""

from typing import Any

from django import forms

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.forms import LengthFormField, LengthsInUnit
from catalogue.lengths.models import TypedLength
from fitting.wearers.models import Maker, Skill, Stand, Wearer

# A stand has no arms or legs: these are what draping on it reads.
STAND_LINES = (
    "neck", "high bust", "bust", "under bust", "waist", "hip",
    "shoulder", "across back", "across chest", "nape to waist", "front waist", "centre front", "waist to hip",
)  # fmt: skip
# The smaller of each pair must stay the smaller: else no region would lie between them.
_IN_ORDER = (
    ("fits_um", "add_um", "What counts as fitting must be less than what can be added."),
    ("fits_um", "take_off_um", "What counts as fitting must be less than what can be taken off."),
    ("length_fits_um", "length_alter_um", "What counts as fitting must be less than what can be altered."),
    ("grade_far_um", "grade_too_far_um", "What is far to grade must be less than what is too far."),
)


class WearerForm(forms.ModelForm):
    class Meta:
        model = Wearer
        fields = ("name", "dress", "is_new_to_lacing", "notes")
        widgets = {"dress": forms.RadioSelect, "notes": forms.Textarea(attrs={"rows": 3})}
        help_texts = {
            "name": "A name to know them by; it need not be their full one.",
            "dress": "Which measures are asked for.",
            "is_new_to_lacing": "The caution on reducing the waist then comes earlier.",
        }


class WearerEraseForm(forms.Form):
    """Asks for the name, so that the wrong person is not erased by a slip of the finger."""

    name = forms.CharField(
        label="Type the name to erase everything", widget=forms.TextInput(attrs={"autocomplete": "off"})
    )

    def __init__(self, *args: Any, wearer: Wearer, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.wearer = wearer

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"]
        if name.casefold() != self.wearer.name.strip().casefold():
            raise forms.ValidationError(f"That is not the name: it is “{self.wearer.name}”.")
        return name


class _StandWithMeasures(forms.ModelForm):
    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        known = {one.line: one for one in self.instance.measures.all()} if self.instance.pk else {}
        for line in (*STAND_LINES, *(line for line in known if line not in STAND_LINES)):
            field = LengthFormField(required=False, label=LINES[line].label.capitalize())
            if line in known:
                field.initial = known[line].value
            self.fields[_name(line)] = field

    def measures(self) -> dict[str, TypedLength]:
        """What was typed, by line; a box left empty is not in it."""
        typed = {line: self.cleaned_data.get(_name(line)) for line in LINES}
        return {line: length for line, length in typed.items() if length is not None}


class StandForm(LengthsInUnit, _StandWithMeasures):
    class Meta:
        model = Stand
        fields = ("name", "notes")
        widgets = {"notes": forms.Textarea(attrs={"rows": 3})}

    def measure_boxes(self) -> list[forms.BoundField]:
        return [self[name] for name in self.fields if name.startswith("measure_")]


def _name(line: str) -> str:
    return f"measure_{line.replace(' ', '_')}"


class _MakerWithSkills(forms.ModelForm):
    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        known = {skill.name: skill.level for skill in self.instance.skills.all()} if self.instance.pk else {}
        for name in Skill.Name:
            self.fields[f"skill_{name}"] = forms.ChoiceField(
                label=name.label.capitalize(),
                choices=[("", "not asked yet"), *Skill.Level.choices],
                initial=known.get(name, ""),
                required=False,
                widget=forms.RadioSelect,
            )


class MakerForm(LengthsInUnit, _MakerWithSkills):
    class Meta:
        model = Maker
        fields = (
            "fits_um", "add_um", "take_off_um", "per_edge_um",
            "length_fits_um", "length_alter_um", "grade_far_um", "grade_too_far_um",
            "stale_days", "hours_a_day",
        )  # fmt: skip

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        for smaller, larger, sentence in _IN_ORDER:
            both = cleaned.get(smaller), cleaned.get(larger)
            if all(both) and both[0].um >= both[1].um:
                self.add_error(smaller, sentence)
        return cleaned

    def skills(self) -> dict[str, str]:
        return {name: self.cleaned_data[f"skill_{name}"] for name in Skill.Name}

    def skill_boxes(self) -> list[forms.BoundField]:
        return [self[f"skill_{name}"] for name in Skill.Name]
