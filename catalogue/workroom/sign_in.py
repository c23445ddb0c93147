"""One-time sign-in addresses: how a person comes in who has no password. Nothing is sent by mail.

A keeper makes one for a member, who may be a member elsewhere too: so it opens the workroom that it was made
for, and no other (the guard keeps the session there). Only a digest of it is kept, and who made it, which the
person is told.
"""

import secrets
from datetime import datetime, timedelta

from django.db import transaction
from django.urls import reverse

from catalogue.workroom.models import Member, User
from catalogue.workroom.models.one_time import SignInAddress, digest_of

LASTS = timedelta(days=3)


def new_secret() -> str:
    return secrets.token_urlsafe(24)


@transaction.atomic
def make_sign_in_address(*, member: Member, by: User | None, at: datetime) -> str:
    """Return the path that signs the member in once; one made before for the same place ends.

    `by`: a keeper of the workroom, or None for whoever has the machine itself.
    """
    of_member = SignInAddress.objects.filter(user=member.user_id, workroom=member.workroom_id)
    of_member.still_open(at).update(ended_at=at)
    secret = new_secret()
    SignInAddress.objects.create(
        user=member.user,
        workroom=member.workroom,
        made_by=by,
        digest=digest_of(secret),
        expires_at=at + LASTS,
    )
    return reverse("sign-in-once", args=[secret])


def spend(address: SignInAddress, *, at: datetime) -> bool:
    """Whether this one signs in: of several who press the button at the same moment, one does."""
    return bool(SignInAddress.objects.still_open(at).filter(pk=address.pk).update(used_at=at, ended_at=at))


def end_sign_in_addresses(user: User, *, at: datetime) -> None:
    """Whoever sets a new password wants nobody else to come in by an address made before."""
    SignInAddress.objects.filter(user=user).still_open(at).update(ended_at=at)
