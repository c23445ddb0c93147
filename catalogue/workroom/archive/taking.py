"""An archive taken into a workroom: all of it or, where anything is wrong, nothing.

Rows are known by their keys, so that what came before is not there twice. Nothing that is here is deleted.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from functools import partial
from typing import Any

from django.db import transaction
from django.db.models import Model

from catalogue.lengths.calculation.errors import Faults
from catalogue.workroom.archive.opened import TAKEN, OpenedArchive
from catalogue.workroom.archive.packing import Told, named_by_content, nobody
from catalogue.workroom.archive.reading import Batch
from catalogue.workroom.archive.rows import Files, Rows
from catalogue.workroom.archive.writing import AT_A_TIME, Writer, for_archive
from catalogue.workroom.index.filing import (
    file_references,
    file_sources,
    references_of,
    references_on,
    sources_among,
)
from catalogue.workroom.kinds import LISTS, Kind
from catalogue.workroom.models import Workroom
from catalogue.workroom.work.engine import start_line

Said = dict[str, Any]


@dataclass(slots=True, kw_only=True)
class IntakeReport:
    """What became, or would become, of each list. `differing`: what stands here otherwise, by name."""

    added: Counter[str] = field(default_factory=Counter)
    same: Counter[str] = field(default_factory=Counter)
    changed: Counter[str] = field(default_factory=Counter)
    kept: Counter[str] = field(default_factory=Counter)
    differing: list[str] = field(default_factory=list)

    def in_words(self) -> list[tuple[str, str]]:
        """What became of the rows: "added", "8 sources, 10 reference garments"."""
        counts = {
            "added": self.added,
            "written over": self.changed,
            "left as they are, though they differ": self.kept,
            "there already": self.same,
        }
        return [
            (word, ", ".join(f"{count} {_of(name, count)}" for name, count in rows.items()))
            for word, rows in counts.items()
            if rows
        ]


def _of(words: str, count: int) -> str:
    one = {kind.word: str(kind.model._meta.verbose_name) for kind in LISTS.values()}
    return words if count > 1 else one.get(words, words[:-1])


def take_archive(
    archive: OpenedArchive,
    *,
    workroom: Workroom,
    overwrite: bool,
    only_try: bool,
    as_if_written: datetime | None = None,
    told: Told = nobody,
) -> IntakeReport:
    """Take an archive that was found whole. Raises Faults with everything that is wrong with its files.

    Where a row is here and differs it stays as it is or, with `overwrite`, becomes as the archive says.
    `only_try` does all of it and leaves nothing behind. The tiles of scans are cut afterwards, by long work.
    All its days move on by whole days, so that it were written on that of `as_if_written`.
    """
    later = as_if_written.date() - archive.written_on if as_if_written else timedelta()
    files = Files(opened=archive.open, only_try=only_try)
    # Files lie in their folder before their rows do: whatever goes wrong, they go again.
    with files, transaction.atomic():
        # Two people taking the same archive at once would each find nothing here yet.
        Workroom.objects.select_for_update().get(pk=workroom.pk)
        taking = _Intake(
            rows=Rows(workroom=workroom, files=files, later=later), overwrite=overwrite, told=told
        )
        taking.take(archive.rows(told))
        if files.faults:
            raise Faults(files.faults)
        transaction.on_commit(partial(start_line, workroom.pk))
        if only_try:
            transaction.set_rollback(True)
    return taking.taken


@dataclass(slots=True, kw_only=True)
class _Intake:
    rows: Rows
    overwrite: bool
    told: Told
    writer: Writer = field(default_factory=lambda: Writer(file_of=named_by_content))
    taken: IntakeReport = field(default_factory=IntakeReport)
    # Rows whose index cards are to be written again.
    touched: list[Model] = field(default_factory=list)

    def take(self, batches: Iterable[Batch]) -> None:
        for batch in batches:
            kind = LISTS[batch.name]
            here = self._here(kind, batch)
            for at, said in batch.rows:
                self.rows.place = f"{batch.name}[{at}]"
                self._take(kind, said, here.get(said[_known_by(kind)]))
        self.rows.point_back()
        self.taken.added.update(self.rows.files.kept)
        file_sources(sources_among(self.touched))
        keys = sorted(references_of(self.touched) | references_on(self.touched))
        for start in range(0, len(keys), AT_A_TIME):
            self.told(TAKEN, "their words are indexed")
            file_references(keys[start : start + AT_A_TIME])

    def _take(self, kind: Kind, said: Said, row: Model | None) -> None:
        own = kind.model._default_manager.of_workroom(self.rows.workroom)
        if row is None and self.rows.alike(kind, said, own):
            self.taken.same[kind.word] += 1
        elif self._is_to_write(kind, said, row):
            # Without what was fetched with it: its parts may be others by now.
            fresh = row and own.get(pk=row.pk)
            self.touched.append(self.rows.write(kind, said, row=fresh))

    def _here(self, kind: Kind, batch: Batch) -> dict[str, Model]:
        """What is here of a batch."""
        name = _known_by(kind)
        rows = for_archive(kind).of_workroom(self.rows.workroom)
        known = rows.filter(**{f"{name}__in": [said[name] for _, said in batch.rows]})
        return {str(getattr(row, name)): row for row in known}

    def _is_to_write(self, kind: Kind, said: Said, row: Model | None) -> bool:
        if row is None:
            self.taken.added[kind.word] += 1
            return True
        if _says(self.writer.row(kind, row), said):
            self.taken.same[kind.word] += 1
            return False
        self.taken.differing.append(said.get("name") or said.get("title") or str(row))
        (self.taken.changed if self.overwrite else self.taken.kept)[kind.word] += 1
        return self.overwrite


def _known_by(kind: Kind) -> str:
    return "key" if kind.has_key else kind.once


def _says(here: Any, said: Any) -> bool:
    """Whether all that is said is here. Rows with keys stand in an order that means nothing in this."""
    if isinstance(said, dict) and isinstance(here, dict):
        return all(name in here and _says(here[name], value) for name, value in said.items())
    if isinstance(said, list) and isinstance(here, list):
        pairs = zip(sorted(here, key=_key), sorted(said, key=_key), strict=False)
        return len(here) == len(said) and all(_says(one, other) for one, other in pairs)
    return here == said


def _key(row: Any) -> str:
    return row.get("key", "") if isinstance(row, dict) else ""
