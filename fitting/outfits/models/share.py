"""An outfit's log shown to whoever has a secret address."""

from datetime import datetime

from django.conf import settings
from django.db import models

from catalogue.workroom.models import WorkroomModel, WorkroomQuerySet
from catalogue.workroom.models.one_time import digest_of
from fitting.outfits.models.log import LogEntry, LogPhoto
from fitting.outfits.models.outfit import Outfit


class ShareQuerySet(WorkroomQuerySet):
    def opened_by(self, secret: str, *, at: datetime) -> "ShareQuerySet":
        return self.filter(digest=digest_of(secret), revoked_at=None, expires_at__gt=at)


class Share(WorkroomModel):
    """Text and photographs of a log, as chosen when it was made; never a measure. It ends by itself."""

    workroom_path = "outfit__workroom"
    is_personal = True

    outfit = models.ForeignKey(Outfit, on_delete=models.CASCADE, related_name="shares")
    digest = models.CharField(max_length=64, unique=True, editable=False)
    label = models.CharField("for whom", max_length=120, help_text="Only you see this.")
    wearer_agrees = models.BooleanField("the wearer agrees to be named and seen", default=False)
    entries = models.ManyToManyField(LogEntry, related_name="shares", verbose_name="entries shown")
    photos = models.ManyToManyField(
        LogPhoto, blank=True, related_name="shares", verbose_name="photographs shown"
    )
    expires_at = models.DateTimeField(editable=False)
    revoked_at = models.DateTimeField(null=True, editable=False)
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, editable=False, on_delete=models.SET_NULL, related_name="+"
    )

    objects = ShareQuerySet.as_manager()

    class Meta:
        ordering = ("-created_at", "-pk")

    def __str__(self) -> str:
        return f"{self.outfit} for {self.label}"
