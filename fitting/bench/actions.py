"""Erasing a wearer: every figure taken from their body, every picture of them, every page printed."""

from django.db import connection, transaction

from fitting.bench.loading.wearer_rows import (
    alterations_for,
    fitting_photos_of,
    fittings_of,
    log_photos_of,
    shares_of,
    trial_measures_of,
)
from fitting.dossier.models import Dossier
from fitting.wearers.models import Wearer


@transaction.atomic
def erase_wearer(wearer: Wearer) -> None:
    """Erase the person with all that was measured, seen, pinned and printed. Outfits keep their garments."""
    dossiers = list(Dossier.objects.showing(wearer))
    # Files first: cut short here, the rows still say what to erase, and it can be done again.
    for one in (*dossiers, *fitting_photos_of(wearer), *log_photos_of(wearer)):
        one.forget_files()
    Dossier.objects.filter(pk__in=[dossier.pk for dossier in dossiers]).delete()
    # What was said of them for others to read goes with them.
    shares_of(wearer).delete()
    for rows in (fittings_of, alterations_for, trial_measures_of, log_photos_of):
        rows(wearer).delete()
    wearer.delete()
    transaction.on_commit(_empty_the_journal)


def _empty_the_journal() -> None:
    # SQLite keeps what was written lately in a file beside the database until it is folded in.
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)")
