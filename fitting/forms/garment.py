from typing import Any

from django import forms

from catalogue.lengths.forms import LengthsInUnit
from catalogue.lengths.models import TypedLength
from catalogue.plates.models.plate import Plate
from fitting.models.garment import Ease, Garment, GarmentReference
from fitting.models.outfit import Outfit
from fitting.wearers.models import Measures, Stand


class _GarmentOfOutfit(forms.ModelForm):
    """The choices are those of the outfit's workroom; the measures those of its wearer."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        outfit = self.instance.outfit
        plates = Plate.objects.of_workroom(outfit.workroom).select_related("reference")
        self.fields["plate"].queryset = plates.order_by("reference__name", "pk")
        self.fields["plate"].label_from_instance = lambda plate: f"{plate.reference}: {plate}"
        self.fields["plate"].empty_label = "none yet"
        self.fields["stand"].queryset = Stand.objects.of_workroom(outfit.workroom)
        self.fields["stand"].empty_label = "none"
        self.fields["measures"].queryset = Measures.objects.filter(wearer=outfit.wearer_id)
        self.fields["measures"].empty_label = "chosen by what is worn beneath"


class GarmentForm(LengthsInUnit, _GarmentOfOutfit):
    class Meta:
        model = Garment
        fields = (
            "name", "stage", "purpose", "plate", "measures", "stand",
            "thickness_um", "layers", "gather_ratio", "is_boned", "reduction_um", "made_on",
            "needs_parts", "edges_that_may_take", "notes",
        )  # fmt: skip
        widgets = {
            "made_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "notes": forms.Textarea(attrs={"rows": 4}),
        }


class GarmentAgainForm(forms.Form):
    """For whom the same garment is made again: an outfit that does not have it yet."""

    outfit = forms.ModelChoiceField(queryset=None, empty_label=None)

    def __init__(self, *args: Any, garment: Garment, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        have_it = Garment.objects.same_as(garment).values("outfit")
        others = Outfit.objects.of_workroom(garment.its_workroom()).select_related("wearer")
        self.fields["outfit"].queryset = others.exclude(pk=garment.outfit_id).exclude(pk__in=have_it)
        self.fields["outfit"].label_from_instance = _with_wearer


def _with_wearer(outfit: Outfit) -> str:
    return f"{outfit}, for {outfit.wearer}" if outfit.wearer else str(outfit)


class ReferenceUsedForm(forms.ModelForm):
    class Meta:
        model = GarmentReference
        fields = ("reference", "what_for")
        widgets = {"what_for": forms.TextInput(attrs={"size": 30, "placeholder": "cut, trimming, closure …"})}

    def __init__(self, *args: Any, references: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["reference"].queryset = references


class EaseForm(LengthsInUnit, forms.ModelForm):
    """One row of the table of ease. One offered for a level that was read counts once it is filled in."""

    class Meta:
        model = Ease
        fields = ("line", "ease_um", "fit", "gap_um", "source")
        widgets = {"source": forms.TextInput(attrs={"size": 24})}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["ease_um"].required = False
        if not self.instance.pk:
            self.initial["ease_um"] = None
        for name, field in self.fields.items():
            field.widget.attrs["aria-label"] = f"{field.label}, row {self.prefix.rpartition('-')[2]}"
            field.widget.attrs.pop("placeholder", None)
            if name in ("ease_um", "gap_um"):
                field.widget.attrs["size"] = 8

    def has_changed(self) -> bool:
        if self.instance.pk:
            return super().has_changed()
        return bool(set(self.changed_data) - {"line"})

    def clean_ease_um(self) -> TypedLength:
        return self.cleaned_data["ease_um"] or TypedLength(text=f"0 {self.fields['ease_um'].unit}", um=0)


# There are fewer levels and lengths than that; a page that asks for thousands of rows would take its time.
MOST_ROWS = 100
_LIMITS = {"can_delete": True, "max_num": MOST_ROWS, "absolute_max": MOST_ROWS}

ReferencesUsed = forms.inlineformset_factory(
    Garment, GarmentReference, form=ReferenceUsedForm, extra=1, **_LIMITS
)
Eases = forms.inlineformset_factory(Garment, Ease, form=EaseForm, extra=0, **_LIMITS)
