"""The people who share a catalogue, what every row of a workroom is made of, the bin for what was deleted.

The queryset keeps one workroom's rows from another's.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from datetime import datetime, timedelta
from typing import Any, ClassVar, Self
from uuid import uuid4
from zoneinfo import ZoneInfo

from django.contrib.auth.models import AbstractUser
from django.db import models

KEPT_FOR = timedelta(days=30)


class User(AbstractUser):
    """A person who signs in, and how they like lengths shown."""

    class System(models.TextChoices):
        INCHES = "in", "inches"
        CENTIMETRES = "cm", "centimetres"

    system = models.CharField("lengths in", max_length=2, choices=System, default=System.INCHES)
    denominator = models.PositiveSmallIntegerField(
        "inches to the nearest", choices=[(8, "1/8"), (16, "1/16"), (32, "1/32")], default=16
    )

    def __str__(self) -> str:
        return self.get_full_name() or self.username


class Workroom(models.Model):
    """`time_zone` is empty until somebody says where it is: its hours are those of UTC then."""

    name = models.CharField(max_length=120)
    time_zone = models.CharField(max_length=64, blank=True)
    currency = models.CharField("money in", max_length=8, blank=True, help_text="£, €, kr … as you write it.")
    created_at = models.DateTimeField(auto_now_add=True)

    def __str__(self) -> str:
        return self.name

    @property
    def zone(self) -> ZoneInfo:
        return ZoneInfo(self.time_zone or "UTC")


class Member(models.Model):
    """A person's place in a workroom, which they accepted or founded.

    A reader sees the catalogue and outfits, never a body measure.
    """

    class Role(models.TextChoices):
        KEEPER = "keeper", "keeper: everything, and members, erasing, exporting"
        MAKER = "maker", "maker: reads and writes everything"
        READER = "reader", "reader: looks only, never at body measures"

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="members")
    user = models.ForeignKey(User, on_delete=models.CASCADE, related_name="memberships")
    role = models.CharField(max_length=10, choices=Role, default=Role.MAKER)

    class Meta:
        ordering = ("workroom__name", "pk")
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["workroom", "user"], name="one_place_in_a_workroom")
        ]

    def __str__(self) -> str:
        return f"{self.user}, {self.role} of {self.workroom}"

    @property
    def may_write(self) -> bool:
        return self.role in {self.Role.KEEPER, self.Role.MAKER}

    @property
    def is_keeper(self) -> bool:
        return self.role == self.Role.KEEPER

    @property
    def is_last_keeper(self) -> bool:
        keepers = Member.objects.filter(workroom=self.workroom_id, role=self.Role.KEEPER)
        return self.is_keeper and not keepers.exclude(pk=self.pk).exists()


class WorkroomQuerySet(models.QuerySet):
    """Rows that belong to a workroom, reached by the model's `workroom_path`."""

    def visible_to(self, user: User) -> Self:
        """Rows of the workrooms that `user` is a member of."""
        return self.filter(**{f"{self.model.workroom_path}__members__user": user})

    def of_workroom(self, workroom: Workroom) -> Self:
        return self.filter(**{self.model.workroom_path: workroom})


class WorkroomModel(models.Model):
    """A row of one workroom. Parts name the way to it: `workroom_path = "plate__reference__workroom"`."""

    workroom_path: ClassVar[str] = "workroom"
    # Rows that hold a body measure, or what is reckoned from one: readers of the workroom may not open them.
    is_personal: ClassVar[bool] = False

    created_at = models.DateTimeField(auto_now_add=True)
    changed_at = models.DateTimeField(auto_now=True)

    objects = WorkroomQuerySet.as_manager()

    class Meta:
        abstract = True

    def its_workroom(self) -> Workroom:
        row: Any = self
        for name in self.workroom_path.split("__"):
            row = getattr(row, name)
        return row


# Who answers for what is written now: set for each request, nobody in commands.
_ACTING: ContextVar[Callable[[], User | None]] = ContextVar("acting", default=lambda: None)


def acting() -> User | None:
    return _ACTING.get()()


@contextmanager
def acting_as(person: Callable[[], User | None]) -> Iterator[None]:
    """Whoever writes in this block is noted in the rows; the person is looked up only when one is written."""
    before = _ACTING.set(person)
    try:
        yield
    finally:
        _ACTING.reset(before)


class WithFiles:
    """What a model adds whose rows have files. They go when the row goes (`workroom/files.py`)."""

    def files(self) -> list[str]:
        """Names of files, and of folders with `/` at the end, from the row's own columns alone."""
        raise NotImplementedError


class UnwantedFile(models.Model):
    """A file whose row is gone: noted as the row goes, and looked for until it is away."""

    name = models.CharField(max_length=200)

    def __str__(self) -> str:
        return self.name


class KeyedModel(WorkroomModel):
    """A row known wherever it is taken: `key` is the same in every copy of a workroom's catalogue."""

    key = models.UUIDField(default=uuid4, editable=False, db_index=True)
    changed_by = models.ForeignKey(
        User, on_delete=models.SET_NULL, null=True, editable=False, related_name="+"
    )

    class Meta:
        abstract = True

    def save(self, *args: Any, **kwargs: Any) -> None:
        self.changed_by = acting()
        super().save(*args, **kwargs)


class DeletedRowQuerySet(WorkroomQuerySet):
    def for_list_page(self, at: datetime) -> "DeletedRowQuerySet":
        """Without the rows themselves, which may be long."""
        return self.filter(created_at__gte=at - KEPT_FOR).defer("rows", "loosened")

    def past_keeping(self, at: datetime) -> "DeletedRowQuerySet":
        return self.filter(created_at__lt=at - KEPT_FOR)


class DeletedRow(WorkroomModel):
    """A row that was deleted with all that went with it, so that it can come back as it was.

    `rows`: every row that went, as Django's serializer writes them, those first that others point to.
    `loosened`: what pointed to them and stayed: model, key, field and the key it held.
    Files of photographs and scans lie where they lay.
    """

    is_personal = True

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="deleted")
    what = models.CharField(max_length=60)
    name = models.CharField(max_length=300)
    by = models.CharField(max_length=150, blank=True)
    rows = models.JSONField()
    loosened = models.JSONField(default=list)

    objects = DeletedRowQuerySet.as_manager()

    class Meta:
        ordering = ("-created_at", "-pk")
        verbose_name_plural = "deleted"

    def __str__(self) -> str:
        return self.name

    @property
    def gone_for_good_at(self) -> datetime:
        return self.created_at + KEPT_FOR
