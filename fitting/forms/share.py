from datetime import datetime, timedelta
from typing import Any

from django import forms

from fitting.models.log import LogEntry, LogPhoto
from fitting.models.outfit import Outfit
from fitting.models.share import Share

DAYS = ((7, "a week"), (30, "a month"), (90, "three months"))


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
