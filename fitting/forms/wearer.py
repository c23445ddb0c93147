from typing import Any

from django import forms

from fitting.models.wearer import Wearer


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
