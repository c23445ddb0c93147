"""One file for a catalogue: a zip of `catalogue.json`, the originals of its photographs, and a manifest with
the checksum of each.

Photographs are named by what is in them, so that the same picture lies there once. They are the files as they
were sent: they may carry where and when they were taken, and with what.
"""

import hashlib
import json
import zipfile
import zlib
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Any, BinaryIO

from catalogue.exchange.reading import read_catalogue
from catalogue.exchange.strict_json import NotStrictJson, load_strictly
from catalogue.exchange.writing import write_catalogue
from catalogue.images import MOST_BYTES
from catalogue.measuring.errors import Fault, Faults
from catalogue.models import Photo, Workroom

FORMAT, VERSION = "plate-and-toile archive", 1
MANIFEST, CATALOGUE = "manifest.json", "catalogue.json"
PHOTOGRAPHS = "photographs/"
MAY_CARRY = (
    "The photographs are the files as they were sent. They may carry where and when they were taken, "
    "the camera, and a name: think of that before you pass the archive on."
)
# Twenty thousand garments with all their readings take a tenth of it.
MOST_CATALOGUE_BYTES = 512 * 1024 * 1024
# What a zip that is broken, or made to break its reader, fails with.
UNREADABLE = (
    zipfile.BadZipFile,
    zlib.error,
    NotImplementedError,
    RuntimeError,
    EOFError,
    OSError,
    ValueError,
)


@dataclass(slots=True, kw_only=True)
class Written:
    """`left_out`: photographs whose files are missing from the data folder."""

    counts: dict[str, int]
    left_out: list[Photo] = field(default_factory=list)


def write_archive(workroom: Workroom, to: BinaryIO, *, at: datetime) -> Written:
    """Write the workroom's whole catalogue into `to`."""
    left_out: list[Photo] = []
    files: dict[str, Path] = {}

    def file_of(photo: Photo) -> str | None:
        name = named_by_content(photo)
        if name is None:
            left_out.append(photo)
        else:
            files[name] = photo.best_file()
        return name

    document = write_catalogue(workroom, file_of=file_of)
    text = json.dumps(document, ensure_ascii=False, indent=1).encode()
    contents = {CATALOGUE: {"sha256": hashlib.sha256(text).hexdigest(), "bytes": len(text)}}
    with zipfile.ZipFile(to, "w") as archive:
        archive.writestr(_entry(CATALOGUE, at, zipfile.ZIP_DEFLATED), text)
        for name, path in sorted(files.items()):
            content = path.read_bytes()
            archive.writestr(_entry(name, at, zipfile.ZIP_STORED), content)
            contents[name] = {"sha256": name.removeprefix(PHOTOGRAPHS), "bytes": len(content)}
        manifest = {
            "format": FORMAT,
            "version": VERSION,
            "workroom": workroom.name,
            "written_at": at.isoformat(timespec="seconds"),
            "photographs": MAY_CARRY,
            "files": contents,
        }
        text = json.dumps(manifest, ensure_ascii=False, indent=1)
        archive.writestr(_entry(MANIFEST, at, zipfile.ZIP_DEFLATED), text)
    counts = {name: len(rows) for name, rows in document.items() if isinstance(rows, list)}
    counts["photographs"] = len(files)
    return Written(counts=counts, left_out=left_out)


def named_by_content(photo: Photo) -> str | None:
    """The name of the photograph's file in an archive; None where its file is missing."""
    path = photo.best_file()
    if path is None:
        return None
    with path.open("rb") as opened:
        return f"{PHOTOGRAPHS}{hashlib.file_digest(opened, 'sha256').hexdigest()}"


def _entry(name: str, at: datetime, compression: int) -> zipfile.ZipInfo:
    # A zip knows no year before 1980.
    entry = zipfile.ZipInfo(name, date_time=max(at.timetuple()[:6], (1980, 1, 1, 0, 0, 0)))
    entry.compress_type = compression
    entry.external_attr = 0o600 << 16
    return entry


