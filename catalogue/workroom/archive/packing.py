"""One file for a workroom: a zip of `catalogue.json`, the files of its rows, and a manifest with the checksum
of each.

Photographs and scans are named by what is in them, so that the same picture lies there once. They are the
files as they were sent: they may carry where and when they were taken, and with what. Tiles are not in it:
one process cuts them again after it came in. It is written as it is read from the database, however large it
grows.
"""

import hashlib
import json
import shutil
import zipfile
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from datetime import datetime
from typing import IO, Any, BinaryIO

from django.db.models import Model

from catalogue.workroom.archive.writing import FORMAT as CATALOGUE_FORMAT
from catalogue.workroom.archive.writing import VERSION as CATALOGUE_VERSION
from catalogue.workroom.archive.writing import Writer
from catalogue.workroom.files import open_file, size_of
from catalogue.workroom.kinds import KINDS, LISTS, Kind
from catalogue.workroom.models import Workroom

FORMAT, VERSION = "plate-and-toile archive", 1
MANIFEST, CATALOGUE = "manifest.json", "catalogue.json"
MAY_CARRY = (
    "Photographs and scans are the files as they were sent. They may carry where and when they were taken, "
    "the camera, and a name: think of that before you pass the archive on."
)
PART = 1024 * 1024
# So far it is, in hundredths, when its rows and then its files are written.
ROWS_WRITTEN, PACKED = 40, 95

# Told how much is done, in hundredths, and what is being done.
Told = Callable[[int, str], object]


def nobody(percent: int, step: str) -> None:
    """For whoever waits anyway."""


@dataclass(slots=True, kw_only=True)
class PackingList:
    """`left_out`: a sentence for each photograph and scan whose file is missing from the data folder."""

    counts: dict[str, int]
    left_out: list[str] = field(default_factory=list)


def write_archive(
    workroom: Workroom, to: BinaryIO, *, at: datetime, personal: bool, told: Told = nobody
) -> PackingList:
    """Write all that the workroom holds into `to`; what is of its wearers only where `personal` says so."""
    written = PackingList(counts={})
    files: dict[str, str] = {}
    named: dict[Model, str | None] = {}

    def file_of(row: Any) -> str | None:
        if row not in named:
            named[row] = named_by_content(row)
            if named[row]:
                files[named[row]] = row.best_file()
            else:
                of = KINDS[type(row)].wholes[-1]
                written.left_out.append(f"Left out, its file is missing: {row} of {_whole(row, of)}.")
        return named[row]

    with zipfile.ZipFile(to, "w") as archive:
        with archive.open(_entry(CATALOGUE, at, zipfile.ZIP_DEFLATED), "w") as opened:
            text = _CountingWriter(opened)
            writer = Writer(file_of=file_of, personal=personal)
            _write_document(text, writer.lists(workroom), written.counts, told)
        contents = {CATALOGUE: {"sha256": text.sha256, "bytes": text.bytes}}
        for number, (name, kept) in enumerate(sorted(files.items())):
            told(ROWS_WRITTEN + (PACKED - ROWS_WRITTEN) * number // len(files), "the files are packed")
            contents[name] = _pack(archive, _entry(name, at, zipfile.ZIP_STORED), kept)
        manifest = {
            "format": FORMAT,
            "version": VERSION,
            "workroom": workroom.name,
            "personal": personal,
            "written_at": at.isoformat(timespec="seconds"),
            "photographs": MAY_CARRY,
            "files": contents,
        }
        archive.writestr(_entry(MANIFEST, at, zipfile.ZIP_DEFLATED), _as_json(manifest))
    for folder in (kind.files for kind in KINDS.values() if kind.files):
        written.counts[folder.strip("/")] = sum(name.startswith(folder) for name in files)
    return written


def _pack(archive: zipfile.ZipFile, entry: zipfile.ZipInfo, kept: str) -> dict[str, Any]:
    """What the manifest says of the file."""
    with open_file(kept) as file, archive.open(entry, "w") as opened:
        shutil.copyfileobj(file, opened, PART)
    return {"sha256": entry.filename.rpartition("/")[2], "bytes": size_of(kept)}


def _whole(row: Any, of: Kind) -> Any:
    """The row of a list in which this one stands."""
    while type(row) is not of.model:
        row = getattr(row, KINDS[type(row)].part_of)
    return row


class _CountingWriter:
    """What is written goes through, and is counted and summed."""

    def __init__(self, to: IO[bytes]) -> None:
        self._to, self._digest = to, hashlib.sha256()
        self.bytes = 0

    def write(self, text: str) -> None:
        part = text.encode()
        self._digest.update(part)
        self.bytes += len(part)
        self._to.write(part)

    @property
    def sha256(self) -> str:
        return self._digest.hexdigest()


def _write_document(
    text: _CountingWriter,
    lists: Iterable[tuple[str, Iterator[dict[str, Any]]]],
    counts: dict[str, int],
    told: Told,
) -> None:
    text.write(f'{{"format": "{CATALOGUE_FORMAT}", "version": {CATALOGUE_VERSION}')
    for number, (name, rows) in enumerate(lists):
        text.write(f',\n"{name}": [')
        counts[name] = 0
        for row in rows:
            told(ROWS_WRITTEN * number // len(LISTS), f"the {LISTS[name].word} are written")
            text.write(("," if counts[name] else "") + "\n" + _as_json(row))
            counts[name] += 1
        text.write("]")
    text.write("}\n")


def _as_json(said: Any) -> str:
    return json.dumps(said, ensure_ascii=False, indent=1)


def named_by_content(row: Any) -> str | None:
    """The name of a row's file in an archive; None where it is missing."""
    kept = row.best_file()
    if kept is None:
        return None
    with open_file(kept) as opened:
        return f"{KINDS[type(row)].files}{hashlib.file_digest(opened, 'sha256').hexdigest()}"


def _entry(name: str, at: datetime, compression: int) -> zipfile.ZipInfo:
    # A zip knows no year before 1980.
    entry = zipfile.ZipInfo(name, date_time=max(at.timetuple()[:6], (1980, 1, 1, 0, 0, 0)))
    entry.compress_type = compression
    entry.external_attr = 0o600 << 16
    return entry
