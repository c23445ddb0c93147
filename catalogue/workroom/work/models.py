"""Long work and the row that it is done for. No archive holds any of it."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import ClassVar

from django.contrib.contenttypes.fields import GenericForeignKey, GenericRelation
from django.contrib.contenttypes.models import ContentType
from django.db import models

from catalogue.workroom.kinds import excuse
from catalogue.workroom.models import KeyedModel, Workroom, WorkroomModel, WorkroomQuerySet

# Its process gives a sign of life several times a second; so long without one, it was killed.
SILENT_AFTER = timedelta(seconds=60)


class WorkQuerySet(WorkroomQuerySet):
    def unfinished(self) -> "WorkQuerySet":
        return self.filter(state__in=(Work.State.WAITING, Work.State.RUNNING))

    def silent(self, at: datetime) -> "WorkQuerySet":
        """Work that is not done, and whose process has not been heard of for a while."""
        return self.unfinished().filter(heartbeat__lt=at - SILENT_AFTER)


class Work(WorkroomModel):
    """What a process of its own does for a row, how far it is, and what became of it.

    `tries`: how often a process was started for it. A process that was thought dead is known by its number,
    and has nothing to say any more.
    """

    class State(models.TextChoices):
        WAITING = "waiting", "waiting"
        RUNNING = "running", "being done"
        DONE = "done", "ready"
        FAILED = "failed", "failed"

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="work")
    row_type = models.ForeignKey(ContentType, on_delete=models.CASCADE, related_name="+")
    row_pk = models.PositiveBigIntegerField()
    row = GenericForeignKey("row_type", "row_pk")
    state = models.CharField(max_length=8, choices=State, default=State.WAITING)
    progress = models.PositiveSmallIntegerField(default=0)
    step = models.CharField(max_length=120, blank=True)
    heartbeat = models.DateTimeField()
    tries = models.PositiveSmallIntegerField(default=1)
    is_stop_asked = models.BooleanField(default=False)
    fault = models.TextField(blank=True)
    asked_at = models.DateTimeField()

    # Whether it is told from within a transaction (`attempt.listen`), which cannot be stopped.
    is_inside = False

    objects = WorkQuerySet.as_manager()

    class Meta:
        verbose_name = "long work"
        verbose_name_plural = "long work"
        constraints = (models.UniqueConstraint(fields=["row_type", "row_pk"], name="one_work_a_row"),)

    def __str__(self) -> str:
        return f"{self.row_type.name} {self.row_pk}: {self.get_state_display()}"

    @property
    def is_unfinished(self) -> bool:
        return self.state in (self.State.WAITING, self.State.RUNNING)

    def is_silent(self, at: datetime) -> bool:
        return self.is_unfinished and self.heartbeat < at - SILENT_AFTER

    @property
    def is_done(self) -> bool:
        return self.state == self.State.DONE


@dataclass(frozen=True, slots=True, kw_only=True)
class LongWork:
    """What is done for the rows of a model, and the words that its pages have for it.

    `by`: the dotted name of what does it, called with the row and an `Attempt`; it returns the columns of the
    row that say what came of it, or what is to be called for them in the transaction in which it is done.
    `keeps_best`: asked to stop, it is done with what it has. `is_for_keepers`: nobody else may stop it or
    have it tried again.
    """

    by: str
    being_done: str
    how_much: str
    stop: str = "Stop"
    when_stopped: str = "It is being stopped. Nothing half made is kept."
    keeps_best: bool = False
    is_for_keepers: bool = False


class WorkedModel(KeyedModel):
    """A row that long work is done for, at most one at a time; it goes and comes back with the row."""

    long_work: ClassVar[LongWork]

    works = GenericRelation(Work, content_type_field="row_type", object_id_field="row_pk")

    class Meta:
        abstract = True

    @property
    def work(self) -> Work | None:
        """None where none was ever asked for. Lists prefetch `works`."""
        return next(iter(self.works.all()), None)

    @property
    def is_ready(self) -> bool:
        work = self.work
        return work is not None and work.is_done

    @property
    def state_in_words(self) -> str:
        work = self.work
        if work is None or work.state != Work.State.RUNNING:
            return work.get_state_display() if work else Work.State.FAILED.label
        return self.long_work.being_done


excuse("It is of the house in which it is done.", Work)
