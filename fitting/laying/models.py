from django.conf import settings
from django.db import models
from django.urls import reverse
from django.utils import timezone

from catalogue.plates.models.piece import Piece
from catalogue.workroom.models import WorkroomQuerySet
from catalogue.workroom.work.models import LongWork, WorkedModel
from fitting.outfits.models.garment import Garment
from fitting.wearers.models import Wearer


class LayQuerySet(WorkroomQuerySet):
    def for_detail_page(self) -> "LayQuerySet":
        return self.select_related("garment__outfit__workroom", "made_by")


class Lay(WorkedModel):
    """The pieces of a garment laid on one, two or three widths of a cloth, by long work.

    As the codec keeps them: `inputs` a `LayRequest`, `results` a `FinishedWidth` for every width done so far.
    """

    workroom_path = "garment__outfit__workroom"
    is_personal = True
    long_work = LongWork(
        by="fitting.laying.actions.make_lay",
        being_done="being laid",
        how_much="How much of the search is done",
        stop="Stop, and keep the best so far",
        when_stopped="It looks no further: the best lay so far is kept.",
        keeps_best=True,
    )

    garment = models.ForeignKey(Garment, on_delete=models.CASCADE, related_name="lays")
    # Its pieces may be altered to a body: it goes when the person is erased.
    wearer = models.ForeignKey(Wearer, null=True, blank=True, on_delete=models.CASCADE, related_name="+")
    cloth = models.CharField(max_length=12, choices=Piece.ClothRole, default=Piece.ClothRole.OUTER)
    inputs = models.JSONField()
    results = models.JSONField(default=list, blank=True)
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.SET_NULL, related_name="+"
    )
    asked_at = models.DateTimeField()

    objects = LayQuerySet.as_manager()

    class Meta:
        ordering = ("-asked_at", "-pk")

    def __str__(self) -> str:
        day = timezone.localdate(self.asked_at)
        return f"lay of {self.garment}, {self.get_cloth_display()}, {day:%-d %B %Y}"

    def get_absolute_url(self) -> str:
        return reverse("lay-detail", args=[self.pk])
