"""A fitting planned and closed: who, where, which garments, what it settled."""

from datetime import datetime, time, timedelta
from typing import Any

from django import forms
from django.utils import timezone

from catalogue.lengths.showing import Writing
from catalogue.workroom.models import User
from fitting.fittings.loading.alterations import words_of
from fitting.fittings.models.alteration import Alteration, AlterationQuerySet
from fitting.fittings.models.session import Fitting
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.wearers.models import Measures

# From a toile on there is something to try on; what is finished is worn, not fitted.
TO_FIT = (Garment.Stage.TOILE, Garment.Stage.FITTED, Garment.Stage.CUT, Garment.Stage.SEWN)
USUAL_HOUR = time(18)


def first_plan(outfit: Outfit, *, at: datetime) -> dict[str, object]:
    """First values of the form: a week from now, with every garment that can be tried on."""
    day = timezone.localdate(at) + timedelta(days=7)
    return {
        "planned_for": timezone.make_aware(datetime.combine(day, USUAL_HOUR)),
        "garments": [garment.pk for garment in outfit.garments.all() if garment.stage in TO_FIT],
    }


class FittingForm(forms.ModelForm):
    """A plan. What is worn beneath and what is open is reckoned; a maker adds what else there is."""

    garments = forms.ModelMultipleChoiceField(
        queryset=Garment.objects.none(), label="Garments to be fitted", widget=forms.CheckboxSelectMultiple
    )

    class Meta:
        model = Fitting
        fields = ("planned_for", "place", "present", "garments", "wear", "checks", "notes")
        widgets = {
            "planned_for": forms.DateTimeInput(attrs={"type": "datetime-local"}, format="%Y-%m-%dT%H:%M"),
            "wear": forms.Textarea(attrs={"rows": 2}),
            "checks": forms.Textarea(attrs={"rows": 3}),
            "notes": forms.Textarea(attrs={"rows": 2}),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["garments"].queryset = self.instance.outfit.garments.all()
        if zone := self.instance.outfit.workroom.time_zone:
            self.fields["planned_for"].help_text = f"By the clock of your workroom: {zone}."

    def clean_garments(self) -> Any:
        """A garment with something seen on it stays in the fitting."""
        garments = self.cleaned_data["garments"]
        if self.instance.pk:
            seen = Garment.objects.filter(observations__fitting=self.instance).distinct()
            if missing := [garment.name for garment in seen if garment not in garments]:
                raise forms.ValidationError(f"Something was seen on {', '.join(missing)}: leave it ticked.")
        return garments


class _AlterationsGood(forms.ModelMultipleChoiceField):
    """Each by its garment: two may have a side seam."""

    widget = forms.CheckboxSelectMultiple
    writing = Writing(system="in", denominator=16)

    def label_from_instance(self, obj: Alteration) -> str:
        return f"{obj.garment}, {words_of(obj, self.writing)}"


class FittingCloseForm(forms.Form):
    """What the fitting settled besides its observations."""

    confirmed = _AlterationsGood(
        queryset=None,
        required=False,
        label="Alterations that are good now",
        help_text="Decided before this fitting, and done in one layer at least. The others stay open.",
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

    def __init__(self, *args: Any, fitting: Fitting, user: User, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["confirmed"].queryset = earlier_alterations(fitting).ticked()
        self.fields["confirmed"].writing = Writing(system=user.system, denominator=user.denominator)
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


def earlier_alterations(fitting: Fitting) -> AlterationQuerySet:
    """Those open when the fitting began, of the garments fitted."""
    return (
        Alteration.objects.unconfirmed()
        .filter(garment__in=fitting.garments.all(), decided_at__lt=fitting.planned_for)
        .exclude(observation__fitting=fitting)
        .select_related("garment", "piece")
        .order_by("garment__order", "decided_at", "pk")
    )


class DropForm(forms.Form):
    """Why nothing is done about an observation; empty: something is, after all."""

    because = forms.CharField(label="Dropped, because", max_length=200, required=False)
