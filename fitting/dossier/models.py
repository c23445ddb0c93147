from django.conf import settings
from django.db import models
from django.urls import reverse
from django.utils import timezone

from catalogue.workroom.files import is_there
from catalogue.workroom.models import WithFiles, WorkroomQuerySet
from catalogue.workroom.work.models import LongWork, Work, WorkedModel
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.wearers.models import Wearer


class DossierQuerySet(WorkroomQuerySet):
    def ready_for(self, wearer_id: int | None) -> "DossierQuerySet":
        """Finished dossiers made for this person or, of None, for nobody."""
        return self.filter(works__state=Work.State.DONE, wearer=wearer_id)

    def twin_of(self, dossier: "Dossier") -> "Dossier | None":
        """The newest earlier dossier with the same file, byte for byte."""
        before = self.filter(outfit=dossier.outfit_id, sha256=dossier.sha256, asked_at__lt=dossier.asked_at)
        return before.first() if dossier.sha256 else None

    def for_list_page(self) -> "DossierQuerySet":
        return self.defer("snapshot").prefetch_related("works")

    def for_detail_page(self) -> "DossierQuerySet":
        people = ("outfit__workroom", "outfit__wearer", "outfit__maker", "made_by")
        return self.select_related(*people).prefetch_related("works")


class Dossier(WithFiles, WorkedModel):
    """A PDF printed for a fitting, a work session or the file, made by long work.

    `snapshot`: the figures it was printed from, as `loading/snapshot.py` takes them. `mark` stands on every
    page: two with the same mark say the same. `sha256` is that of the file.
    """

    class PaperSize(models.TextChoices):
        A4 = "A4", "A4"
        LETTER = "Letter", "Letter"

    workroom_path = "outfit__workroom"
    is_personal = True
    long_work = LongWork(
        by="fitting.dossier.actions.make_dossier",
        being_done="being made",
        how_much="How much of the dossier is made",
    )

    outfit = models.ForeignKey(Outfit, on_delete=models.CASCADE, related_name="dossiers")
    wearer = models.ForeignKey(
        Wearer, null=True, blank=True, on_delete=models.CASCADE, related_name="dossiers"
    )
    sections = models.JSONField(default=list)
    # None: of all that the outfit has.
    garments = models.ManyToManyField(Garment, blank=True, related_name="+", verbose_name="garments told of")
    is_everything = models.BooleanField("the full file", default=False, editable=False)
    paper = models.CharField(max_length=6, choices=PaperSize, default=PaperSize.A4)
    system = models.CharField(
        "lengths in", max_length=2, choices=[("in", "inches"), ("cm", "centimetres")], default="in"
    )
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
    def file(self) -> str:
        """The name of the PDF, also while it is still to be made."""
        return f"dossiers/{self.file_name}"

    def files(self) -> list[str]:
        return [self.file] if self.file_name else []

    def best_file(self) -> str | None:
        """The PDF; None where it is missing."""
        return next(filter(is_there, self.files()), None)

    def get_absolute_url(self) -> str:
        return reverse("dossier-detail", args=[self.pk])
