from django.conf import settings
from django.db import models
from django.urls import reverse

from catalogue.models import WorkroomModel
from fitting.models.outfit import Outfit
from fitting.models.wearer import Wearer


class Dossier(WorkroomModel):
    """A PDF printed for a fitting, a work session or the file. A short-lived process makes it and beats its heart here."""

    class Paper(models.TextChoices):
        A4 = "A4", "A4"
        LETTER = "Letter", "Letter"

    class State(models.TextChoices):
        WAITING = "waiting", "waiting"
        RUNNING = "running", "being made"
        DONE = "done", "ready"
        FAILED = "failed", "failed"

    workroom_path = "outfit__workroom"
    is_personal = True

    outfit = models.ForeignKey(Outfit, on_delete=models.CASCADE, related_name="dossiers")
    wearer = models.ForeignKey(
        Wearer, null=True, blank=True, on_delete=models.CASCADE, related_name="dossiers"
    )
    sections = models.JSONField(default=list)
    paper = models.CharField(max_length=6, choices=Paper, default=Paper.A4)
    system = models.CharField(
        "lengths in", max_length=2, choices=[("in", "inches"), ("cm", "centimetres")], default="in"
    )
    state = models.CharField(max_length=8, choices=State, default=State.WAITING, editable=False)
    progress = models.PositiveSmallIntegerField(default=0, editable=False)
    step = models.CharField(max_length=80, blank=True, editable=False)
    heartbeat = models.DateTimeField(null=True, editable=False)
    fault = models.TextField(blank=True, editable=False)
    file_name = models.CharField(max_length=80, blank=True, editable=False)
    pages = models.PositiveSmallIntegerField(null=True, editable=False)
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.SET_NULL, related_name="+"
    )
    asked_at = models.DateTimeField()
    finished_at = models.DateTimeField(null=True, editable=False)

    class Meta:
        ordering = ("-asked_at", "-pk")

    def __str__(self) -> str:
        return f"dossier of {self.outfit}, {self.asked_at:%-d %B %Y}"

    def get_absolute_url(self) -> str:
        return reverse("dossier-detail", args=[self.pk])
