from django.db import models
from django.urls import reverse

from catalogue.lengths.models import LengthField, TypedText
from catalogue.references.models.garment import LINE_CHOICES
from catalogue.workroom.models import Workroom, WorkroomModel


class Stand(WorkroomModel):
    """A dress stand with its own measures."""

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="stands")
    name = models.CharField(max_length=120)
    notes = models.TextField(blank=True)

    class Meta:
        ordering = ("name", "pk")

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("stand-change", args=[self.pk])


class StandMeasure(WorkroomModel):
    workroom_path = "stand__workroom"

    stand = models.ForeignKey(Stand, on_delete=models.CASCADE, related_name="measures")
    line = models.CharField("level or length", max_length=40, choices=LINE_CHOICES)
    value_um = LengthField("measure")
    value_text = TypedText()

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=["stand", "line"], name="one_stand_measure_a_line"),)

    def __str__(self) -> str:
        return f"{self.line} {self.value_text}"
