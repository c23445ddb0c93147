"""Addresses that are handed over and used once: to become a member, and to sign in as one."""

from datetime import datetime
from hashlib import sha256
from typing import Self

from django.db import models

from catalogue.workroom.models import KEPT_FOR, Member, User, Workroom, WorkroomModel, WorkroomQuerySet


def digest_of(secret: str) -> str:
    """What is kept of a secret: the database alone opens no page."""
    return sha256(secret.encode()).hexdigest()


class OneTimeQuerySet(WorkroomQuerySet):
    def still_open(self, at: datetime) -> Self:
        return self.filter(ended_at=None, expires_at__gt=at)

    def opened_by(self, secret: str, *, at: datetime) -> Self:
        return self.still_open(at).filter(digest=digest_of(secret))


class OneTimeAddress(WorkroomModel):
    """A secret address, shown once to the keeper who makes it; it ends when it is used, or by itself."""

    digest = models.CharField(max_length=64, unique=True, editable=False)
    expires_at = models.DateTimeField(editable=False)
    ended_at = models.DateTimeField(null=True, editable=False)

    objects = OneTimeQuerySet.as_manager()

    class Meta:
        abstract = True
        ordering = ("-created_at", "-pk")


class SignInQuerySet(OneTimeQuerySet):
    def opened_by(self, secret: str, *, at: datetime) -> Self:
        """The address that this secret opens, if the person is still a member of its workroom."""
        is_member = Member.objects.filter(user=models.OuterRef("user"), workroom=models.OuterRef("workroom"))
        return super().opened_by(secret, at=at).filter(models.Exists(is_member), user__is_active=True)

    def not_told(self) -> Self:
        """Made by a keeper, and news to the person: that there is one, or that it was used."""
        news = models.Q(told_at=None) | models.Q(used_at__gt=models.F("told_at"))
        return self.filter(news, made_by__isnull=False)


class SignInAddress(OneTimeAddress):
    """Signs a member in once, to one workroom. `made_by`: a keeper; none: whoever has the machine itself."""

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="sign_in_addresses")
    user = models.ForeignKey(User, on_delete=models.CASCADE, related_name="sign_in_addresses")
    made_by = models.ForeignKey(User, null=True, on_delete=models.CASCADE, related_name="+")
    used_at = models.DateTimeField(null=True, editable=False)
    told_at = models.DateTimeField(null=True, editable=False)

    objects = SignInQuerySet.as_manager()

    def __str__(self) -> str:
        return f"{self.user} to {self.workroom}, once"


class InvitationQuerySet(OneTimeQuerySet):
    def for_keepers(self, at: datetime) -> Self:
        """Those that wait, and those that came to nothing of late."""
        came_to_nothing = models.Q(ended_at=None) | models.Q(is_declined=True)
        return self.filter(came_to_nothing, created_at__gte=at - KEPT_FOR).select_related("made_by")

    def past_keeping(self, at: datetime) -> Self:
        return self.filter(created_at__lt=at - KEPT_FOR)


class Invitation(OneTimeAddress):
    """To join a workroom, handed over as an address to whoever it is for, and answered by them alone.

    `name` is what the keeper calls the person: it is looked up nowhere, so nobody learns who signs in here.
    """

    workroom = models.ForeignKey(Workroom, on_delete=models.CASCADE, related_name="invitations")
    name = models.CharField(max_length=150)
    role = models.CharField("what they may do", max_length=10, choices=Member.Role, default=Member.Role.MAKER)
    made_by = models.ForeignKey(User, on_delete=models.CASCADE, related_name="+")
    is_declined = models.BooleanField(default=False, editable=False)

    objects = InvitationQuerySet.as_manager()

    def __str__(self) -> str:
        return f"{self.name}, invited to {self.workroom}"

    @property
    def number(self) -> int:
        """Four digits at the end of the sign-in name that somebody new makes: see JoinForm."""
        return int(self.digest[:8], 16) % 9000 + 1000
