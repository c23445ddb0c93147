"""An archive asked for or sent, and what long work does about it."""

from collections.abc import Callable
from datetime import datetime
from functools import partial
from typing import BinaryIO

from django.db import transaction
from django.utils import timezone

from catalogue.lengths.calculation.errors import Faults
from catalogue.workroom.archive.models import ArchiveExport, ArchiveImport, ImportOutcome
from catalogue.workroom.archive.opened import OpenedArchive
from catalogue.workroom.archive.packing import write_archive
from catalogue.workroom.archive.taking import take_archive
from catalogue.workroom.files import forget, put
from catalogue.workroom.models import User, Workroom
from catalogue.workroom.reader.codec import to_json
from catalogue.workroom.work.attempt import Attempt, Columns
from catalogue.workroom.work.engine import ask


@transaction.atomic
def ask_for_export(workroom: Workroom, *, personal: bool, by: User, at: datetime) -> ArchiveExport:
    sweep_archives(at=at)
    export = ArchiveExport.objects.create(workroom=workroom, personal=personal, asked_by=by, asked_at=at)
    ask(export, at=at)
    return export


def write_export(export: ArchiveExport, attempt: Attempt) -> Columns:
    attempt.tell(0)
    path = attempt.scratch() / "archive.zip"
    with path.open("wb") as to:
        written = write_archive(
            export.workroom, to, at=timezone.now(), personal=export.personal, told=attempt.tell
        )
    attempt.keep(export.file, path)
    return {"size": path.stat().st_size, "left_out": written.left_out}


def ask_for_import(
    workroom: Workroom, file: BinaryIO, *, overwrite: bool, by: User, at: datetime
) -> ArchiveImport:
    """Keep what was sent, and have it looked at: nothing of it is written."""
    sweep_archives(at=at)
    brought = ArchiveImport(workroom=workroom, overwrite=overwrite, asked_by=by, asked_at=at)
    put(brought.file, file)
    with transaction.atomic():
        brought.save()
        ask(brought, at=at)
    return brought


@transaction.atomic
def agree(brought: ArchiveImport, *, at: datetime) -> bool:
    """Have it taken in: read again, because what is here may have changed since it was looked at."""
    # Two keepers may press the button: only one update can win.
    agreed = ArchiveImport.objects.filter(pk=brought.pk, is_agreed=False).update(is_agreed=True)
    if agreed:
        ask(brought, at=at)
    return bool(agreed)


def read_import(brought: ArchiveImport, attempt: Attempt) -> Columns | Callable[[], Columns]:
    """Go through the archive: only to say what it would do or, once that is agreed to, to do it."""
    attempt.tell(0)
    try:
        archive = OpenedArchive(attempt.open(brought.file), told=attempt.tell)
    except Faults as faulty:
        return _refused(brought, faulty)
    going_through = partial(_go_through, brought, archive, attempt)
    return going_through if brought.is_agreed else going_through()


def _go_through(brought: ArchiveImport, archive: OpenedArchive, attempt: Attempt) -> Columns:
    try:
        taken = take_archive(
            archive,
            workroom=brought.workroom,
            overwrite=brought.overwrite,
            only_try=not brought.is_agreed,
            told=attempt.tell_inside,
        )
    except Faults as faulty:
        return _refused(brought, faulty)
    if brought.is_agreed:
        forget(brought.files())
    outcome = ImportOutcome(
        done=tuple(taken.in_words()),
        differs=tuple(taken.differing),
        cuts_scans=brought.is_agreed and taken.added["scans"] > 0,
    )
    return {"found": to_json(outcome)}


def _refused(brought: ArchiveImport, faulty: Faults) -> Columns:
    forget(brought.files())
    outcome = ImportOutcome(faults=tuple((fault.where, fault.sentence) for fault in faulty.faults))
    return {"found": to_json(outcome)}


def sweep_archives(*, at: datetime) -> None:
    """Let go of what was kept for its time; each takes its file along."""
    for model in (ArchiveExport, ArchiveImport):
        model.objects.past_keeping(at).delete()


def forget_archives(workroom: Workroom) -> None:
    """Let go at once of all that were taken out and sent: they may hold what is being erased."""
    for model in (ArchiveExport, ArchiveImport):
        model.objects.of_workroom(workroom).delete()
