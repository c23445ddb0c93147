"""A fitting planned and closed: who, where, which garments, what to wear, what to check, what it settled.

A plan begins with what is open about each garment and, by the dressing order, what must be worn beneath.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, time, timedelta
from typing import Any

from django import forms
from django.utils import timezone

from catalogue.lengths.showing import Writing, length_for
from catalogue.workroom.models import User
from fitting.comparing.showing.shown import shown
from fitting.comparing.showing.standing import GarmentStanding, garments_as_they_stand
from fitting.fittings.loading.alterations import words_of
from fitting.fittings.models.alteration import Alteration
from fitting.fittings.models.session import Fitting
from fitting.fittings.showing import checks_of
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.wearers.models import Measures

# From a toile on there is something to try on; what is finished is worn, not fitted.
TO_FIT = (Garment.Stage.TOILE, Garment.Stage.FITTED, Garment.Stage.CUT, Garment.Stage.SEWN)
# Of all that is open, what a fitting can settle.
AT_A_FITTING = ("measures", "doubt")
USUAL_HOUR = time(18)


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingPlan:
    planned_for: datetime
    garments: tuple[Garment, ...]
    wear: tuple[str, ...]
    checks: tuple[str, ...]

    def initial(self) -> dict[str, object]:
        """First values of the form."""
        return {
            "planned_for": self.planned_for,
            "garments": [garment.pk for garment in self.garments],
            "wear": "\n".join(self.wear),
            "checks": "\n".join(self.checks),
        }


def plan_of(outfit: Outfit, *, by: User, at: datetime) -> FittingPlan:
    """A week from now, every garment that can be tried on, and what is open about it."""
    writing = Writing(system=by.system, denominator=by.denominator)
    standings = garments_as_they_stand(outfit, by=by, at=at)
    to_fit = [standing for standing in standings if standing.garment.stage in TO_FIT]
    day = timezone.localdate(at) + timedelta(days=7)
    garments = tuple(standing.garment for standing in to_fit)
    return FittingPlan(
        planned_for=timezone.make_aware(datetime.combine(day, USUAL_HOUR)),
        garments=garments,
        wear=tuple(_wear(standings, garments, writing)),
        checks=(*_alterations(garments, writing), *_doubts(to_fit, writing)),
    )


def _wear(
    standings: Sequence[GarmentStanding], garments: Sequence[Garment], writing: Writing
) -> Iterator[str]:
    """All beneath the outermost to be fitted, from the skin outward, and laced as when it was measured."""
    outermost = max((garment.order for garment in garments), default=0)
    for standing in standings:
        garment = standing.garment
        if garment.order >= outermost or garment in garments:
            continue
        is_made = garment.stage == Garment.Stage.FINISHED
        yield garment.name if is_made else f"{garment.name}: not made yet, bring what stands in for it"
    sets = dict.fromkeys(one.used.measures for one in standings if one.used and one.garment in garments)
    for measures in sets:
        gaps = {"top": measures.gap_top, "waist": measures.gap_waist, "bottom": measures.gap_bottom}
        laced = [f"{length_for(gap, writing)} at the {where}" for where, gap in gaps.items() if gap]
        if laced:
            yield f"Laced as measured {measures.taken_on:%-d %B %Y}: a gap of {', '.join(laced)}"
        if measures.heel_um:
            yield f"Heels of {length_for(measures.heel, writing)}"


def _alterations(garments: Sequence[Garment], writing: Writing) -> Iterator[str]:
    rows = Alteration.objects.unconfirmed().filter(garment__in=garments).select_related("garment", "piece")
    for row in rows.order_by("garment__order", "decided_at", "pk"):
        yield f"{row.garment}: is it right now? {words_of(row, writing)}"


def _doubts(standings: Sequence[GarmentStanding], writing: Writing) -> Iterator[str]:
    for standing in standings:
        comparison = shown(standing.newest, writing) if standing.newest else None
        # Questions about a plate are for the work table: a fitting settles none of them.
        for check in checks_of(standing, comparison, None, writing):
            if check.about in AT_A_FITTING:
                yield f"{standing.garment}: {check.sentence}"


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
