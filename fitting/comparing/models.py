"""Comparisons of a garment's plate with its wearer, and the routes to a pattern that makers chose.

A stored comparison is never edited. It holds its inputs, results, rule version and time; when the case built
from today's rows has another checksum it is out of date, and a new one is made beside it.
"""

from django.conf import settings
from django.core.validators import MinValueValidator
from django.db import models
from django.urls import reverse
from django.utils import timezone

from catalogue.workroom.models import KeyedModel
from fitting.comparing.calculation.routes import Route
from fitting.outfits.models.garment import Garment
from fitting.wearers.models import Wearer

ROUTE_CHOICES = [(route.value, route.value) for route in Route]


class Comparison(KeyedModel):
    """Plate against wearer, as reckoned at one time: inputs, results, rule version. Never edited.

    When an input changes it is out of date, and a new one is made beside it. Old dossiers can still be
    explained.
    """

    workroom_path = "garment__outfit__workroom"
    is_personal = True

    garment = models.ForeignKey(Garment, on_delete=models.CASCADE, related_name="comparisons")
    # The person measured, kept apart from the outfit so that erasing finds every figure taken from them.
    wearer = models.ForeignKey(Wearer, null=True, on_delete=models.CASCADE, related_name="comparisons")
    inputs = models.JSONField()
    inputs_checksum = models.CharField(max_length=64)
    results = models.JSONField()
    rule_version = models.CharField(max_length=20)
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.SET_NULL, related_name="+"
    )

    class Meta:
        ordering = ("-made_at", "-pk")
        get_latest_by = ("made_at", "pk")

    def __str__(self) -> str:
        return f"comparison of {self.garment}, {timezone.localdate(self.made_at):%-d %B %Y}"

    def get_absolute_url(self) -> str:
        return reverse("comparison-detail", args=[self.pk])


class RouteChoice(KeyedModel):
    """The way that the maker chose to a garment's pattern, why, and how it turned out. The last counts."""

    workroom_path = "garment__outfit__workroom"

    garment = models.ForeignKey(Garment, on_delete=models.CASCADE, related_name="route_choices")
    comparison = models.ForeignKey(
        Comparison, null=True, blank=True, on_delete=models.SET_NULL, related_name="+"
    )
    route = models.CharField(max_length=30, choices=ROUTE_CHOICES)
    reason = models.CharField("reason, in one tap", max_length=80, blank=True)
    why = models.TextField("in words", blank=True)
    chosen_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.SET_NULL, related_name="+"
    )
    chosen_at = models.DateTimeField()
    outcome = models.TextField("how it turned out", blank=True)
    hours = models.FloatField("hours it took", null=True, blank=True, validators=[MinValueValidator(0)])
    outcome_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ("-chosen_at", "-pk")

    def __str__(self) -> str:
        return f"{self.garment}: {self.route}"
