"""Asking for a dossier, and making it: by long work, since memory grows over PDFs made in one process."""

from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import Any
from uuid import uuid4

from django.db import transaction
from django.utils import timezone

from catalogue.workroom.models import User
from catalogue.workroom.work.attempt import Attempt
from catalogue.workroom.work.engine import ask
from fitting.dossier.calculation import known
from fitting.dossier.loading.values import dossier_values
from fitting.dossier.models import Dossier
from fitting.dossier.showing.document import print_dossier
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit


@transaction.atomic
def ask_for_dossier(
    outfit: Outfit,
    *,
    sections: Sequence[str],
    paper: str,
    system: str,
    by: User,
    at: datetime,
    garments: Iterable[Garment] = (),
    is_everything: bool = False,
) -> Dossier:
    """Keep the wish, and have it fulfilled.

    `garments`: those it is about; all of the outfit's where none is named.
    """
    dossier = Dossier.objects.create(
        outfit=outfit,
        wearer=outfit.wearer,
        sections=list(known(sections)),
        paper=paper,
        system=system,
        is_everything=is_everything,
        file_name=f"{uuid4().hex}.pdf",
        made_by=by,
        asked_at=at,
    )
    dossier.garments.set(garments)
    ask(dossier, at=at)
    return dossier


def make_dossier(dossier: Dossier, attempt: Attempt) -> dict[str, Any]:
    """Print it as of the day on which it was asked for last. Raises PdfNotPossible."""
    attempt.tell(5, "reading the records")
    values = dossier_values(
        Outfit.objects.for_detail_page().get(pk=dossier.outfit_id),
        sections=dossier.sections,
        paper=dossier.paper,
        system=dossier.system,
        by=dossier.made_by,
        at=attempt.at,
        garments=[garment.pk for garment in dossier.garments.all()],
    )
    printed = print_dossier(values, told=attempt.tell)
    attempt.tell(95, "keeping the file")
    attempt.keep(dossier.file, printed.pdf)
    return {
        "pages": printed.pages,
        "mark": printed.mark,
        "sha256": printed.sha256,
        "snapshot": values.snapshot,
        "asked_at": attempt.at,
        "finished_at": timezone.now(),
    }
