"""The secret address of a person's calendar: given, used, taken back."""

import hashlib
import secrets
from datetime import datetime

from django.db import transaction

from catalogue.workroom.models import User, Workroom
from fitting.models.calendar import CalendarAddress

_SECRET_BYTES = 32


@transaction.atomic
def give_address(workroom: Workroom, *, user: User) -> str:
    """Return the secret part of a new address; the one before it leads nowhere from now on."""
    withdraw_address(workroom, user=user)
    secret = secrets.token_urlsafe(_SECRET_BYTES)
    CalendarAddress.objects.create(workroom=workroom, user=user, digest=_digest(secret))
    return secret


def withdraw_address(workroom: Workroom, *, user: User) -> None:
    CalendarAddress.objects.filter(workroom=workroom, user=user).delete()


def workroom_at(secret: str, *, at: datetime) -> Workroom | None:
    """The workroom whose days are read there; None once the address is withdrawn or its person has left."""
    address = (
        CalendarAddress.objects.filter(digest=_digest(secret), user__is_active=True)
        .select_related("workroom")
        .first()
    )
    if address is None or not address.workroom.members.filter(user=address.user_id).exists():
        return None
    CalendarAddress.objects.filter(pk=address.pk).update(read_at=at)
    return address.workroom


def _digest(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()
