"""The dossiers kept of an outfit, each held against what came after it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime

from catalogue.lengths.showing import Writing
from fitting.dossier.loading.changes import Change, changes_between
from fitting.dossier.loading.snapshot import Snapshot
from fitting.dossier.models import Dossier
from fitting.outfits.models.outfit import Outfit


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangesSince:
    """What changed between a dossier and a later one asked for at `until`, or now.

    Nothing is known where its figures were not kept, or nothing later is about the same person.
    """

    dossier: Dossier
    changes: tuple[Change, ...]
    is_known: bool
    until: datetime | None


def since(
    dossier: Dossier, later: Snapshot | None, writing: Writing, *, until: datetime | None = None
) -> ChangesSince:
    kept: Snapshot = dossier.snapshot
    is_known = bool(kept and later)
    changes = changes_between(kept, later, writing) if kept and later else ()
    return ChangesSince(dossier=dossier, changes=changes, is_known=is_known, until=until)


def since_the_last(
    outfit: Outfit, now: Snapshot, *, before: datetime, writing: Writing
) -> ChangesSince | None:
    """Since the last dossier that says anything else than `now`.

    One printed again from the same figures is passed over, so that it holds the very same words.
    """
    kept = outfit.dossiers.ready_for(outfit.wearer_id).filter(asked_at__lt=before)
    told = (since(dossier, now, writing) for dossier in kept.exclude(snapshot={}).iterator(chunk_size=20))
    return next((one for one in told if one.changes), None)


def from_each_to_the_next(
    dossiers: Iterable[Dossier], now: Snapshot | None, wearer_id: int | None, writing: Writing
) -> Iterator[ChangesSince]:
    """`dossiers`, the newest first: what changed from each to the next newer one, from the newest to now.

    Figures of two people are never held against each other.
    """
    newer: dict[int | None, tuple[Snapshot | None, datetime | None]] = {wearer_id: (now, None)}
    for dossier in dossiers:
        later, until = newer.get(dossier.wearer_id, (None, None))
        yield since(dossier, later, writing, until=until)
        if dossier.snapshot:
            newer[dossier.wearer_id] = (dossier.snapshot, dossier.asked_at)
