"""A log is shown by a secret address: made, shown once, ended."""

import secrets
from collections.abc import Iterable
from datetime import datetime

from django.db import transaction

from fitting.models.log import LogEntry, LogPhoto
from fitting.models.share import Share, digest_of


@transaction.atomic
def make_share(share: Share, *, entries: Iterable[LogEntry], photos: Iterable[LogPhoto]) -> str:
    """Save it and return its secret, which is not kept and cannot be shown again."""
    secret = secrets.token_urlsafe(24)
    share.digest = digest_of(secret)
    share.save()
    share.entries.set(entries)
    share.photos.set(photos)
    return secret


def end_share(share: Share, *, at: datetime) -> None:
    if share.revoked_at is None:
        share.revoked_at = at
        share.save(update_fields=["revoked_at", "changed_at"])
