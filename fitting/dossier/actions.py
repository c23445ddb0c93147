"""Asking for a dossier, making it, and what becomes of one whose process was killed.

Each is made by a short-lived process, since memory grows over renders in one. Its heartbeat is in the row,
and whoever looks at a dossier whose heart stopped sweeps it.
"""

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from functools import partial
from typing import Any
from uuid import uuid4

from django.db import transaction
from django.utils import timezone

from catalogue.workroom.faults import note_fault
from catalogue.workroom.models import User
from catalogue.workroom.process import start_command
from fitting.dossier.calculation import known
from fitting.dossier.loading.values import dossier_values
from fitting.dossier.models import Dossier
from fitting.dossier.showing.document import PdfNotPossible, print_dossier
from fitting.dossier.showing.file import write_whole
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit

TOLD_EVERY = timedelta(seconds=0.3)
KILLED = "The process that made it was stopped. Nothing half-made was kept."


class Abandoned(Exception):
    """Its row is gone or was given up while it was being made: nobody waits for it any more."""


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
    """Keep the wish, and start the process that fulfils it once the row can be seen.

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
        heartbeat=at,
    )
    dossier.garments.set(garments)
    transaction.on_commit(partial(_start, dossier))
    return dossier


@transaction.atomic
def ask_again(dossier: Dossier, *, by: User, at: datetime) -> Dossier:
    """The same dossier anew, in place of one that failed."""
    choices = {name: getattr(dossier, name) for name in ("sections", "paper", "system", "is_everything")}
    again = ask_for_dossier(dossier.outfit, **choices, garments=list(dossier.garments.all()), by=by, at=at)
    dossier.delete()
    return again


def sweep_stopped(*, at: datetime) -> None:
    """Mark those as failed whose process was killed, and remove what it left half written."""
    for dossier in Dossier.objects.stopped(at):
        # It may have come back to life since the read: only a row that is still silent is swept.
        if Dossier.objects.stopped(at).filter(pk=dossier.pk).update(state=Dossier.State.FAILED, fault=KILLED):
            dossier.forget_files()


def make_dossier(pk: int) -> None:
    """Make the PDF of a waiting row. Whatever goes wrong is said in the row, never raised."""
    # Two processes may have been started for it: only one update can win.
    waiting = Dossier.objects.filter(pk=pk, state=Dossier.State.WAITING)
    if not waiting.update(state=Dossier.State.RUNNING, heartbeat=timezone.now()):
        return
    dossier = Dossier.objects.for_detail_page().get(pk=pk)
    try:
        with timezone.override(dossier.outfit.workroom.zone):
            written = _write(dossier)
        _finish(dossier, **written)
    except Abandoned:
        dossier.forget_files()
    except PdfNotPossible as absent:
        _fail(dossier, absent.sentence)
    except Exception as fault:
        # The process has no screen: what is not said in the row is never seen.
        _fail(dossier, note_fault(fault))


def _start(dossier: Dossier) -> None:
    try:
        # Of its own: memory grows over PDFs made in one process.
        start_command("dossier_make", str(dossier.pk))
    except OSError as fault:
        _fail(dossier, f"The process that makes it could not be started: {fault.strerror}.")


def _write(dossier: Dossier) -> dict[str, Any]:
    """Write the file, whole or not at all; return what its row tells of it."""
    told = _Heart(dossier.pk)
    told(5, "reading the records")
    values = dossier_values(
        dossier.outfit,
        sections=dossier.sections,
        paper=dossier.paper,
        system=dossier.system,
        by=dossier.made_by,
        at=dossier.asked_at,
        garments=[garment.pk for garment in dossier.garments.all()],
    )
    printed = print_dossier(values, told=told)
    told(95, "keeping the file")
    dossier.path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    write_whole(dossier.path, printed.pdf)
    return {
        "pages": printed.pages,
        "mark": printed.mark,
        "sha256": printed.sha256,
        "snapshot": values.snapshot,
    }


def _finish(dossier: Dossier, **told: Any) -> None:
    now = timezone.now()
    done = {"state": Dossier.State.DONE, "progress": 100, "step": "", "fault": "", **told}
    running = Dossier.objects.filter(pk=dossier.pk, state=Dossier.State.RUNNING)
    if not running.update(**done, heartbeat=now, finished_at=now):
        raise Abandoned


def _fail(dossier: Dossier, fault: str) -> None:
    dossier.forget_files()
    now = timezone.now()
    Dossier.objects.filter(pk=dossier.pk).update(
        state=Dossier.State.FAILED, fault=fault, step="", heartbeat=now, finished_at=now
    )


class _Heart:
    """Called with how far along it is, it beats in the row. Raises Abandoned once nobody waits."""

    def __init__(self, pk: int) -> None:
        self.row = Dossier.objects.filter(pk=pk, state=Dossier.State.RUNNING)
        self.beaten_at: datetime | None = None

    def __call__(self, percent: int, step: str) -> None:
        now = timezone.now()
        if self.beaten_at and now - self.beaten_at < TOLD_EVERY:
            return
        self.beaten_at = now
        if not self.row.update(progress=percent, step=step, heartbeat=now):
            raise Abandoned
