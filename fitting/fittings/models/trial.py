"""A toile or a miniature: a dated trial of a garment, what was learnt, how near the forecast it came."""

from django.db import models
from django.urls import reverse
from django.utils import timezone

from catalogue.lengths.models import LengthColumns
from catalogue.plates.models.piece import Seam
from catalogue.references.models.garment import LINE_CHOICES
from catalogue.workroom.models import KeyedModel, WorkroomModel, WorkroomQuerySet
from fitting.outfits.models.garment import Garment
from fitting.wearers.models import Wearer


class TrialQuerySet(WorkroomQuerySet):
    def for_detail_page(self) -> "TrialQuerySet":
        return self.select_related("garment__outfit__workroom", "garment__plate").prefetch_related(
            "measures", "seams__piece_a", "seams__piece_b"
        )


class Trial(KeyedModel):
    class Kind(models.TextChoices):
        TOILE = "toile", "toile"
        MINIATURE = "miniature", "miniature"

    workroom_path = "garment__outfit__workroom"
    is_personal = True

    garment = models.ForeignKey(Garment, on_delete=models.CASCADE, related_name="trials")
    kind = models.CharField(max_length=10, choices=Kind, default=Kind.TOILE)
    made_on = models.DateField("made", default=timezone.localdate)
    made_of = models.CharField(max_length=120, blank=True, help_text="Old sheeting, duck, tissue at 1:8 …")
    learnt = models.TextField("what was learnt", blank=True)
    seams = models.ManyToManyField(
        Seam, blank=True, related_name="trials", verbose_name="seams it settled",
        help_text="On the plate they then count as tried.",
    )  # fmt: skip

    objects = TrialQuerySet.as_manager()

    class Meta:
        ordering = ("-made_on", "-pk")

    def __str__(self) -> str:
        return f"{self.get_kind_display()} of {self.garment}, {self.made_on:%-d %B %Y}"

    def get_absolute_url(self) -> str:
        return reverse("trial-detail", args=[self.pk])


class TrialMeasure(WorkroomModel):
    """One girth or length of a toile: as forecast, measured flat after sewing, and after fitting."""

    workroom_path = "trial__garment__outfit__workroom"
    is_personal = True

    trial = models.ForeignKey(Trial, on_delete=models.CASCADE, related_name="measures")
    # A toile pinned to a body is a measure of that body, and goes with it.
    wearer = models.ForeignKey(
        Wearer, null=True, editable=False, on_delete=models.CASCADE, related_name="trial_measures"
    )
    line = models.CharField("level or length", max_length=40, choices=LINE_CHOICES)
    forecast = LengthColumns("forecast")
    sewn = LengthColumns("flat, after sewing", null=True, blank=True)
    fitted = LengthColumns("flat, after fitting", null=True, blank=True)

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=["trial", "line"], name="one_trial_measure_a_line"),)

    def __str__(self) -> str:
        return f"{self.line}: forecast {self.forecast_text}"
