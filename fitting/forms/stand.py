from typing import Any

from django import forms

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.forms import LengthFormField, LengthsInUnit
from catalogue.lengths.models import TypedLength
from fitting.models.stand import Stand

# A stand has no arms or legs: these are what draping on it reads.
STAND_LINES = (
    "neck", "high bust", "bust", "under bust", "waist", "hip",
    "shoulder", "across back", "across chest", "nape to waist", "front waist", "centre front", "waist to hip",
)  # fmt: skip


class _StandWithMeasures(forms.ModelForm):
    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        known = {one.line: one for one in self.instance.measures.all()} if self.instance.pk else {}
        for line in (*STAND_LINES, *(line for line in known if line not in STAND_LINES)):
            field = LengthFormField(required=False, label=LINES[line].label.capitalize())
            if line in known:
                field.initial = TypedLength(text=known[line].value_text, um=known[line].value_um)
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
