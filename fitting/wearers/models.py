"""The person dressed and their measures; a dress stand and its own; what a maker states of themselves.

Measures are personal data: readers of a workroom never see these rows.
"""

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.urls import reverse
from django.utils import timezone

from catalogue.lengths.models import LengthColumns, TypedLength
from catalogue.references.models.garment import LINE_CHOICES, Dress
from catalogue.workroom.models import KeyedModel, Workroom, WorkroomModel, WorkroomQuerySet


class WearerQuerySet(WorkroomQuerySet):
    def for_list_page(self) -> "WearerQuerySet":
        """Rows with their sets and what was worn: the same number of queries at any length."""
        counted = self.annotate(outfit_count=models.Count("outfits")).order_by("name", "pk")
        return counted.prefetch_related("measures__worn")

    def for_detail_page(self) -> "WearerQuerySet":
        return self.prefetch_related(
            "measures__worn", "measures__takes", "outfits__garments", "fittings__outfit"
        )


class Wearer(KeyedModel):
    is_personal = True

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="wearers")
    name = models.CharField(max_length=120)
    dress = models.CharField("measured for", max_length=12, choices=Dress, default=Dress.WOMENS)
    is_new_to_lacing = models.BooleanField("new to lacing", default=True)
    notes = models.TextField(blank=True)
    # One a line: whoever was called otherwise once is still not named to strangers by that.
    former_names = models.TextField(blank=True, editable=False)

    objects = WearerQuerySet.as_manager()

    class Meta:
        ordering = ("name", "pk")

    def __str__(self) -> str:
        return self.name

    @property
    def names(self) -> list[str]:
        return [self.name, *self.former_names.splitlines()]

    def get_absolute_url(self) -> str:
        return reverse("wearer-detail", args=[self.pk])


class MeasuresQuerySet(WorkroomQuerySet):
    def for_comparison(self) -> "MeasuresQuerySet":
        return self.select_related("wearer").prefetch_related("takes", "worn")


class Measures(KeyedModel):
    """One dated set of body measures in a stated state of dress."""

    class State(models.TextChoices):
        UNDRESSED = "undressed", "undressed, or in close modern underwear"
        OVER_SHIFT = "over shift", "over shift or shirt"
        OVER_STAYS = "over stays", "over stays or corset"
        OVER_LAYERS = "over layers", "over other layers"

    workroom_path = "wearer__workroom"
    is_personal = True

    wearer = models.ForeignKey(Wearer, on_delete=models.CASCADE, related_name="measures")
    taken_on = models.DateField(default=timezone.localdate)
    state = models.CharField("state of dress", max_length=12, choices=State, default=State.UNDRESSED)
    worn = models.ManyToManyField(
        "fitting.Garment",
        blank=True,
        related_name="measured_over",
        verbose_name="garments worn beneath",
        help_text="Those of the outfits of this wearer.",
    )
    state_note = models.CharField("what is underneath", max_length=200, blank=True)
    gap_top = LengthColumns("lacing gap, top", null=True, blank=True)
    gap_waist = LengthColumns("lacing gap, waist", null=True, blank=True)
    gap_bottom = LengthColumns("lacing gap, bottom", null=True, blank=True)
    heel = LengthColumns("heel height", null=True, blank=True)
    laced_by = models.CharField(max_length=80, blank=True)
    measured_by = models.CharField(max_length=80, blank=True)
    is_sent_in = models.BooleanField(
        "sent in by the wearer",
        default=False,
        help_text="Not taken by a trained hand: the doubt is larger, 5/8 in.",
    )
    still_good_on = models.DateField("checked, still good", null=True, blank=True, editable=False)
    still_good_at = models.DateTimeField(null=True, blank=True, editable=False)
    still_good_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, editable=False, on_delete=models.SET_NULL
    )
    notes = models.TextField(blank=True)

    objects = MeasuresQuerySet.as_manager()

    class Meta:
        ordering = ("-taken_on", "-pk")
        verbose_name = "set of measures"
        verbose_name_plural = "sets of measures"

    def __str__(self) -> str:
        return f"{self.wearer}, {self.get_state_display()}, {self.taken_on:%-d %B %Y}"

    def get_absolute_url(self) -> str:
        return reverse("measures-detail", args=[self.pk])


class Take(WorkroomModel):
    """One taking of one measure. Several takes of a line give its mean and its own doubt."""

    class Part(models.TextChoices):
        WHOLE = "", "whole"
        LEFT = "left", "left"
        RIGHT = "right", "right"
        FRONT = "front", "front arc"
        BACK = "back", "back arc"

    workroom_path = "measures__wearer__workroom"
    is_personal = True

    measures = models.ForeignKey(Measures, on_delete=models.CASCADE, related_name="takes")
    line = models.CharField("level or length", max_length=40, choices=LINE_CHOICES)
    side = models.CharField(max_length=5, choices=Part, default=Part.WHOLE, blank=True)
    value = LengthColumns("measure")

    class Meta:
        ordering = ("pk",)

    def __str__(self) -> str:
        return f"{self.line} {self.value_text}"


class Stand(KeyedModel):
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
    value = LengthColumns("measure")

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=["stand", "line"], name="one_stand_measure_a_line"),)

    def __str__(self) -> str:
        return f"{self.line} {self.value_text}"


class Maker(models.Model):
    """Limits default to common practice (no source); each maker sets their own."""

    user = models.OneToOneField(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="maker")
    fits = LengthColumns("counts as fitting, up to", default=TypedLength(text="1/2 in", um=12_700))
    add = LengthColumns("can be added, up to", default=TypedLength(text="3 in", um=76_200))
    take_off = LengthColumns("can be taken off, up to", default=TypedLength(text="3 in", um=76_200))
    per_edge = LengthColumns(
        "most for each edge that may take it", default=TypedLength(text="1/2 in", um=12_700)
    )
    length_fits = LengthColumns(
        "a length counts as fitting, up to", default=TypedLength(text="3/8 in", um=9_525)
    )
    length_alter = LengthColumns(
        "a length can be altered, up to", default=TypedLength(text="1 1/2 in", um=38_100)
    )
    grade_far = LengthColumns("far to grade, over", default=TypedLength(text="4 in", um=101_600))
    grade_too_far = LengthColumns("too far to grade, over", default=TypedLength(text="6 in", um=152_400))
    stale_days = models.PositiveSmallIntegerField(
        "measures are stale after, days", default=90, validators=[MinValueValidator(1)]
    )
    hours_a_day = models.FloatField(default=2, validators=[MinValueValidator(0.1), MaxValueValidator(24)])

    def __str__(self) -> str:
        return f"limits of {self.user}"


class Skill(models.Model):
    class Name(models.TextChoices):
        ALTER = "alter", "alter"
        GRADE = "grade", "grade"
        DRAPE = "drape", "drape"
        COMBINE = "combine", "combine"
        DRAFT = "draft", "draft"

    class Level(models.TextChoices):
        NONE = "none", "not yet"
        LEARNING = "learning", "learning"
        WORKING = "working", "working"

    maker = models.ForeignKey(Maker, on_delete=models.CASCADE, related_name="skills")
    name = models.CharField(max_length=10, choices=Name)
    level = models.CharField(max_length=10, choices=Level, default=Level.NONE)

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=["maker", "name"], name="one_level_a_skill"),)

    def __str__(self) -> str:
        return f"{self.name}: {self.level}"
