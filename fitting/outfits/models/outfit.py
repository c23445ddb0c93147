from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.urls import reverse

from catalogue.workroom.models import KeyedModel, Workroom, WorkroomQuerySet
from fitting.wearers.models import Wearer


class OutfitQuerySet(WorkroomQuerySet):
    def for_list_page(self) -> "OutfitQuerySet":
        return self.select_related("wearer").prefetch_related("garments")

    def unfinished(self) -> "OutfitQuerySet":
        """Those with a garment still to make, or none yet; the day that comes first at the head."""
        finished = models.Q(garments__stage="finished")
        return (
            self.select_related("workroom", "wearer", "maker")
            .annotate(
                garment_count=models.Count("garments"),
                finished_count=models.Count("garments", filter=finished),
            )
            .filter(models.Q(garment_count=0) | models.Q(finished_count__lt=models.F("garment_count")))
            .order_by(models.F("occasion_on").asc(nulls_last=True), "name", "pk")
        )

    def for_detail_page(self) -> "OutfitQuerySet":
        return self.select_related("wearer", "workroom", "maker").prefetch_related(
            "garments__references__reference", "garments__route_choices"
        )


class Outfit(KeyedModel):
    """The project: a wearer, an occasion and its date, garments in dressing order."""

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="outfits")
    name = models.CharField(max_length=160)
    wearer = models.ForeignKey(
        Wearer, null=True, blank=True, on_delete=models.SET_NULL, related_name="outfits"
    )
    maker = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.SET_NULL, related_name="outfits"
    )
    occasion = models.CharField(max_length=200, blank=True)
    occasion_on = models.DateField("date of the occasion", null=True, blank=True)
    hours_a_week = models.FloatField(
        "hours a week for it",
        null=True,
        blank=True,
        validators=[MinValueValidator(0.1), MaxValueValidator(168)],
        help_text="Left empty: what the maker gives a day, seven days a week.",
    )
    budget = models.DecimalField(
        max_digits=9, decimal_places=2, null=True, blank=True, validators=[MinValueValidator(0)]
    )
    currency = models.CharField(
        "money in", max_length=8, blank=True, help_text="Left empty: as in the whole workroom."
    )
    notes = models.TextField(blank=True)

    objects = OutfitQuerySet.as_manager()

    class Meta:
        ordering = ("occasion_on", "name", "pk")

    def __str__(self) -> str:
        return self.name

    @property
    def money_in(self) -> str:
        return self.currency or self.workroom.currency

    def get_absolute_url(self) -> str:
        return reverse("outfit-detail", args=[self.pk])
