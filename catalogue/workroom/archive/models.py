"""An archive that long work takes out of a workroom or brings into it. Both are its keepers' alone."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.conf import settings
from django.db import models
from django.urls import reverse

from catalogue.workroom.kinds import excuse
from catalogue.workroom.models import WithFiles, Workroom, WorkroomQuerySet
from catalogue.workroom.reader.codec import from_json
from catalogue.workroom.work.models import LongWork, WorkedModel

# It holds everything at once: long enough to fetch it, and no longer.
KEPT_FOR = timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class ImportOutcome:
    """What an archive would do, or did: `done`, each "added", "8 sources, 10 reference garments"; the names
    of what `differs` here; or all `faults`, each with its place, and nothing else.
    """

    done: tuple[tuple[str, str], ...] = ()
    differs: tuple[str, ...] = ()
    cuts_scans: bool = False
    faults: tuple[tuple[str, str], ...] = ()


class ArchiveQuerySet(WorkroomQuerySet):
    def past_keeping(self, at: datetime) -> "ArchiveQuerySet":
        return self.filter(asked_at__lt=at - KEPT_FOR)

    def for_list_page(self, at: datetime) -> "ArchiveQuerySet":
        """Those that are still there, the last one first."""
        rows = self.filter(asked_at__gte=at - KEPT_FOR).order_by("-asked_at", "-pk")
        return rows.select_related("asked_by").prefetch_related("works")


class Archive(WithFiles, WorkedModel):
    """It may hold body measures: nobody but keepers opens it, and it goes with whoever is erased."""

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="%(class)ss")
    asked_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.SET_NULL, related_name="+"
    )
    asked_at = models.DateTimeField()

    objects = ArchiveQuerySet.as_manager()

    class Meta:
        abstract = True

    @property
    def kept_until(self) -> datetime:
        return self.asked_at + KEPT_FOR

    @property
    def file(self) -> str:
        raise NotImplementedError

    def files(self) -> list[str]:
        return [self.file]


class ArchiveExport(Archive):
    """`personal`: with wearers and what is of them. `left_out`: a sentence for each file that is missing."""

    long_work = LongWork(
        by="catalogue.workroom.archive.actions.write_export",
        being_done="being taken out",
        how_much="How much of the archive is written",
        is_for_keepers=True,
    )

    personal = models.BooleanField(default=False)
    size = models.PositiveBigIntegerField(null=True, editable=False)
    left_out = models.JSONField(default=list, editable=False)

    class Meta:
        verbose_name = "archive taken out"
        verbose_name_plural = "archives taken out"

    def __str__(self) -> str:
        return f"archive of {self.workroom}"

    @property
    def file(self) -> str:
        return f"exports/{self.key}.zip"

    def get_absolute_url(self) -> str:
        return reverse("archive-export-detail", args=[self.pk])


class ArchiveImport(Archive):
    """An archive that was sent: looked at first, and taken in once a keeper says yes (`is_agreed`).

    `found`: the `ImportOutcome` of whichever was done last. `overwrite`: where both have a row and they
    differ, the archive's is right.
    """

    long_work = LongWork(
        by="catalogue.workroom.archive.actions.read_import",
        being_done="being gone through",
        how_much="How much of the archive was gone through",
        when_stopped="It is being stopped. Nothing of it is written.",
        is_for_keepers=True,
    )

    overwrite = models.BooleanField(default=False)
    is_agreed = models.BooleanField(default=False)
    found = models.JSONField(null=True, editable=False)

    class Meta:
        verbose_name = "archive brought in"
        verbose_name_plural = "archives brought in"

    def __str__(self) -> str:
        return f"archive for {self.workroom}"

    @property
    def file(self) -> str:
        return f"imports/{self.key}.zip"

    @property
    def outcome(self) -> ImportOutcome | None:
        return None if self.found is None else from_json(ImportOutcome, self.found)

    def get_absolute_url(self) -> str:
        return reverse("archive-import-detail", args=[self.pk])


excuse("It holds the rows of all kinds, for a day.", ArchiveExport, ArchiveImport)
