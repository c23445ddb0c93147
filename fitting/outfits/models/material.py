from django.core.validators import MinValueValidator
from django.db import models

from catalogue.lengths.models import LengthColumns
from catalogue.workroom.models import KeyedModel, WorkroomQuerySet
from fitting.outfits.calculation.money import PRICE_FOR
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit


class MaterialQuerySet(WorkroomQuerySet):
    def for_list_page(self) -> "MaterialQuerySet":
        return self.select_related("garment").order_by("kind", "name", "pk")


class Material(KeyedModel):
    """Something that an outfit takes: by the length, as cloth and tape, or by the piece, as buttons."""

    class Kind(models.TextChoices):
        CLOTH = "cloth", "cloth"
        LINING = "lining", "lining"
        INTERLINING = "interlining", "interlining or stiffening"
        NOTIONS = "notions", "notions"

    workroom_path = "outfit__workroom"

    outfit = models.ForeignKey(Outfit, on_delete=models.CASCADE, related_name="materials")
    garment = models.ForeignKey(
        Garment, null=True, blank=True, on_delete=models.SET_NULL, related_name="materials"
    )
    kind = models.CharField(max_length=12, choices=Kind, default=Kind.CLOTH)
    name = models.CharField(max_length=120)
    width = LengthColumns("width", null=True, blank=True)
    needed = LengthColumns("needed", null=True, blank=True)
    on_hand = LengthColumns("on hand", null=True, blank=True, help_text="Before anything was bought.")
    bought = LengthColumns("bought", null=True, blank=True)
    needed_count = models.PositiveIntegerField("needed, pieces", null=True, blank=True)
    on_hand_count = models.PositiveIntegerField("on hand, pieces", null=True, blank=True)
    bought_count = models.PositiveIntegerField("bought, pieces", null=True, blank=True)
    price = models.DecimalField(
        "price, expected", max_digits=9, decimal_places=2, null=True, blank=True,
        validators=[MinValueValidator(0)],
    )  # fmt: skip
    price_for = models.CharField("for", max_length=5, choices=PRICE_FOR, blank=True)
    cost = models.DecimalField(
        "paid", max_digits=9, decimal_places=2, null=True, blank=True,
        validators=[MinValueValidator(0)], help_text="For all that was bought.",
    )  # fmt: skip
    supplier = models.CharField("where from", max_length=120, blank=True)
    notes = models.TextField(blank=True)

    objects = MaterialQuerySet.as_manager()

    class Meta:
        ordering = ("kind", "name", "pk")

    def __str__(self) -> str:
        return self.name
