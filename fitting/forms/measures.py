from datetime import date
from typing import Any

from django import forms
from django.db.models import Model
from django.utils import timezone

from catalogue.lengths.forms import LengthsInUnit
from fitting.models.wearer import Measures

GARMENTS = Measures._meta.get_field("worn").related_model.objects


class WornField(forms.ModelMultipleChoiceField):
    def label_from_instance(self, garment: Model) -> str:
        return f"{garment.name} ({garment.outfit})"


class MeasuresForm(LengthsInUnit, forms.ModelForm):
    """What stands above the figures: when, over what, laced how, by whom."""

    worn = WornField(
        queryset=GARMENTS.none(),
        required=False,
        label="Garments worn beneath",
        widget=forms.CheckboxSelectMultiple,
        help_text="If one of them is changed later, these measures count as stale.",
    )

    class Meta:
        model = Measures
        fields = (
            "taken_on",
            "state",
            "worn",
            "state_note",
            "gap_top_um",
            "gap_waist_um",
            "gap_bottom_um",
            "heel_um",
            "laced_by",
            "measured_by",
            "is_sent_in",
            "notes",
        )
        widgets = {
            "taken_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "notes": forms.Textarea(attrs={"rows": 2}),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        worn = GARMENTS.filter(outfit__wearer=self.instance.wearer).select_related("outfit")
        self.fields["worn"].queryset = worn.order_by("outfit__name", "order", "pk")

    def clean_taken_on(self) -> date:
        taken_on: date = self.cleaned_data["taken_on"]
        if taken_on > timezone.localdate():
            raise forms.ValidationError("That day is still to come.")
        return taken_on

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        layers = cleaned.get("worn") or cleaned.get("state_note")
        if cleaned.get("state") == Measures.State.OVER_LAYERS and not layers:
            self.add_error("state_note", "Say over which layers: tick the garments, or name them here.")
        return cleaned
