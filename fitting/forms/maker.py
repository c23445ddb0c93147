from typing import Any

from django import forms

from catalogue.lengths.forms import LengthsInUnit
from fitting.models.maker import Maker, Skill

# The smaller of each pair must stay the smaller: else no region would lie between them.
_IN_ORDER = (
    ("fits_um", "add_um", "What counts as fitting must be less than what can be added."),
    ("fits_um", "take_off_um", "What counts as fitting must be less than what can be taken off."),
    ("length_fits_um", "length_alter_um", "What counts as fitting must be less than what can be altered."),
)


class _MakerWithSkills(forms.ModelForm):
    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        known = {skill.name: skill.level for skill in self.instance.skills.all()} if self.instance.pk else {}
        for name in Skill.Name:
            self.fields[f"skill_{name}"] = forms.ChoiceField(
                label=name.label.capitalize(),
                choices=Skill.Level,
                initial=known.get(name, Skill.Level.NONE),
                widget=forms.RadioSelect,
            )


class MakerForm(LengthsInUnit, _MakerWithSkills):
    class Meta:
        model = Maker
        fields = (
            "fits_um", "add_um", "take_off_um", "per_edge_um",
            "length_fits_um", "length_alter_um", "stale_days", "hours_a_day",
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
