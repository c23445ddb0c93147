from typing import Any

from django import forms
from django.utils import timezone

from fitting.planning.calculation.critical_path import GoesRound, in_order
from fitting.planning.loading.work import said_to_wait, tasks_of, waits_between
from fitting.planning.models import Task


class TaskForm(forms.ModelForm):
    """A task, and what it waits for besides what the order of stages and of dressing says."""

    class Meta:
        model = Task
        fields = ("name", "garment", "leads_to", "estimate_hours", "due_on", "waits_for", "done_on")
        widgets = {
            "estimate_hours": forms.NumberInput(attrs={"step": "0.25", "min": "0", "inputmode": "decimal"}),
            "due_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "done_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "waits_for": forms.CheckboxSelectMultiple,
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        outfit = self.instance.outfit
        self.fields["garment"].queryset = outfit.garments.all()
        self.fields["garment"].empty_label = "the outfit as a whole"
        self.fields["leads_to"].choices = [("", "no stage"), *self.fields["leads_to"].choices[1:]]
        others = outfit.tasks.open().exclude(pk=self.instance.pk).select_related("garment")
        self.fields["waits_for"].queryset = others
        self.fields[
            "waits_for"
        ].help_text = "Only what does not follow from the stages and the order of dressing."
        if not self.instance.pk:
            del self.fields["done_on"]
        if not others:
            del self.fields["waits_for"]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if cleaned.get("leads_to") and not cleaned.get("garment"):
            self.add_error("garment", "Which garment does it bring to that stage?")
        done_on = cleaned.get("done_on")
        if done_on and done_on > timezone.localdate():
            self.add_error("done_on", "It cannot be done on a day to come.")
        if not self.errors and not done_on and (ring := self._ring(cleaned)):
            self.add_error("waits_for", f"They would wait for one another: {ring}.")
        return cleaned

    def _ring(self, cleaned: dict[str, Any]) -> str:
        """The tasks that would wait for one another, as words; empty where there are none."""
        outfit = self.instance.outfit
        as_sent = Task(
            pk=self.instance.pk or 0,
            name=cleaned["name"],
            garment=cleaned["garment"],
            leads_to=cleaned["leads_to"],
        )
        tasks = [task for task in tasks_of([outfit]) if not task.done_on and task.pk != as_sent.pk]
        said = said_to_wait(tasks) | {str(as_sent.pk): [str(one.pk) for one in cleaned.get("waits_for", ())]}
        tasks.append(as_sent)
        try:
            in_order(waits_between(tasks, list(outfit.garments.all()), said=said))
        except GoesRound as fault:
            names = {str(task.pk): str(task) for task in tasks}
            return " waits for ".join(names[key] for key in (*fault.ring, fault.ring[0]))
        return ""
