"""Does long work: asked for with its row, done by `manage.py work`, a process of its own.

    asked for -> waiting -> running -> done
                   ^           |  `--> failed, with a sentence
                   `--- swept -'

A process that is killed falls silent. Whoever looks at the page of its row, and the server as it starts,
sweeps: what fell silent waits again for a new process, at most twice, and then it failed. What is done is
kept in one transaction: files first, then what the row says of them, and that it is done.
"""

from collections import defaultdict
from collections.abc import Sequence
from contextlib import ExitStack
from datetime import datetime
from functools import partial

from django.contrib.contenttypes.models import ContentType
from django.db import transaction
from django.db.models import F
from django.utils import timezone
from django.utils.module_loading import import_string

from catalogue.lengths.calculation.errors import Faults
from catalogue.workroom.faults import note_fault
from catalogue.workroom.files import sweep_files
from catalogue.workroom.process import start_command
from catalogue.workroom.work.attempt import STOPPED, Attempt, WorkAbandoned, forget_told, listen
from catalogue.workroom.work.models import Work, WorkedModel

MOST_TRIES = 3
AGAIN_LATER = "Try again when the machine is less busy."
KILLED = f"The process that did it was stopped from outside, three times over. {AGAIN_LATER}"
AS_NEW = {
    "state": Work.State.WAITING, "tries": 1, "progress": 0, "step": "", "fault": "", "is_stop_asked": False,
}  # fmt: skip


def ask(row: WorkedModel, *, at: datetime) -> Work:
    """Put the work of this row in line and, once the transaction is committed, start the process for it."""
    work = put_in_line(row, at=at)
    transaction.on_commit(partial(_start, [work.pk]))
    return work


def put_in_line(row: WorkedModel, *, at: datetime) -> Work:
    """Put the work of this row in line, for the process that `start_line` starts."""
    work, _ = Work.objects.update_or_create(
        row_type=ContentType.objects.get_for_model(row),
        row_pk=row.pk,
        defaults={**AS_NEW, "workroom": row.its_workroom(), "asked_at": at, "heartbeat": at},
    )
    return work


def is_done_already(row: WorkedModel) -> None:
    """Note that the work of a row is done: an archive brought what came of it elsewhere."""
    put_in_line(row, at=timezone.now())
    row.works.update(state=Work.State.DONE, progress=100)


def start_line(workroom: int) -> None:
    """Start one process for whatever waits in a workroom, in the order in which it was asked for."""
    if keys := _line_of(workroom):
        _start(keys)


def do_line(workroom: int) -> None:
    """Do here whatever waits in a workroom."""
    do_in_turn(_line_of(workroom))


def _line_of(workroom: int) -> list[int]:
    waiting = Work.objects.filter(workroom=workroom, state=Work.State.WAITING)
    return list(waiting.order_by("pk").values_list("pk", flat=True))


def do_at_once(row: WorkedModel, *, at: datetime) -> Work:
    """Do the work in this process and return it, where starting another would only make one wait."""
    work = put_in_line(row, at=at)
    do_in_turn([work.pk])
    work.refresh_from_db()
    return work


def stop(work: Work) -> None:
    Work.objects.unfinished().filter(pk=work.pk).update(is_stop_asked=True)


def try_again(work: Work, *, at: datetime) -> None:
    """Start work that failed once more, from its beginning."""
    failed = Work.objects.filter(pk=work.pk, state=Work.State.FAILED)
    # Two people may press the button: only one update can win.
    if failed.update(**AS_NEW, asked_at=at, heartbeat=at):
        transaction.on_commit(partial(_start, [work.pk]))


def sweep_work(*, at: datetime) -> None:
    """Start once more what a killed process left behind, or say that it failed; take away its files."""
    again = defaultdict(list)
    for work in Work.objects.silent(at).order_by("pk"):
        if listen(work, at=at).is_inside:
            continue
        # It may have come back to life since the read: only a row that is still silent is swept.
        silent = Work.objects.silent(at).filter(pk=work.pk, tries=work.tries)
        if work.is_stop_asked or work.tries >= MOST_TRIES:
            silent.update(state=Work.State.FAILED, fault=STOPPED if work.is_stop_asked else KILLED)
        elif silent.update(state=Work.State.WAITING, tries=F("tries") + 1, heartbeat=at):
            again[work.workroom_id].append(work.pk)
    for keys in again.values():
        transaction.on_commit(partial(_start, keys))
    sweep_files()


def _start(keys: Sequence[int]) -> None:
    try:
        start_command("work", *map(str, keys))
    except (OSError, RuntimeError) as fault:
        # The system refuses a process, or the thread that waits for it.
        said = getattr(fault, "strerror", None) or str(fault)
        waiting = Work.objects.filter(pk__in=keys, state=Work.State.WAITING)
        waiting.update(
            state=Work.State.FAILED,
            fault=f"The process that does it could not be started: {said}. {AGAIN_LATER}",
        )


def do_in_turn(keys: Sequence[int]) -> None:
    """Do what waits under these keys. Whatever goes wrong is said in the row, never raised."""
    for number, key in enumerate(keys):
        waiting = Work.objects.filter(pk=key, state=Work.State.WAITING)
        # Two processes may have been started for it: only one update can win.
        if waiting.update(state=Work.State.RUNNING, heartbeat=timezone.now()):
            _do(Work.objects.get(pk=key), line=keys[number + 1 :])


def _do(work: Work, *, line: Sequence[int]) -> None:
    row = work.row
    if row is None:
        work.delete()
        return
    with timezone.override(work.workroom.zone), ExitStack() as stack:
        attempt = Attempt(work, line=line, stack=stack, keeps_best=row.long_work.keeps_best)
        try:
            attempt.finish(row, import_string(row.long_work.by)(row, attempt))
        except WorkAbandoned:
            pass
        except Exception as fault:
            # The process has no screen: what is not said in the row is never seen.
            attempt.fail(_said(fault))
        finally:
            forget_told(work)


def _said(fault: Exception) -> str:
    if isinstance(fault, Faults):
        return " ".join(one.sentence for one in fault.faults)
    if sentence := getattr(fault, "sentence", ""):
        return sentence
    return note_fault(fault)