class ReadArchive:
    """An archive that was read and found whole: its document, and its photographs by name."""

    def __init__(self, file: BinaryIO) -> None:
        """Raises Faults with every fault found."""
        try:
            self._zip = zipfile.ZipFile(file)
        except UNREADABLE:
            raise Faults([Fault("archive", "This file is not a zip archive.")]) from None
        names = Counted.of(self._zip)
        self._refuse(names.faults)
        manifest = self._json(MANIFEST, MOST_CATALOGUE_BYTES)
        self.files = self._listed(manifest)
        self.workroom = str(manifest.get("workroom", ""))
        faults = list(self._check_files(names.names))
        self._refuse(faults)
        self.document = read_catalogue(self._json(CATALOGUE, MOST_CATALOGUE_BYTES))
        self._refuse(list(self._check_photographs()))

    def photograph(self, name: str) -> bytes:
        return self._zip.read(name)

    def _listed(self, manifest: Any) -> dict[str, Any]:
        if not isinstance(manifest, dict) or manifest.get("format") != FORMAT:
            self._refuse([Fault(MANIFEST, f"This is not a “{FORMAT}”.")])
        if type(manifest.get("version")) is not int or manifest["version"] != VERSION:
            self._refuse([Fault(MANIFEST, f"This program reads version {VERSION}.")])
        files = manifest.get("files")
        if not isinstance(files, dict) or not all(isinstance(one, dict) for one in files.values()):
            self._refuse([Fault(f"{MANIFEST}: files", "Must say each file with its checksum.")])
        if CATALOGUE not in files:
            self._refuse([Fault(f"{MANIFEST}: files", f"Does not list {CATALOGUE}.")])
        return files

    def _check_files(self, held: set[str]) -> Iterator[Fault]:
        for name in sorted(held - set(self.files) - {MANIFEST}):
            yield Fault(name, "The manifest does not list this file.")
        for name, told in self.files.items():
            if name not in held:
                yield Fault(name, "The manifest lists this file, and it is not there.")
                continue
            most = MOST_CATALOGUE_BYTES if name == CATALOGUE else MOST_BYTES
            try:
                if self._digest(name, most) != told.get("sha256"):
                    yield Fault(name, "Its checksum is another: the file was changed or damaged.")
            except UNREADABLE as fault:
                yield Fault(name, f"Cannot be read: {fault or 'it is damaged'}.")

    def _check_photographs(self) -> Iterator[Fault]:
        for at, reference in enumerate(self.document["references"]):
            for number, photo in enumerate(reference["photos"]):
                if photo["file"] not in self.files or not photo["file"].startswith(PHOTOGRAPHS):
                    place = f"references[{at}].photos[{number}].file"
                    yield Fault(place, "No such photograph is in the archive.")

    def _digest(self, name: str, most: int) -> str:
        if self._zip.getinfo(name).file_size > most:
            raise ValueError(f"it is larger than {most >> 20} MB")
        with self._zip.open(name) as opened:
            return hashlib.file_digest(opened, "sha256").hexdigest()

    def _json(self, name: str, most: int) -> Any:
        try:
            if self._zip.getinfo(name).file_size > most:
                raise ValueError(f"it is larger than {most >> 20} MB")
            return load_strictly(self._zip.read(name))
        except KeyError:
            self._refuse([Fault(name, "Is not in the archive.")])
        except NotStrictJson as fault:
            self._refuse([Fault(name, fault.sentence)])
        except UNREADABLE as fault:
            self._refuse([Fault(name, f"Cannot be read: {fault or 'it is damaged'}.")])

    @staticmethod
    def _refuse(faults: list[Fault]) -> None:
        if faults:
            raise Faults(faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """The names in a zip; one that stands there twice would be read as either."""

    names: set[str]
    faults: list[Fault]

    @classmethod
    def of(cls, archive: zipfile.ZipFile) -> "Counted":
        listed = archive.namelist()
        twice = sorted(name for name, count in Counter(listed).items() if count > 1)
        faults = [Fault(name, "Stands in the archive twice.") for name in twice]
        return cls(names=set(listed), faults=faults)
