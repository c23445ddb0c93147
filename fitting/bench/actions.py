"""Erasing a wearer: every figure taken from their body, every picture of them, every page printed."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from django.db import connection, models, transaction

from catalogue.workroom.actions.deletion import forget_deleted, take_out
from catalogue.workroom.archive.actions import forget_archives
from catalogue.workroom.index.filing import file_references, file_sources, references_of, sources_among
from catalogue.workroom.models import DeletedRow
from fitting.bench.loading.wearer_rows import held_of
from fitting.bench.loading.wearer_words import NamedPlace, places_naming
from fitting.dossier.models import Dossier
from fitting.wearers.models import Wearer

# What is done with a place that names somebody: the default first.
BLANK, REWRITE, LEAVE = "blank", "rewrite", "leave"


@dataclass(frozen=True, slots=True, kw_only=True)
class Settling:
    """What a maker decided of one place: `words` are their own, to stand there instead."""

    choice: str = BLANK
    words: str = ""


@transaction.atomic
def erase_wearer(wearer: Wearer, *, settled: Mapping[str, Settling] = MappingProxyType({})) -> None:
    """Erase the person with all that was measured, seen, pinned and printed, past the bin and out of it.

    Outfits keep their garments.

    Their names in other people's words are blanked, but where `settled` says otherwise, by key of the place.
    """
    workroom, names, held = wearer.workroom, wearer.names, held_of(wearer)
    # Each row takes its files along.
    for rows in held.erased:
        rows.delete()
    wearer.delete()
    for deleted in held.bin.all:
        take_out(deleted=deleted, gone=held.gone)
    forget_archives(workroom)
    settle_words(places_naming(workroom, names), settled=settled)
    transaction.on_commit(_empty_the_journal)


@transaction.atomic
def settle_words(places: Iterable[NamedPlace], *, settled: Mapping[str, Settling]) -> None:
    """Blank each place, write other words there, or leave it."""
    changed: list[models.Model] = []
    for place in places:
        decided = settled.get(place.key, Settling())
        if decided.choice == LEAVE:
            continue
        if isinstance(place.row, DeletedRow):
            forget_deleted(deleted=place.row)
        elif isinstance(place.row, Dossier):
            place.row.delete()
        else:
            own_words = decided.choice == REWRITE and place.can_be_rewritten and decided.words.strip()
            value = decided.words if own_words else place.blanked
            type(place.row)._base_manager.filter(pk=place.row.pk).update(**{place.column: value})
            changed.append(place.row)
    file_references(references_of(changed))
    file_sources(sources_among(changed))


def _empty_the_journal() -> None:
    # SQLite keeps what was written lately in a file beside the database until it is folded in.
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)")
