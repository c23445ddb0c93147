from typing import Any

from django import forms

from catalogue.models import User
from fitting.dossier.sections import SECTIONS, USUAL, in_order
from fitting.models import Dossier, Outfit


class DossierForm(forms.ModelForm):
    """What to print and on what paper; offers what was chosen for this outfit last time."""

    sections = forms.MultipleChoiceField(
        label="What it holds",
        choices=[(section.key, f"{section.label}: {section.holds}") for section in SECTIONS.values()],
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": "Choose at least one part to print."},
    )

    class Meta:
        model = Dossier
        fields = ("sections", "paper", "system")
        widgets = {"paper": forms.RadioSelect, "system": forms.RadioSelect}

    def __init__(self, *args: Any, outfit: Outfit, user: User, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        last = outfit.dossiers.first()
        self.initial["sections"] = list(in_order(last.sections)) if last else list(USUAL)
        self.initial["paper"] = last.paper if last else Dossier.Paper.A4
        self.initial["system"] = last.system if last else user.system
