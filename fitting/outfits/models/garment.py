"""A garment of an outfit, the reference garments that it draws on, and the ease wanted in it."""

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.urls import reverse

from catalogue.lengths.models import NO_LENGTH, LengthColumns
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import LINE_CHOICES, ReferenceGarment
from catalogue.workroom.models import KeyedModel, WorkroomModel, WorkroomQuerySet
from fitting.outfits.calculation.garment import Fit, Purpose
from fitting.outfits.models.outfit import Outfit
from fitting.wearers.calculation.layers import LAYER_KINDS
from fitting.wearers.models import Measures, Stand

PURPOSE_CHOICES = [
    (Purpose.THIS_GARMENT.value, "this garment, as it survives"),
    (Purpose.NEAR_VARIATION.value, "a near variation of it"),
    (Purpose.PERIOD_LOOK.value, "the look of its period"),
    (Purpose.STUDY.value, "study only"),
]
FIT_CHOICES = [
    (Fit.FITTED.value, "fitted"),
    (Fit.LOOSE.value, "loose: a minimum only"),
    (Fit.GATHERED.value, "gathered"),
    (Fit.NOT_THERE.value, "not there"),
]


class GarmentQuerySet(WorkroomQuerySet):
    def same_as(self, garment: "Garment") -> "GarmentQuerySet":
        """The same garment for others: that it was made after, those made after it, or after the same one."""
        first = garment.again_of_id or garment.pk
        same = self.filter(models.Q(pk=first) | models.Q(again_of=first)).exclude(pk=garment.pk)
        return same.select_related("outfit__wearer").order_by("outfit__name", "pk")

    def for_detail_page(self) -> "GarmentQuerySet":
        return self.select_related(
            "outfit__workroom", "outfit__wearer", "outfit__maker", "plate__reference", "measures", "stand"
        ).prefetch_related("references__reference", "eases", "comparisons", "route_choices")


class Garment(KeyedModel):
    """One thing to make, with its place in the dressing order (1 = next to the skin)."""

    class Stage(models.TextChoices):
        STUDIED = "studied", "studied"
        ROUTE_CHOSEN = "route chosen", "route chosen"
        PATTERNED = "patterned", "patterned"
        TOILE = "toile", "toile"
        FITTED = "fitted", "fitted"
        CUT = "cut", "cut"
        SEWN = "sewn", "sewn"
        FINISHED = "finished", "finished"

    workroom_path = "outfit__workroom"

    outfit = models.ForeignKey(Outfit, on_delete=models.CASCADE, related_name="garments")
    name = models.CharField(max_length=120)
    order = models.PositiveSmallIntegerField(
        "place in the dressing order", default=1, help_text="1 = next to the skin."
    )
    stage = models.CharField(max_length=15, choices=Stage, default=Stage.STUDIED)
    purpose = models.CharField(max_length=15, choices=PURPOSE_CHOICES, default=Purpose.THIS_GARMENT.value)
    plate = models.ForeignKey(
        Plate,
        null=True,
        blank=True,
        on_delete=models.SET_NULL,
        related_name="garments",
        verbose_name="plate it is compared with",
    )
    measures = models.ForeignKey(
        Measures,
        null=True,
        blank=True,
        on_delete=models.SET_NULL,
        related_name="garments",
        verbose_name="measures it is compared with",
        help_text="Left empty: the newest set taken over what is worn beneath.",
    )
    stand = models.ForeignKey(
        Stand, null=True, blank=True, on_delete=models.SET_NULL, related_name="garments"
    )
    kind = models.CharField(
        max_length=20,
        choices=[(key, key) for key in LAYER_KINDS],
        blank=True,
        help_text="It says where the garment lies on the body, and what there is to do for it.",
    )
    # What it does to those worn over it.
    lies_at = models.JSONField("where it lies", default=list, blank=True)
    band_at = models.CharField(
        "where its band sits",
        max_length=12,
        blank=True,
        choices=[("under bust", "under the bust"), ("waist", "at the waist"), ("hip", "at the hip")],
        help_text="Left empty: as its kind and period have it.",
    )
    is_gauged = models.BooleanField("gauged or cartridge-pleated: it stands outside its band", default=False)
    arc_percent = models.PositiveSmallIntegerField(
        "covers of the way round, in per cent",
        null=True,
        blank=True,
        validators=[MinValueValidator(1), MaxValueValidator(100)],
        help_text="Left empty: half for a pad or an apron, else all of it.",
    )
    thickness = LengthColumns(
        "thickness as it lies",
        null=True,
        blank=True,
        help_text="One layer, lying flat: thin linen about 0.3 mm.",
    )
    layers = models.PositiveSmallIntegerField(
        "layers of cloth at the body", default=1, validators=[MaxValueValidator(40)]
    )
    gather_ratio = models.FloatField(
        "gathered by", default=1, validators=[MinValueValidator(1), MaxValueValidator(20)]
    )
    is_boned = models.BooleanField("boned stays or corset", default=False)
    reduction = LengthColumns("waist it takes in, expected", null=True, blank=True)
    made_on = models.DateField("made, or last changed", null=True, blank=True)
    # On one day with a check of the measures over it, what was said later counts.
    made_said_at = models.DateTimeField(null=True, blank=True, editable=False)
    # What it needs, and what may be altered.
    needs_parts = models.CharField(
        "parts a pattern in hand must have",
        max_length=200,
        blank=True,
        help_text="Parted by commas: bodice, sleeve.",
    )
    edges_that_may_take = models.PositiveSmallIntegerField(
        null=True,
        blank=True,
        validators=[MinValueValidator(1)],
        help_text="Cut edges at the seams that may be let out or taken in: two side seams have 4.",
    )
    notes = models.TextField(blank=True)
    # A workshop makes the same garment for several people: each has their own row, measured for themselves.
    again_of = models.ForeignKey(
        "self",
        null=True,
        blank=True,
        editable=False,
        on_delete=models.SET_NULL,
        related_name="made_again",
        verbose_name="the same as",
    )

    objects = GarmentQuerySet.as_manager()

    class Meta:
        ordering = ("order", "pk")

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("garment-detail", args=[self.pk])


class GarmentReference(WorkroomModel):
    """A reference garment that a garment draws on, and for what."""

    workroom_path = "garment__outfit__workroom"

    garment = models.ForeignKey(Garment, on_delete=models.CASCADE, related_name="references")
    reference = models.ForeignKey(ReferenceGarment, on_delete=models.CASCADE, related_name="used_by")
    what_for = models.CharField(max_length=120, blank=True)

    class Meta:
        ordering = ("pk",)
        constraints = (
            models.UniqueConstraint(fields=["garment", "reference"], name="a_reference_once_a_garment"),
        )

    def __str__(self) -> str:
        return str(self.reference)


class Ease(WorkroomModel):
    """Garment minus body, wanted, at one level or along one length; and how the level is to fit."""

    workroom_path = "garment__outfit__workroom"

    garment = models.ForeignKey(Garment, on_delete=models.CASCADE, related_name="eases")
    line = models.CharField("level or length", max_length=40, choices=LINE_CHOICES)
    ease = LengthColumns("ease", default=NO_LENGTH, signed=True)
    fit = models.CharField(max_length=10, choices=FIT_CHOICES, default=Fit.FITTED.value)
    # Full size; empty: as on the plate.
    gap = LengthColumns("lacing gap as worn", null=True, blank=True)
    source = models.CharField("where the figure comes from", max_length=200, blank=True)

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=["garment", "line"], name="one_ease_a_line"),)

    def __str__(self) -> str:
        return f"{self.line} {self.ease_text}"
