"""Planning a fitting: who, where, which garments, what to wear, what to check."""

from typing import Any

from django import forms
from django.utils import timezone

from fitting.forms.fitting_plan import FittingPlan
from fitting.models.alteration import Alteration
from fitting.models.fitting_session import Fitting
from fitting.outfits.models.garment import Garment
from fitting.wearers.models import Measures


class FittingForm(forms.ModelForm):
    """A plan. Its first values say what is open, and what has to be worn beneath."""

    garments = forms.ModelMultipleChoiceField(
        queryset=Garment.objects.none(), label="Garments to be fitted", widget=forms.CheckboxSelectMultiple
    )

    class Meta:
        model = Fitting
        fields = ("planned_for", "place", "present", "garments", "wear", "checks", "notes")
        widgets = {
            "planned_for": forms.DateTimeInput(attrs={"type": "datetime-local"}, format="%Y-%m-%dT%H:%M"),
            "wear": forms.Textarea(attrs={"rows": 4}),
            "checks": forms.Textarea(attrs={"rows": 8}),
            "notes": forms.Textarea(attrs={"rows": 2}),
        }

    def __init__(self, *args: Any, plan: FittingPlan | None = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["garments"].queryset = self.instance.outfit.garments.all()
        if plan:
            self.initial |= plan.initial()

    def clean_garments(self) -> Any:
        """A garment with something seen on it stays in the fitting."""
        garments = self.cleaned_data["garments"]
        if self.instance.pk:
            seen = Garment.objects.filter(observations__fitting=self.instance).distinct()
            if missing := [garment.name for garment in seen if garment not in garments]:
                raise forms.ValidationError(f"Something was seen on {', '.join(missing)}: leave it ticked.")
        return garments


class FittingCloseForm(forms.Form):
    """What the fitting settled besides its observations."""

    confirmed = forms.ModelMultipleChoiceField(
        queryset=None,
        required=False,
        label="Alterations that are good now",
        widget=forms.CheckboxSelectMultiple,
        help_text="Decided before this fitting. Those left unticked stay open.",
    )
    fitted = forms.ModelMultipleChoiceField(
        queryset=None,
        required=False,
        label="Toiles that are now fitted",
        widget=forms.CheckboxSelectMultiple,
    )
    measures = forms.ModelChoiceField(
        queryset=None, required=False, label="Measures retaken", empty_label="none were retaken"
    )

    def __init__(self, *args: Any, fitting: Fitting, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["confirmed"].queryset = earlier_alterations(fitting)
        self.fields["fitted"].queryset = fitting.garments.filter(stage=Garment.Stage.TOILE)
        day = timezone.localdate(fitting.planned_for)
        retaken = (
            Measures.objects.filter(wearer=fitting.wearer, taken_on__gte=day) if fitting.wearer else None
        )
        self.fields["measures"].queryset = Measures.objects.none() if retaken is None else retaken
        self.fields["measures"].initial = retaken.first() if retaken else None
        for name in ("confirmed", "fitted", "measures"):
            if not self.fields[name].queryset.exists():
                del self.fields[name]

    def settled(self) -> dict[str, Any]:
        """What is chosen, for `close_fitting`."""
        return {
            "confirmed": self.cleaned_data.get("confirmed", ()),
            "fitted": self.cleaned_data.get("fitted", ()),
            "measures": self.cleaned_data.get("measures"),
        }


def earlier_alterations(fitting: Fitting) -> Any:
    """Those open when the fitting began, of the garments fitted."""
    return (
        Alteration.objects.unconfirmed()
        .filter(garment__in=fitting.garments.all(), decided_at__lt=fitting.planned_for)
        .exclude(observation__fitting=fitting)
        .select_related("garment", "piece")
    )


class DropForm(forms.Form):
    """Why nothing is done about an observation; empty: something is, after all."""

    because = forms.CharField(label="Dropped, because", max_length=200, required=False)
