"""Which width of a lay is bought, and the line of the materials that it is written into."""

from collections.abc import Sequence
from typing import Any

from django import forms

from catalogue.lengths.calculation.lengths import format_length
from catalogue.workroom.models import User
from fitting.laying.showing.laid import WidthLaid
from fitting.outfits.models.material import Material

NEW = "new"


class LayBuyForm(forms.Form):
    """`width_laid` and `into`, None for a new line, are there once the form is valid."""

    width = forms.ChoiceField(label="What is bought", widget=forms.RadioSelect)
    material = forms.ChoiceField(label="Into which line of the materials", widget=forms.RadioSelect)

    def __init__(
        self,
        data: Any = None,
        *,
        widths: Sequence[WidthLaid],
        materials: Sequence[Material],
        garment_id: int,
        user: User,
    ) -> None:
        super().__init__(data)
        self.widths, self.by_key = widths, {str(one.pk): one for one in materials}
        self.fields["width"].choices = [
            (str(at), f"{one.to_buy} of {format_length(one.width_mm, system=user.system)} cloth")
            for at, one in enumerate(widths)
        ]
        self.fields["material"].choices = [
            *((key, _said(one)) for key, one in self.by_key.items()),
            (NEW, "a new line"),
        ]
        least = next((at for at, one in enumerate(widths) if one.is_least_cloth), 0)
        own = (key for key, one in self.by_key.items() if one.garment_id == garment_id)
        self.initial = {"width": str(least), "material": next(own, NEW)}

    @property
    def width_laid(self) -> WidthLaid:
        return self.widths[int(self.cleaned_data["width"])]

    @property
    def into(self) -> Material | None:
        return self.by_key.get(self.cleaned_data["material"])


def _said(material: Material) -> str:
    """What stands there now, so that nothing is written over unseen."""
    width = f", {material.width_text} wide" if material.width_text else ""
    garment = f" for {material.garment}" if material.garment else ""
    needed = f"needed now {material.needed_text}" if material.needed_text else "nothing needed yet"
    return f"{material}{width}{garment}: {needed}"
