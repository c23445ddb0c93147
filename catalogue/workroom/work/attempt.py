"""One process at one piece of long work: how far it is, whether anybody still waits, and what came of it.

What is told stands in the row of the work. Where all is done in one transaction that takes long, nobody can
hear what is told within it, and on SQLite nobody else can write meanwhile: so it is told in a file.
"""

import json
from collections.abc import Callable, Sequence
from contextlib import ExitStack
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any, BinaryIO

from django.db import transaction
from django.utils import timezone

from catalogue.workroom.files import half_made, open_file, put, scratch, written_whole
from catalogue.workroom.work.models import SILENT_AFTER, Work, WorkedModel

TOLD_EVERY = timedelta(seconds=0.3)
STOPPED = "It was stopped, as was asked."
Columns = dict[str, Any]


class WorkAbandoned(Exception):
    """The row of the work is gone, or another process does it now: this process ends."""


class WorkStopped(Exception):
    """A person asked that the work be stopped."""

    sentence = STOPPED


def listen(work: Work, *, at: datetime) -> Work:
    """The work as its process told it last, from within a transaction too."""
    try:
        told = _told_inside(work.pk)
        if work.is_unfinished and at.timestamp() - told.stat().st_mtime < SILENT_AFTER.total_seconds():
            work.progress, work.step = json.loads(told.read_text(encoding="utf-8"))
            work.is_inside = True
    except FileNotFoundError:
        pass
    return work


def forget_told(work: Work) -> None:
    _told_inside(work.pk).unlink(missing_ok=True)


def _told_inside(pk: int) -> Path:
    return half_made() / f"work {pk}.json"


class Attempt:
    """One process at one piece of work: it tells how far it is, and hears whether anybody still waits."""

    def __init__(self, work: Work, *, line: Sequence[int], stack: ExitStack, keeps_best: bool) -> None:
        self.at = work.asked_at
        self.goes_on = True
        self._mine = Work.objects.filter(
            pk=work.pk, state=Work.State.RUNNING, asked_at=work.asked_at, tries=work.tries
        )
        self._behind = Work.objects.filter(pk__in=line, state=Work.State.WAITING)
        self._pk, self._stack, self._keeps_best = work.pk, stack, keeps_best
        self._told_at: datetime | None = None
        self._files: dict[str, bytes | Path] = {}

    def tell(self, percent: int, step: str = "") -> bool:
        """Whether to go on. Raises WorkAbandoned, and WorkStopped where there is nothing to keep."""
        if (now := self._is_time()) is None:
            return self.goes_on
        if not self._mine.update(progress=percent, step=step, heartbeat=now):
            raise WorkAbandoned
        # What stands in line for this process is not dead.
        self._behind.update(heartbeat=now)
        self.goes_on = not self._mine.filter(is_stop_asked=True).exists()
        if not self.goes_on and not self._keeps_best:
            raise WorkStopped
        return self.goes_on

    def tell_inside(self, percent: int, step: str) -> None:
        """The same within a transaction that is to be whole: it cannot be stopped there."""
        if self._is_time():
            with written_whole(_told_inside(self._pk)) as file:
                file.write(json.dumps([percent, step]).encode())

    def _is_time(self) -> datetime | None:
        """The moment; None where something was told just now."""
        now = timezone.now()
        if self._told_at and now - self._told_at < TOLD_EVERY:
            return None
        self._told_at = now
        return now

    def open(self, name: str) -> BinaryIO:
        """A file that stays open until the work is done."""
        return self._stack.enter_context(open_file(name))

    def scratch(self) -> Path:
        """A folder to work in, gone when the work is done."""
        return self._stack.enter_context(scratch())

    def keep(self, name: str, content: bytes | Path) -> None:
        """Have it put under that name if the work is done; a file may lie in the scratch folder."""
        self._files[name] = content

    @transaction.atomic
    def finish(self, row: WorkedModel, came: Columns | Callable[[], Columns]) -> None:
        done = {"state": Work.State.DONE, "progress": 100, "step": "", "fault": ""}
        # First, so that the row cannot go before its files are there: its deletion waits for this.
        if not self._mine.update(**done, heartbeat=timezone.now()):
            raise WorkAbandoned
        columns = came() if callable(came) else came
        for name, content in self._files.items():
            put(name, content)
        type(row).objects.filter(pk=row.pk).update(**columns)

    def fail(self, sentence: str) -> None:
        self._mine.update(state=Work.State.FAILED, fault=sentence, step="", heartbeat=timezone.now())
