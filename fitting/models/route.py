from django.conf import settings
from django.core.validators import MinValueValidator
from django.db import models

from catalogue.workroom.models import WorkroomModel
from fitting.calculation.route.names import Route
from fitting.models.comparison import Comparison
from fitting.outfits.models.garment import Garment

ROUTE_CHOICES = [(route.value, route.value) for route in Route]


class RouteChoice(WorkroomModel):
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
