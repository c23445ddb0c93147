"""Patterns in hand, and what was changed on them."""

from django.db import models
from django.urls import reverse
from django.utils import timezone

from catalogue.workroom.models import KeyedModel, Workroom, WorkroomModel


class PatternInHand(KeyedModel):
    """A sized pattern that the maker owns and can take parts from."""

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="patterns_in_hand")
    name = models.CharField(max_length=160)
    size = models.CharField("sizes", max_length=40, blank=True, help_text="One, or those it holds: 10 to 16.")
    parts = models.CharField(
        max_length=200, blank=True, help_text="Parted by commas: bodice, sleeve, collar."
    )
    notes = models.TextField(blank=True)

    class Meta:
        ordering = ("name", "pk")
        verbose_name = "pattern in hand"
        verbose_name_plural = "patterns in hand"

    def __str__(self) -> str:
        return f"{self.name}, size {self.size}" if self.size else self.name

    def get_absolute_url(self) -> str:
        return reverse("pattern-detail", args=[self.pk])

    def parts_named(self) -> set[str]:
        return {part.strip().casefold() for part in self.parts.split(",") if part.strip()}


class PatternChange(WorkroomModel):
    """What was changed on a pattern in hand, on which of its parts, and when."""

    workroom_path = "pattern__workroom"

    pattern = models.ForeignKey(PatternInHand, on_delete=models.CASCADE, related_name="changes")
    changed_on = models.DateField("on", default=timezone.localdate)
    part = models.CharField(max_length=60, blank=True, help_text="Left empty: the whole pattern.")
    what = models.CharField("what was changed", max_length=300)

    class Meta:
        ordering = ("-changed_on", "-pk")

    def __str__(self) -> str:
        return self.what
