"""An archive taken into a workroom: all of it or, where anything is wrong, nothing.

Rows are known by their keys, so that what came before is not there twice. Nothing that is here is deleted.
One that was sent and tried waits here until its keeper says yes: an hour, and then it goes.
"""

import shutil
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from functools import partial
from pathlib import Path
from typing import IO, Any, BinaryIO
from uuid import UUID, uuid4

from django.conf import settings
from django.db import transaction
from django.db.models import QuerySet

from catalogue.finding.models import SavedFilter
from catalogue.lengths.calculation.errors import Faults
from catalogue.reading_room.actions.garment_rows import GarmentRows
from catalogue.reading_room.actions.pictures import Pictures
from catalogue.reading_room.actions.scan_rows import ScanRows
from catalogue.reading_room.exchange.archive import named_by_content
from catalogue.reading_room.exchange.opened_archive import ReadArchive
from catalogue.reading_room.exchange.reading import Batch
from catalogue.reading_room.exchange.writing import FileOf, write_reference, write_source
from catalogue.references.kinds import RELATION
from catalogue.references.models.garment import ReferenceGarment
from catalogue.references.models.relation import Relation
from catalogue.sources.kinds import SOURCE
from catalogue.sources.models import Source
from catalogue.tracing.actions.scan import start_waiting
from catalogue.workroom.files import new_original
from catalogue.workroom.index.filing import file_references, file_sources
from catalogue.workroom.models import Workroom
from catalogue.workroom.reader.columns import columns_of

Said = dict[str, Any]
WAITS = timedelta(hours=1)  # so long an archive that was tried waits for its keeper's yes


@dataclass(slots=True, kw_only=True)
class Taken:
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
            (word, ", ".join(f"{count} {name if count > 1 else name[:-1]}" for name, count in rows.items()))
            for word, rows in counts.items()
            if rows
        ]


def take_archive(*, workroom: Workroom, file: BinaryIO, overwrite: bool, only_try: bool) -> Taken:
    """Read an archive and take it. Raises Faults with everything that is wrong with it."""
    archive = ReadArchive(file)
    return take_catalogue(
        workroom=workroom,
        batches=archive.rows(),
        opened=archive.open,
        file_of=named_by_content,
        overwrite=overwrite,
        only_try=only_try,
    )


def take_catalogue(
    *,
    workroom: Workroom,
    batches: Iterable[Batch],
    opened: Callable[[str], IO[bytes]],
    file_of: FileOf,
    overwrite: bool,
    only_try: bool,
) -> Taken:
    """Take a catalogue that was read without a fault; `opened` gives a file of its archive by name.

    Where a row is here and differs it stays as it is or, with `overwrite`, becomes as the archive says.
    `only_try` does all of it and leaves nothing behind. Raises Faults where a picture cannot be read.
    The tiles of scans are cut afterwards, by a process of their own.
    """
    pictures = Pictures(opened, only_try=only_try)
    # Files lie in their folder before their rows do: whatever goes wrong, they go again.
    with pictures, transaction.atomic():
        # Two people taking the same archive at once would each find nothing here yet.
        Workroom.objects.select_for_update().get(pk=workroom.pk)
        taking = _Taking(workroom=workroom, pictures=pictures, file_of=file_of, overwrite=overwrite)
        taking.take(batches)
        taking.taken.added.update(pictures.kept)
        if pictures.faults:
            raise Faults(pictures.faults)
        transaction.on_commit(partial(start_waiting, workroom.pk))
        if only_try:
            transaction.set_rollback(True)
    return taking.taken


