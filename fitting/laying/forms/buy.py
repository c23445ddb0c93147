"""Which width of a lay is bought, and the line of the materials that it is written into."""

from collections.abc import Sequence
from typing import Any

from django import forms

from catalogue.lengths.calculation.lengths import format_length
from catalogue.workroom.models import User
from fitting.laying.showing.finished_lay import LaidWidth
from fitting.outfits.models.material import Material

NEW = "new"
_SAME_UM = 1000


class LayBuyForm(forms.Form):
    """`width_laid` and `into`, None for a new line, are there once the form is valid."""

    width = forms.ChoiceField(label="What is bought", widget=forms.RadioSelect)
    material = forms.ChoiceField(label="Into which line of the materials", widget=forms.RadioSelect)

    def __init__(
        self,
        data: Any = None,
        *,
        widths: Sequence[LaidWidth],
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
        own = next((one for one in materials if one.garment_id == garment_id), None)
        fits = (at for at, one in enumerate(widths) if own and own.width_um and is_as_wide(own, one))
        self.initial = {"width": str(next(fits, least)), "material": str(own.pk) if own else NEW}

    def clean(self) -> dict[str, Any]:
        """A length is true for one width: none is written to cloth of another."""
        cleaned = super().clean()
        if not self.errors and self.into and not is_as_wide(self.into, self.width_laid):
            self.add_error(
                "material",
                f"“{self.into}” stands there as {self.into.width_text} wide, and this lay is on "
                f"{self.width_laid.width_text}: lay the pieces on {self.into.width_text}, put its width "
                "right, or write a new line.",
            )
        return cleaned

    @property
    def width_laid(self) -> LaidWidth:
        return self.widths[int(self.cleaned_data["width"])]

    @property
    def into(self) -> Material | None:
        return self.by_key.get(self.cleaned_data["material"])


def is_as_wide(material: Material, width: LaidWidth) -> bool:
    """To a millimetre; a line without a width takes any."""
    return material.width_um is None or abs(material.width_um - round(1000 * width.width_mm)) <= _SAME_UM


def _said(material: Material) -> str:
    """What stands there now, so that nothing is written over unseen."""
    width = f", {material.width_text} wide" if material.width_text else ""
    garment = f" for {material.garment}" if material.garment else ""
    needed = f"needed now {material.needed_text}" if material.needed_text else "nothing needed yet"
    return f"{material}{width}{garment}: {needed}"
