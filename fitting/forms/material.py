from typing import Any

from django import forms

from catalogue.lengths.forms import LengthsInUnit
from fitting.models.cloth import Material


class MaterialForm(LengthsInUnit, forms.ModelForm):
    class Meta:
        model = Material
        fields = (
            "kind", "name", "garment", "width_um", "needed_um", "on_hand_um", "bought_um",
            "needed_count", "on_hand_count", "bought_count", "price", "cost", "supplier", "notes",
        )  # fmt: skip
        widgets = {
            "price": forms.NumberInput(attrs={"step": "0.01", "min": "0", "inputmode": "decimal"}),
            "cost": forms.NumberInput(attrs={"step": "0.01", "min": "0", "inputmode": "decimal"}),
            "notes": forms.Textarea(attrs={"rows": 2}),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        outfit = self.instance.outfit
        self.fields["garment"].queryset = outfit.garments.all()
        self.fields["garment"].empty_label = "the outfit as a whole"
        if outfit.currency:
            for name in ("price", "cost"):
                self.fields[name].label += f", {outfit.currency}"

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        by_length = [cleaned.get(f"{name}_um") for name in ("needed", "on_hand", "bought")]
        by_piece = [cleaned.get(f"{name}_count") for name in ("needed", "on_hand", "bought")]
        if any(one is not None for one in by_length) and any(one is not None for one in by_piece):
            self.add_error("needed_count", "By the length or by the piece: not both for one material.")
        return cleaned
