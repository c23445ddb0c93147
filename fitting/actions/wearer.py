"""Erasing a wearer: every figure taken from their body, and every page printed with one."""

from django.db import connection, transaction

from fitting.models import Dossier, Wearer


@transaction.atomic
def erase_wearer(wearer: Wearer) -> None:
    """Erase the person with all measures, comparisons and dossiers. Outfits keep their garments."""
    dossiers = list(Dossier.objects.showing(wearer))
    # Files first: cut short here, the rows still say what to erase, and it can be done again.
    for dossier in dossiers:
        dossier.forget_files()
    Dossier.objects.filter(pk__in=[dossier.pk for dossier in dossiers]).delete()
    wearer.delete()
    transaction.on_commit(_empty_the_journal)


def _empty_the_journal() -> None:
    # SQLite keeps what was written lately in a file beside the database until it is folded in.
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)")
