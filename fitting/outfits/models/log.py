"""The log of an outfit: what was done, and photographs of it."""

from datetime import date, timedelta

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.urls import reverse
from django.utils import timezone

from catalogue.lengths.models import LengthColumns
from catalogue.photographs.models import WithCopies
from catalogue.workroom.models import KeyedModel, User, WorkroomQuerySet
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.wearers.models import Wearer

# How far back the hours of the log say at what pace the work goes now.
LATELY = timedelta(weeks=4)


class LogEntryQuerySet(WorkroomQuerySet):
    def for_list_page(self) -> "LogEntryQuerySet":
        """Rows with all that a page shows of them: two queries, with their photographs, at any length."""
        return self.select_related("garment", "task__garment", "by").prefetch_related("photos")

    def hours_to_pattern(self, garment: Garment) -> float | None:
        """What was logged on the tasks that brought a garment to its pattern; None where nothing was."""
        on_pattern = self.filter(task__garment=garment, task__leads_to=Garment.Stage.PATTERNED)
        return on_pattern.aggregate(hours=models.Sum("hours"))["hours"]

    def timed_by(self, maker: User) -> "LogEntryQuerySet":
        """Those in which the maker sewed a seam and timed it."""
        return self.filter(by=maker, seam_um__gt=0, seam_minutes__gt=0)

    def lately(self, today: date) -> "LogEntryQuerySet":
        return self.filter(day__gt=today - LATELY, day__lte=today)


class LogEntry(KeyedModel):
    """A dated note of work done. Readers of the workroom see it; a measure belongs with the wearer."""

    workroom_path = "outfit__workroom"

    outfit = models.ForeignKey(Outfit, on_delete=models.CASCADE, related_name="log")
    garment = models.ForeignKey(Garment, null=True, blank=True, on_delete=models.SET_NULL, related_name="log")
    task = models.ForeignKey(
        "fitting.Task", null=True, blank=True, on_delete=models.SET_NULL, related_name="log_entries"
    )
    day = models.DateField(default=timezone.localdate)
    text = models.TextField("what was done", blank=True)
    hours = models.FloatField(null=True, blank=True, validators=[MinValueValidator(0), MaxValueValidator(24)])
    cost = models.DecimalField(
        "spent",
        max_digits=9,
        decimal_places=2,
        null=True,
        blank=True,
        validators=[MinValueValidator(0)],
        help_text="Not for cloth and notions: the list of materials counts those.",
    )
    seam = LengthColumns("a seam sewn and timed", null=True, blank=True)
    seam_minutes = models.FloatField(
        "minutes it took",
        null=True,
        blank=True,
        validators=[MinValueValidator(0.1), MaxValueValidator(10_000)],
    )
    stage = models.CharField("the garment is now", max_length=15, choices=Garment.Stage, blank=True)
    stage_before = models.CharField(max_length=15, choices=Garment.Stage, blank=True, editable=False)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, editable=False, on_delete=models.SET_NULL, related_name="+"
    )

    objects = LogEntryQuerySet.as_manager()

    class Meta:
        ordering = ("-day", "-pk")
        verbose_name = "log entry"
        verbose_name_plural = "log entries"

    def __str__(self) -> str:
        return f"{self.day:%-d %B %Y}, {self.garment or self.outfit}"

    def get_absolute_url(self) -> str:
        return f"{reverse('log-list', args=[self.outfit_id])}#entry-{self.pk}"


class LogPhoto(WithCopies, KeyedModel):
    """A photograph of the work. One that shows the wearer is personal: readers do not see it.

    Only copies drawn from its pixels are kept; the file that was sent is not.
    """

    FOLDER = "log/"
    workroom_path = "entry__outfit__workroom"

    entry = models.ForeignKey(LogEntry, on_delete=models.CASCADE, related_name="photos")
    caption = models.CharField(max_length=200, blank=True)
    shows_wearer = models.BooleanField("shows the wearer", default=False)
    # Whom, kept apart from the outfit so that erasing a person takes their pictures with it.
    wearer = models.ForeignKey(
        Wearer, null=True, blank=True, editable=False, on_delete=models.CASCADE, related_name="log_photos"
    )

    class Meta:
        ordering = ("pk",)
        verbose_name = "photograph of the work"
        verbose_name_plural = "photographs of the work"

    def __str__(self) -> str:
        return self.caption or f"photograph of {self.entry}"

    @property
    def is_personal(self) -> bool:
        return self.shows_wearer
