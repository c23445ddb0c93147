"""A fitting with the wearer, and what was seen at it. Personal data: readers never see these rows."""

from uuid import uuid4

from django.conf import settings
from django.db import models
from django.urls import reverse
from django.utils import timezone

from catalogue.lengths.models import LengthColumns
from catalogue.photographs.models import WithCopies
from catalogue.workroom.models import KeyedModel, Workroom, WorkroomQuerySet
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.wearers.models import Measures, Wearer


class FittingQuerySet(WorkroomQuerySet):
    def for_list_page(self) -> "FittingQuerySet":
        return self.select_related("outfit__wearer").prefetch_related("garments")

    def for_detail_page(self) -> "FittingQuerySet":
        return self.select_related(
            "outfit__workroom", "outfit__wearer", "wearer", "measures"
        ).prefetch_related(
            "garments__plate__pieces",
            "garments__inlays",
            "observations__garment",
            "observations__photos",
            "observations__alterations__piece",
            "observations__alterations__garment",
        )

    def open_in(self, workroom: Workroom) -> "FittingQuerySet":
        """Those planned or held and not closed yet, the next one first."""
        return self.of_workroom(workroom).filter(closed_at=None).order_by("planned_for", "pk")


class Fitting(KeyedModel):
    """A dated session with the wearer: planned, held, closed."""

    workroom_path = "outfit__workroom"
    is_personal = True

    outfit = models.ForeignKey(Outfit, on_delete=models.CASCADE, related_name="fittings")
    # The person fitted, kept apart from the outfit so that erasing finds all that was seen on them.
    wearer = models.ForeignKey(
        Wearer, null=True, blank=True, on_delete=models.CASCADE, related_name="fittings"
    )
    planned_for = models.DateTimeField("when")
    place = models.CharField("where", max_length=160, blank=True)
    present = models.CharField(
        "who comes besides the wearer", max_length=200, blank=True, help_text="Who laces, who pins."
    )
    garments = models.ManyToManyField(Garment, related_name="fittings", verbose_name="garments to be fitted")
    wear = models.TextField("what else to wear", blank=True, help_text="One thing a line.")
    checks = models.TextField("what else to check", blank=True, help_text="One thing a line.")
    # What was reckoned when it was closed, a line each: until then it is reckoned anew each time it is shown.
    wear_said = models.TextField(blank=True, editable=False)
    checks_said = models.TextField(blank=True, editable=False)
    notes = models.TextField(blank=True)
    measures = models.ForeignKey(
        Measures, null=True, blank=True, on_delete=models.SET_NULL, related_name="fittings",
        verbose_name="measures retaken",
    )  # fmt: skip
    closed_at = models.DateTimeField(null=True, editable=False)
    closed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, editable=False, on_delete=models.SET_NULL, related_name="+"
    )

    objects = FittingQuerySet.as_manager()

    class Meta:
        ordering = ("-planned_for", "-pk")

    def __str__(self) -> str:
        return f"fitting of {self.outfit}, {timezone.localdate(self.planned_for):%-d %B %Y}"

    @property
    def is_past(self) -> bool:
        """Whether it was to be held by now."""
        return self.planned_for < timezone.now()

    def get_absolute_url(self) -> str:
        return reverse("fitting-detail", args=[self.pk])


class Observation(KeyedModel):
    """What was seen and pinned: a garment, a place, what and how much. Later it is altered, or dropped."""

    class Remark(models.TextChoices):
        LET_OUT = "let out", "let out"
        TAKE_IN = "take in", "take in"
        LENGTHEN = "lengthen", "lengthen"
        SHORTEN = "shorten", "shorten"
        GAPES = "gapes", "gapes"
        STRAINS = "strains", "strains"
        DRAGS = "drags", "drags"
        RIDES_UP = "rides up", "rides up"
        DIGS_IN = "digs in", "digs in"
        FITS = "fits", "fits well"
        NOTED = "noted", "see the note"

    class BodySide(models.TextChoices):
        BOTH = "", "both sides"
        LEFT = "left", "left"
        RIGHT = "right", "right"

    WITH_AMOUNT = (Remark.LET_OUT, Remark.TAKE_IN, Remark.LENGTHEN, Remark.SHORTEN)

    workroom_path = "fitting__outfit__workroom"
    is_personal = True

    fitting = models.ForeignKey(Fitting, on_delete=models.CASCADE, related_name="observations")
    garment = models.ForeignKey(Garment, on_delete=models.CASCADE, related_name="observations")
    # Made by the phone before it sends: what is sent twice is kept once.
    client_key = models.UUIDField(default=uuid4, editable=False)
    place = models.CharField(max_length=60)
    side = models.CharField(max_length=5, choices=BodySide, default=BodySide.BOTH, blank=True)
    what = models.CharField("what was seen", max_length=10, choices=Remark)
    amount = LengthColumns("how much in all", null=True, blank=True)
    note = models.TextField(blank=True)
    seen_at = models.DateTimeField(editable=False)
    seen_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, editable=False, on_delete=models.SET_NULL, related_name="+"
    )
    dropped_because = models.CharField("dropped, because", max_length=200, blank=True)

    class Meta:
        ordering = ("seen_at", "pk")
        constraints = (
            models.UniqueConstraint(fields=["fitting", "client_key"], name="sent_twice_is_kept_once"),
        )

    def __str__(self) -> str:
        side = f", {self.side}" if self.side else ""
        return f"{self.garment}, {self.place}{side}: {self.said}"

    @property
    def said(self) -> str:
        return " ".join(part for part in (self.get_what_display(), self.amount_text) if part)

    @property
    def is_settled(self) -> bool:
        """Whether it became an alteration, was dropped, or asks for nothing."""
        fine = self.what == self.Remark.FITS
        return fine or bool(self.dropped_because) or bool(self.alterations.all())

    def get_absolute_url(self) -> str:
        return f"{self.fitting.get_absolute_url()}#seen-{self.pk}"


class ObservationPhoto(WithCopies, KeyedModel):
    """A photograph of a person being fitted. Only copies drawn from its pixels are kept."""

    FOLDER = "fittings/"
    workroom_path = "observation__fitting__outfit__workroom"
    is_personal = True

    observation = models.ForeignKey(Observation, on_delete=models.CASCADE, related_name="photos")

    class Meta:
        ordering = ("pk",)
        verbose_name = "photograph"

    def __str__(self) -> str:
        return f"photograph: {self.observation}"
