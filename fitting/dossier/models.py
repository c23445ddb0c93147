from datetime import datetime, timedelta
from pathlib import Path

from django.conf import settings
from django.db import models, transaction
from django.db.models.signals import post_delete
from django.dispatch import receiver
from django.urls import reverse
from django.utils import timezone

from catalogue.workroom.models import KeyedModel, WorkroomQuerySet
from fitting.comparing.models import Comparison
from fitting.fittings.models.alteration import Alteration
from fitting.fittings.models.session import Fitting
from fitting.fittings.models.trial import TrialMeasure
from fitting.laying.models import Lay
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogPhoto
from fitting.outfits.models.outfit import Outfit
from fitting.pattern.models import WorkNote
from fitting.wearers.models import Wearer

# A process that makes one gives a sign of life many times a second; this long without, it was killed.
SILENT_AFTER = timedelta(seconds=30)


class DossierQuerySet(WorkroomQuerySet):
    def stopped(self, at: datetime) -> "DossierQuerySet":
        """Those still to be made whose process gives no sign of life any more."""
        return self.filter(state__in=Dossier.UNFINISHED, heartbeat__lt=at - SILENT_AFTER)

    def showing(self, wearer: Wearer) -> "DossierQuerySet":
        """Those with a figure or a picture of this person, whomever their outfit is for now."""
        named = models.Q(wearer=wearer) | models.Q(outfit__wearer=wearer)
        for of_outfit in (
            Fitting.objects.filter(wearer=wearer).values("outfit"),
            LogPhoto.objects.filter(wearer=wearer).values("entry__outfit"),
            *(
                model.objects.filter(wearer=wearer).values("garment__outfit")
                for model in (Comparison, Alteration, WorkNote, Lay)
            ),
            TrialMeasure.objects.filter(wearer=wearer).values("trial__garment__outfit"),
        ):
            named |= models.Q(outfit__in=of_outfit)
        return self.filter(named).select_related("outfit")

    def ready_for(self, wearer_id: int | None) -> "DossierQuerySet":
        """Those made for this person; nobody's, where it is None."""
        return self.filter(state=Dossier.State.DONE, wearer=wearer_id)

    def twin_of(self, dossier: "Dossier") -> "Dossier | None":
        """The last one before it whose file is the same, byte for byte."""
        before = self.filter(outfit=dossier.outfit_id, sha256=dossier.sha256, asked_at__lt=dossier.asked_at)
        return before.first() if dossier.sha256 else None

    def for_list_page(self) -> "DossierQuerySet":
        return self.defer("snapshot")

    def for_detail_page(self) -> "DossierQuerySet":
        return self.select_related("outfit__workroom", "outfit__wearer", "outfit__maker", "made_by")


class Dossier(KeyedModel):
    """A PDF printed for a fitting, a work session or the file, made by a short-lived process.

    `snapshot`: the figures it was printed from, as `loading/snapshot.py` takes them. `mark` stands on every
    page: two with the same mark say the same. `sha256` is that of the file.
    """

    class Paper(models.TextChoices):
        A4 = "A4", "A4"
        LETTER = "Letter", "Letter"

    class State(models.TextChoices):
        WAITING = "waiting", "waiting"
        RUNNING = "running", "being made"
        DONE = "done", "ready"
        FAILED = "failed", "failed"

    UNFINISHED = (State.WAITING, State.RUNNING)

    workroom_path = "outfit__workroom"
    is_personal = True

    outfit = models.ForeignKey(Outfit, on_delete=models.CASCADE, related_name="dossiers")
    wearer = models.ForeignKey(
        Wearer, null=True, blank=True, on_delete=models.CASCADE, related_name="dossiers"
    )
    sections = models.JSONField(default=list)
    # None: of all that the outfit has.
    garments = models.ManyToManyField(Garment, blank=True, related_name="+", verbose_name="garments told of")
    is_everything = models.BooleanField("the full file", default=False, editable=False)
    paper = models.CharField(max_length=6, choices=Paper, default=Paper.A4)
    system = models.CharField(
        "lengths in", max_length=2, choices=[("in", "inches"), ("cm", "centimetres")], default="in"
    )
    state = models.CharField(max_length=8, choices=State, default=State.WAITING, editable=False)
    progress = models.PositiveSmallIntegerField(default=0, editable=False)
    step = models.CharField(max_length=80, blank=True, editable=False)
    heartbeat = models.DateTimeField(null=True, editable=False)
    fault = models.TextField(blank=True, editable=False)
    file_name = models.CharField(max_length=80, blank=True, editable=False)
    pages = models.PositiveSmallIntegerField(null=True, editable=False)
    snapshot = models.JSONField(default=dict, blank=True, editable=False)
    mark = models.CharField(max_length=8, blank=True, editable=False)
    sha256 = models.CharField(max_length=64, blank=True, editable=False)
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.SET_NULL, related_name="+"
    )
    asked_at = models.DateTimeField()
    finished_at = models.DateTimeField(null=True, editable=False)

    objects = DossierQuerySet.as_manager()

    class Meta:
        ordering = ("-asked_at", "-pk")

    def __str__(self) -> str:
        return f"dossier of {self.outfit}, {timezone.localdate(self.asked_at):%-d %B %Y}"

    @property
    def path(self) -> Path | None:
        """Where the PDF lies, or will lie once it is made."""
        return Path(settings.DATA_DIR) / "dossiers" / self.file_name if self.file_name else None

    @property
    def is_unfinished(self) -> bool:
        """Whether it is still being made, as far as anybody can tell now."""
        return self.state in self.UNFINISHED and not self.is_stopped

    @property
    def is_stopped(self) -> bool:
        """Whether its process was killed and nobody has swept it up yet."""
        return (
            self.state in self.UNFINISHED
            and self.heartbeat is not None
            and self.heartbeat < timezone.now() - SILENT_AFTER
        )

    @property
    def state_in_words(self) -> str:
        return self.State.FAILED.label if self.is_stopped else self.get_state_display()

    def best_file(self) -> Path | None:
        return self.path if self.path and self.path.is_file() else None

    def forget_files(self) -> None:
        """Remove what was written of it, whole or half."""
        if self.path:
            self.path.unlink(missing_ok=True)
            part_of(self.path).unlink(missing_ok=True)

    def get_absolute_url(self) -> str:
        return reverse("dossier-detail", args=[self.pk])


def part_of(path: Path) -> Path:
    """The name under which a file is written, until it is whole."""
    return path.with_name(f"{path.name}.part")


@receiver(post_delete, sender=Dossier)
def _forget_with_row(instance: Dossier, **kwargs: object) -> None:
    # A row may go with its outfit or its wearer, and no page of body measures may outlive it.
    transaction.on_commit(instance.forget_files)
