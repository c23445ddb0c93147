from typing import Any

from django import forms
from django.db.models import QuerySet

from catalogue.lengths.forms import LengthsInUnit
from catalogue.photographs.forms import PicturesField
from catalogue.workroom.guard import key_of
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogEntry, LogPhoto
from fitting.outfits.models.outfit import Outfit

ONE_OF = ("text", "hours", "cost", "stage", "pictures", "seam_um")


class LogEntryForm(LengthsInUnit, forms.ModelForm):
    """What was done: any one of words, hours, money, a new stage or a photograph is enough."""

    pictures = PicturesField(label="Photographs", required=False, help_text="Place and camera are left out.")
    shows_wearer = forms.BooleanField(
        label="The wearer is in them",
        required=False,
        help_text="Then makers and keepers alone see them. Those of a fitting are kept so in any case.",
    )
    finishes_task = forms.BooleanField(label="That finishes the task", required=False)
    field_order = ("text", "garment", "hours", "pictures", "shows_wearer", "task", "finishes_task", "stage")

    class Meta:
        model = LogEntry
        fields = ("text", "garment", "hours", "task", "stage", "cost", "seam_um", "seam_minutes", "day")
        widgets = {
            "text": forms.Textarea(attrs={"rows": 3}),
            "hours": forms.NumberInput(attrs={"step": "0.25", "min": "0", "inputmode": "decimal"}),
            "cost": forms.NumberInput(attrs={"step": "0.01", "min": "0", "inputmode": "decimal"}),
            "day": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "task": forms.RadioSelect,
        }
        help_texts = {
            "text": "Readers of the workroom see it: a measure belongs on the wearer’s page.",
            "seam_um": "From it the hours of sewing are reckoned.",
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        outfit = self.instance.outfit
        self.fields["garment"].queryset = outfit.garments.all()
        self.fields["garment"].empty_label = "the outfit as a whole"
        tasks = outfit.tasks.select_related("garment")
        self.fields["task"].queryset = tasks if self.instance.pk else tasks.open()
        self.fields["task"].label = "What was it?"
        self.fields["task"].empty_label = "something else"
        self._offer_tasks_of_its_garment(tasks)
        self.fields["stage"].choices = [("", "as it was"), *self.fields["stage"].choices[1:]]
        if outfit.money_in:
            self.fields["cost"].label = f"Spent, {outfit.money_in}"

    def _offer_tasks_of_its_garment(self, tasks: QuerySet) -> None:
        """Where the garment is known, its own open tasks alone are to choose from; none is named twice."""
        garment = self.instance.garment_id or key_of(str(self.initial.get("garment") or ""))
        if self.is_bound or not garment:
            return
        own = [task for task in self.fields["task"].queryset if task.garment_id == garment]
        if own:
            self.fields["task"].choices = [
                ("", self.fields["task"].empty_label),
                *((task.pk, task.name) for task in own),
            ]

    @property
    def refused(self) -> list[str]:
        return self.fields["pictures"].refused

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        task = cleaned.get("task")
        if task and task.garment and not cleaned.get("garment"):
            cleaned["garment"] = task.garment
        if cleaned.get("stage") and not cleaned.get("garment"):
            self.add_error("garment", "Which garment has come to that stage?")
        if task and task.garment and task.garment != cleaned.get("garment"):
            self.add_error("task", f"That task belongs to “{task.garment}”.")
        if (cleaned.get("seam_um") is None) != (cleaned.get("seam_minutes") is None) and not self.errors:
            empty = "seam_minutes" if cleaned.get("seam_minutes") is None else "seam_um"
            self.add_error(empty, "A timed seam has both a length and its minutes.")
        says_nothing = all(cleaned.get(name) in (None, "", []) for name in ONE_OF)
        if not self.errors and says_nothing and not (self.instance.pk and self.instance.photos.exists()):
            self.add_error("text", "Say what was done, or how long, or show it.")
        return cleaned


class LogOfForm(forms.Form):
    """Which garment's entries are shown."""

    garment = forms.ModelChoiceField(queryset=None, required=False, empty_label="the whole outfit")

    def __init__(self, *args: Any, outfit: Outfit, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["garment"].queryset = outfit.garments.all()

    @property
    def chosen(self) -> Garment | None:
        """The one asked for; None where there is no such garment."""
        return self.cleaned_data.get("garment") if self.is_valid() else None


class LogPhotoForm(forms.ModelForm):
    class Meta:
        model = LogPhoto
        fields = ("caption", "shows_wearer")
