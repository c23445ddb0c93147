"""What is done about an observation, followed through every layer it has to reach; and the inlay left."""

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.urls import reverse

from catalogue.lengths.models import LengthColumns
from catalogue.plates.models.piece import Piece
from catalogue.workroom.models import KeyedModel, WorkroomModel, WorkroomQuerySet
from fitting.fittings.models.session import Fitting, Observation
from fitting.outfits.models.garment import Garment
from fitting.wearers.models import Wearer


class AlterationQuerySet(WorkroomQuerySet):
    def with_parts(self) -> "AlterationQuerySet":
        return self.select_related("observation", "garment", "confirmed_in").prefetch_related("parts")

    def unconfirmed(self) -> "AlterationQuerySet":
        """Those that no later fitting has confirmed yet."""
        return self.filter(confirmed_in=None)

    def ticked(self) -> "AlterationQuerySet":
        """Those that have reached at least one layer."""
        done = AlterationPart.objects.filter(alteration=models.OuterRef("pk"), done_on__isnull=False)
        return self.filter(models.Exists(done))

    def made_from(self, row: Fitting | Observation) -> "AlterationQuerySet":
        """The alterations decided about this observation, or about those of this fitting."""
        if isinstance(row, Fitting):
            return self.filter(observation__fitting=row)
        return self.filter(observation=row)

    def kept_without(self, row: Fitting | Observation) -> "AlterationQuerySet":
        """The alterations made from it that outlive it: something of them is done, or they are confirmed."""
        made = self.made_from(row)
        return self.filter(models.Q(pk__in=made.ticked()) | models.Q(pk__in=made.exclude(confirmed_in=None)))


class Alteration(KeyedModel):
    """Something altered, or to be altered, on a garment; open until a later fitting confirms it."""

    class Deed(models.TextChoices):
        LET_OUT = "let out", "let out"
        TAKE_IN = "take in", "take in"
        LENGTHEN = "lengthen", "lengthen"
        SHORTEN = "shorten", "shorten"
        RESHAPE = "reshape", "reshape"
        RECUT = "recut", "recut or piece"

    workroom_path = "garment__outfit__workroom"
    is_personal = True

    garment = models.ForeignKey(Garment, on_delete=models.CASCADE, related_name="alterations")
    wearer = models.ForeignKey(
        Wearer, null=True, blank=True, editable=False, on_delete=models.CASCADE, related_name="alterations"
    )
    observation = models.ForeignKey(
        Observation,
        null=True,
        blank=True,
        editable=False,
        on_delete=models.CASCADE,
        related_name="alterations",
    )
    piece = models.ForeignKey(
        Piece, null=True, blank=True, on_delete=models.SET_NULL, related_name="alterations",
        verbose_name="pattern piece",
    )  # fmt: skip
    edge = models.CharField("edge or seam", max_length=80, help_text="side seam, armhole, hem …")
    what = models.CharField("what is done", max_length=10, choices=Deed)
    amount = LengthColumns("amount for each edge", null=True, blank=True)
    edges = models.PositiveSmallIntegerField(
        "cut edges that take it",
        default=2,
        validators=[MinValueValidator(1), MaxValueValidator(40)],
        help_text="A seam has 2, one on either side of the body has 4.",
    )
    note = models.CharField(max_length=300, blank=True)
    decided_at = models.DateTimeField(editable=False)
    decided_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, editable=False, on_delete=models.SET_NULL, related_name="+"
    )
    confirmed_in = models.ForeignKey(
        Fitting, null=True, editable=False, on_delete=models.SET_NULL, related_name="confirmed"
    )

    objects = AlterationQuerySet.as_manager()

    class Meta:
        ordering = ("decided_at", "pk")

    def __str__(self) -> str:
        piece = f"{self.piece}, " if self.piece else ""
        return f"{piece}{self.edge}: {self.said}"

    @property
    def said(self) -> str:
        each = f"{self.amount_text} at each of {self.edges} edges" if self.edges > 1 else self.amount_text
        return f"{self.get_what_display()} {each}" if self.amount_text else self.get_what_display()

    @property
    def by_part(self) -> dict[str, "AlterationPart"]:
        return {one.part: one for one in self.parts.all()}

    @property
    def is_carried_through(self) -> bool:
        return all(part.done_on for part in self.parts.all())

    def get_absolute_url(self) -> str:
        return f"{self.garment.get_absolute_url()}#alteration-{self.pk}"


class AlterationPart(WorkroomModel):
    """One layer or edge that an alteration has to reach, and the day on which it did."""

    class Place(models.TextChoices):
        PAPER = "paper", "paper"
        TOILE = "toile", "toile"
        LINING = "lining", "lining"
        OUTER = "outer", "outer"
        FACING = "facing", "facing"
        JOINED_EDGE = "joined edge", "joined edge"
        SLEEVE = "sleeve", "sleeve"

    workroom_path = "alteration__garment__outfit__workroom"
    is_personal = True

    alteration = models.ForeignKey(Alteration, on_delete=models.CASCADE, related_name="parts")
    part = models.CharField(max_length=12, choices=Place)
    done_on = models.DateField("done", null=True, blank=True)

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=["alteration", "part"], name="one_tick_a_part"),)

    def __str__(self) -> str:
        return self.part


class Inlay(WorkroomModel):
    """The allowance that one seam of the garment was cut with: what can still be let out comes from it."""

    workroom_path = "garment__outfit__workroom"

    garment = models.ForeignKey(Garment, on_delete=models.CASCADE, related_name="inlays")
    edge = models.CharField("edge or seam", max_length=80)
    edges = models.PositiveSmallIntegerField(
        "cut edges", default=4, validators=[MinValueValidator(1), MaxValueValidator(40)]
    )
    allowance = LengthColumns("allowance as cut", help_text="At each edge, as it was cut, not as it is now.")

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=["garment", "edge"], name="one_inlay_an_edge"),)

    def __str__(self) -> str:
        return f"{self.edge}: {self.allowance_text}"

    def get_absolute_url(self) -> str:
        return reverse("inlay-list", args=[self.garment_id])