@dataclass(slots=True, kw_only=True)
class _Taking:
    workroom: Workroom
    pictures: Pictures
    file_of: FileOf
    overwrite: bool
    taken: Taken = field(default_factory=Taken)
    sources: dict[str, int] = field(default_factory=dict)
    references: dict[str, int] = field(default_factory=dict)
    # Rows whose index cards are to be written again.
    touched: dict[str, set[int]] = field(default_factory=lambda: {"sources": set(), "references": set()})

    def take(self, batches: Iterable[Batch]) -> None:
        scans = ScanRows(keep=self.pictures.keep_scan, file_of=self.file_of)
        garments = GarmentRows(sources=self.sources, picture=self.pictures.keep_photo, scans=scans)
        for batch in batches:
            if batch.name == "sources":
                self._take_sources(batch)
            elif batch.name == "references":
                self._take_references(batch, garments)
            for _, said in batch.rows:
                if batch.name == "relations":
                    self._take_relation(said)
                elif batch.name == "saved_filters":
                    self._take_filter(said)
        file_sources(self.touched["sources"])
        file_references(self.touched["references"])

    def _take_sources(self, batch: Batch) -> None:
        here = _held(Source.objects.of_workroom(self.workroom), batch)
        for _, said in batch.rows:
            row = here.get(said["key"])
            if self._is_to_write("sources", said["title"], said, row and write_source(row)):
                row = row or Source(workroom=self.workroom)
                _set(row, columns_of(SOURCE, said))
                row.save()
                self.touched["sources"].add(row.pk)
                self.touched["references"] |= set(row.citations.values_list("reference", flat=True))
            self.sources[said["key"]] = row.pk

    def _take_references(self, batch: Batch, garments: GarmentRows) -> None:
        here = _held(ReferenceGarment.objects.of_workroom(self.workroom).for_archive(), batch)
        for at, said in batch.rows:
            self.pictures.place = f"references[{at}]"
            row = here.get(said["key"])
            written = row and write_reference(row, file_of=self.file_of)
            if self._is_to_write("reference garments", said["name"], said, written):
                row = row or ReferenceGarment(workroom=self.workroom)
                garments.write(row, said)
                self.touched["references"].add(row.pk)
            self.references[said["key"]] = row.pk

    def _is_to_write(self, word: str, name: str, said: Said, written: Said | None) -> bool:
        if written is None:
            self.taken.added[word] += 1
            return True
        if _in_any_order(written) == _in_any_order(said):
            self.taken.same[word] += 1
            return False
        self.taken.differing.append(name)
        (self.taken.changed if self.overwrite else self.taken.kept)[word] += 1
        return self.overwrite

    def _take_relation(self, said: Said) -> None:
        ends = {name: self.references[said[name]] for name in ("reference", "other")}
        if Relation.objects.stating(said["kind"], **ends).exists():
            self.taken.same["relations"] += 1
            return
        Relation.objects.create(
            **{f"{name}_id": pk for name, pk in ends.items()}, **columns_of(RELATION, said)
        )
        self.taken.added["relations"] += 1

    def _take_filter(self, said: Said) -> None:
        _, is_new = SavedFilter.objects.get_or_create(
            workroom=self.workroom, name=said["name"], defaults={"query": said["query"]}
        )
        (self.taken.added if is_new else self.taken.same)["saved filters"] += 1


def _held(rows: QuerySet, batch: Batch) -> dict[str, Any]:
    """What is here of a batch, by key."""
    return {str(row.key): row for row in rows.filter(key__in=[said["key"] for _, said in batch.rows])}


def _set(row: Any, columns: Said) -> None:
    for name, value in columns.items():
        setattr(row, name, value)


def _in_any_order(said: Any) -> Any:
    """Rows that have keys stand in the order of the database, which means nothing when two are compared."""
    if isinstance(said, dict):
        return {name: _in_any_order(value) for name, value in said.items()}
    if isinstance(said, list):
        rows = [_in_any_order(one) for one in said]
        has_keys = all(isinstance(one, dict) and "key" in one for one in rows)
        return sorted(rows, key=lambda one: one["key"]) if has_keys else rows
    return said


def keep_upload(file: BinaryIO, *, at: datetime) -> str:
    """Keep what was sent, and return the word it is asked for with. Whatever waited too long goes."""
    folder = _folder()
    for old in folder.glob("*.zip"):
        if old.stat().st_mtime < (at - WAITS).timestamp():
            old.unlink(missing_ok=True)
    token = uuid4().hex
    with new_original(folder / f"{token}.zip") as kept:
        shutil.copyfileobj(file, kept)
    return token


def waiting_upload(token: str) -> Path | None:
    """The archive kept under that word; None where it went, or never was."""
    try:
        path = _folder() / f"{UUID(token).hex}.zip"
    except ValueError:
        return None
    return path if path.is_file() else None


def forget_upload(token: str) -> None:
    if path := waiting_upload(token):
        path.unlink(missing_ok=True)


def _folder() -> Path:
    return Path(settings.DATA_DIR) / "imports"
