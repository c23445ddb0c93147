"""An outfit, its materials, whom its log is shown to; and a maker's patterns in hand."""

from datetime import datetime, timedelta
from typing import Any

from django import forms

from catalogue.lengths.forms import LengthsInUnit
from catalogue.workroom.models import Member, User
from fitting.outfits.calculation.money import BY_THE_LENGTH
from fitting.outfits.models.log import LogEntry, LogPhoto
from fitting.outfits.models.material import Material
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.pattern import PatternChange, PatternInHand
from fitting.outfits.models.share import Share
from fitting.wearers.models import Wearer

DAYS = ((7, "a week"), (30, "a month"), (90, "three months"))


class OutfitForm(forms.ModelForm):
    class Meta:
        model = Outfit
        fields = (
            "name", "wearer", "maker", "occasion", "occasion_on", "hours_a_week", "budget", "currency",
            "notes",
        )  # fmt: skip
        widgets = {
            "occasion_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "hours_a_week": forms.NumberInput(attrs={"step": "0.5", "min": "0", "inputmode": "decimal"}),
            "budget": forms.NumberInput(attrs={"step": "0.01", "min": "0", "inputmode": "decimal"}),
            "notes": forms.Textarea(attrs={"rows": 4}),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        workroom = self.instance.workroom
        self.fields["wearer"].queryset = Wearer.objects.of_workroom(workroom)
        self.fields["wearer"].empty_label = "not yet known"
        self.fields["maker"].queryset = User.objects.filter(
            memberships__workroom=workroom, memberships__role__in=(Member.Role.KEEPER, Member.Role.MAKER)
        )
        self.fields["maker"].empty_label = "whoever compares"
        self.fields["maker"].help_text = "Whose limits, skills and hours judge the routes."


class MaterialForm(LengthsInUnit, forms.ModelForm):
    class Meta:
        model = Material
        fields = (
            "kind", "name", "garment", "width_um", "needed_um", "on_hand_um", "bought_um",
            "needed_count", "on_hand_count", "bought_count", "price", "price_for", "cost", "supplier",
            "notes",
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
        if outfit.money_in:
            for name in ("price", "cost"):
                self.fields[name].label += f", {outfit.money_in}"

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        by_length = [cleaned.get(f"{name}_um") for name in ("needed", "on_hand", "bought")]
        by_piece = [cleaned.get(f"{name}_count") for name in ("needed", "on_hand", "bought")]
        if any(one is not None for one in by_length) and any(one is not None for one in by_piece):
            self.add_error("needed_count", "By the length or by the piece: not both for one material.")
        price_for = cleaned.get("price_for")
        if price_for in BY_THE_LENGTH and any(one is not None for one in by_piece):
            self.add_error("price_for", "It is counted by the piece: give the price of a piece, or of all.")
        if price_for == "piece" and any(one is not None for one in by_length):
            self.add_error("price_for", "It is counted by the length: give the price of a length, or of all.")
        return cleaned


class ShareForm(forms.ModelForm):
    """What of a log is shown, to whom, for how long."""

    days = forms.TypedChoiceField(label="It ends by itself after", choices=DAYS, coerce=int, initial=30)
    entries = forms.ModelMultipleChoiceField(queryset=LogEntry.objects.none())
    photos = forms.ModelMultipleChoiceField(queryset=LogPhoto.objects.none(), required=False)

    class Meta:
        model = Share
        fields = ("label", "wearer_agrees")

    def __init__(self, *args: Any, outfit: Outfit, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["entries"].queryset = outfit.log.all()
        self.fields["entries"].error_messages["required"] = "Tick at least one entry."
        self.fields["photos"].queryset = LogPhoto.objects.filter(entry__outfit=outfit)

    def clean(self) -> dict[str, Any]:
        """A picture goes only with its entry, and one of the wearer only where they agree."""
        cleaned = super().clean()
        photos, entries = cleaned.get("photos") or [], set(cleaned.get("entries") or [])
        if any(photo.shows_wearer for photo in photos) and not cleaned.get("wearer_agrees"):
            self.add_error("photos", "A photograph ticked shows the wearer: ask first, then say so above.")
        if any(photo.entry not in entries for photo in photos):
            self.add_error("photos", "A photograph is ticked whose entry is not: tick the entry too.")
        return cleaned

    def expires_at(self, at: datetime) -> datetime:
        return at + timedelta(days=self.cleaned_data["days"])


class PatternForm(forms.ModelForm):
    class Meta:
        model = PatternInHand
        fields = ("name", "size", "parts", "notes")
        widgets = {"notes": forms.Textarea(attrs={"rows": 3})}


class PatternChangeForm(forms.ModelForm):
    class Meta:
        model = PatternChange
        fields = ("changed_on", "part", "what")
        widgets = {
            "changed_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "what": forms.Textarea(attrs={"rows": 2}),
        }
