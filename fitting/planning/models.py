"""What is to be done for an outfit, and the secret address at which a calendar program reads it."""

from django.conf import settings
from django.core.validators import MinValueValidator
from django.db import models

from catalogue.workroom.models import KeyedModel, WorkroomModel, WorkroomQuerySet
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit


class TaskQuerySet(WorkroomQuerySet):
    def with_hours(self) -> "TaskQuerySet":
        """Each with `done_hours`, what the log says of it."""
        counted = self.annotate(done_hours=models.functions.Coalesce(models.Sum("log_entries__hours"), 0.0))
        # Where rows are grouped, Django leaves the order of the model out.
        return counted.order_by("pk")

    def open(self) -> "TaskQuerySet":
        return self.filter(done_on=None)


class Task(KeyedModel):
    """A thing to do for an outfit. The hours done are those of the log entries that name it."""

    workroom_path = "outfit__workroom"

    outfit = models.ForeignKey(Outfit, on_delete=models.CASCADE, related_name="tasks")
    garment = models.ForeignKey(
        Garment, null=True, blank=True, on_delete=models.CASCADE, related_name="tasks"
    )
    name = models.CharField("what is to be done", max_length=120)
    leads_to = models.CharField(
        "brings the garment to",
        max_length=15,
        choices=Garment.Stage,
        blank=True,
        help_text="Gives it its place in the plan: after the stages before it and what is worn beneath.",
    )
    estimate_hours = models.FloatField("hours, estimated", default=1, validators=[MinValueValidator(0)])
    waits_for = models.ManyToManyField("self", symmetrical=False, blank=True, related_name="holds_up")
    due_on = models.DateField(
        "to be done by", null=True, blank=True, help_text="Only where it has a day of its own."
    )
    done_on = models.DateField("done", null=True, blank=True)

    objects = TaskQuerySet.as_manager()

    class Meta:
        ordering = ("pk",)

    def __str__(self) -> str:
        return f"{self.garment}: {self.name}" if self.garment else self.name


class CalendarAddress(WorkroomModel):
    """A secret address at which a person's calendar program reads the days of a workroom.

    The program cannot sign in: whoever has the address reads it, so it holds no measure and no wearer's
    name. Only a digest of its secret part is kept; a new address puts an end to the one before.
    """

    workroom = models.ForeignKey(
        "catalogue.Workroom", on_delete=models.CASCADE, related_name="calendar_addresses"
    )
    user = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="calendar_addresses"
    )
    digest = models.CharField(max_length=64, unique=True, editable=False)
    read_at = models.DateTimeField("last read", null=True, editable=False)

    class Meta:
        constraints = (
            models.UniqueConstraint(fields=["workroom", "user"], name="one_calendar_address_a_member"),
        )

    def __str__(self) -> str:
        return f"calendar of {self.workroom} for {self.user}"
