"""An archive as it comes from anybody: found whole, with every fault in it said.

Nothing in it is believed. How large a file is says the directory of the zip; reading stops there, in small
parts, whatever more it would unpack to. A few rows of its catalogue are held at a time.
"""

import hashlib
import io
import zipfile
import zlib
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from typing import IO, Any, BinaryIO

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.workroom.archive.packing import CATALOGUE, FORMAT, MANIFEST, VERSION, Told, nobody
from catalogue.workroom.archive.reading import Batch, read_catalogue
from catalogue.workroom.kinds import KINDS, LISTS, Kind
from catalogue.workroom.reader.entries import Notes
from catalogue.workroom.reader.long_json import LongTable
from catalogue.workroom.reader.strict_json import NotStrictJson, oddities

# Twenty thousand garments with all their readings, and ten photographs of each, take a fifth of it.
MOST_CATALOGUE_BYTES = 256 * 1024 * 1024
# The most that these two may hold; of any other its kind says it, and of none nothing is read.
MOST = dict.fromkeys((CATALOGUE, MANIFEST), MOST_CATALOGUE_BYTES)
MOST_FILES, MOST_DIRECTORY_BYTES = 250_000, 64 * 1024 * 1024
# Pictures are packed as they are: an archive that unpacks to so many times its size was made to do harm.
MOST_TIMES = 20
MOST_FAULTS = 1_000
PART = 64 * 1024
# How each file in the directory of a zip begins (PKWARE, APPNOTE.TXT, 4.3.12).
IN_DIRECTORY = b"PK\x01\x02"
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


# So far it is, in hundredths, when each thing that is done with an archive is done.
FILES_CHECKED, CATALOGUE_CHECKED, TAKEN = 40, 60, 95


class _ArchiveTooLarge(ValueError):
    """A sentence about an archive that is larger than any this program reads."""


class OpenedArchive:
    """An archive that was read and found whole: its rows, and its files by name."""

    def __init__(self, file: BinaryIO, told: Told = nobody) -> None:
        """Raises Faults with every fault found."""
        self._told = told
        try:
            self._zip = zipfile.ZipFile(_BoundedFile(file))
        except UNREADABLE as fault:
            sentence = (
                str(fault) if isinstance(fault, _ArchiveTooLarge) else "This file is not a zip archive."
            )
            raise Faults([Fault("archive", sentence)]) from None
        self.files = set(self._zip.namelist())
        self._bytes = file.seek(0, io.SEEK_END)
        for check in (self._check_directory, self._check_manifest, self._check_catalogue):
            notes = Notes(most=MOST_FAULTS)
            check(notes)
            notes.refuse()

    def open(self, name: str) -> BinaryIO:
        return io.BufferedReader(_PartwiseFile(self._zip.open(name)), PART)

    def rows(self, told: Told = nobody) -> Iterator[Batch]:
        """Its rows once more, a few at a time, in the order in which they are taken."""
        for done, batch in self._rows(Notes(most=MOST_FAULTS)):
            step = f"the {LISTS[batch.name].word}, beside what is here"
            told(CATALOGUE_CHECKED + int(done * (TAKEN - CATALOGUE_CHECKED)), step)
            yield batch

    def _rows(self, notes: Notes) -> Iterator[tuple[float, Batch]]:
        """A few rows at a time, and which part of the catalogue was read until then."""
        size = self._zip.getinfo(CATALOGUE).file_size
        with self._reading(CATALOGUE, notes) as table:
            for batch in read_catalogue(table, notes):
                yield table.characters / max(size, 1), batch
        notes.refuse()

    def _check_directory(self, notes: Notes) -> None:
        held = self._zip.infolist()
        for name, count in Counter(self._zip.namelist()).items() if len(self.files) < len(held) else ():
            if count > 1:
                notes.fault(name, "This stands in the archive twice.")
        for name in {MANIFEST, CATALOGUE} - self.files:
            notes.fault(name, "This is not in the archive.")
        most_in = {kind.files: kind.most for kind in KINDS.values() if kind.files}
        for one in held:
            folder = one.filename.partition("/")[0] + "/"
            most = MOST.get(one.filename) or most_in.get(folder, MOST_CATALOGUE_BYTES)
            if one.file_size > most:
                notes.fault(one.filename, f"This is larger than {most >> 20} MB.")
            # In other ways a few bytes unpack to more than memory holds before they can be stopped.
            if one.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
                notes.fault(
                    one.filename, "This is packed in a way that is not read here: store or deflate it."
                )
        pictures = sum(one.file_size for one in held if one.filename not in (MANIFEST, CATALOGUE))
        if pictures > MOST_TIMES * self._bytes:
            notes.fault("archive", f"Its pictures unpack to more than {MOST_TIMES} times its size.")

    def _check_manifest(self, notes: Notes) -> None:
        said: dict[str, Any] = {}
        left = self.files - {MANIFEST}
        count = max(len(left), 1)
        with self._reading(MANIFEST, notes) as table:
            for name, member in table.members():
                if name == "files" and member.opening == "{":
                    said[name] = True
                    for file, told in member.values:
                        self._told(FILES_CHECKED * (count - len(left)) // count, "its files are checked")
                        self._check_file(str(file), told, left, notes)
                elif name in ("format", "version", "written_at"):
                    said[name] = member.value()
        self.written_on = _day(said.get("written_at"))
        if said.get("format") != FORMAT:
            notes.fault(MANIFEST, f"This is not a “{FORMAT}”.")
        elif type(said.get("version")) is not int or said["version"] != VERSION:
            notes.fault(MANIFEST, f"This program reads version {VERSION}.")
        elif "files" not in said:
            notes.fault(f"{MANIFEST}: files", "This must say each file with its checksum.")
        else:
            for name in sorted(left):
                notes.fault(name, "The manifest does not list this file.")

    def _check_file(self, name: str, told: Any, left: set[str], notes: Notes) -> None:
        """`left`: the files that the manifest did not list until now."""
        if name not in left:
            why = "twice" if name in self.files else "and it is not there"
            notes.fault(name, f"The manifest lists this file, {why}.")
            return
        left.remove(name)
        notes.extend(oddities(told, f"{MANIFEST}: files.{name}"))
        try:
            with self.open(name) as opened:
                is_whole = isinstance(told, dict) and told.get("sha256") == _digest(opened)
        except UNREADABLE as fault:
            notes.fault(name, f"This cannot be read: {fault or 'it is damaged'}.")
        else:
            if not is_whole:
                notes.fault(name, "Its checksum is another: the file was changed or damaged.")

    def _check_catalogue(self, notes: Notes) -> None:
        for done, batch in self._rows(notes):
            step = f"the {LISTS[batch.name].word} are read"
            self._told(FILES_CHECKED + int(done * (CATALOGUE_CHECKED - FILES_CHECKED)), step)
            for at, said in batch.rows:
                self._check_named(LISTS[batch.name], said, f"{batch.name}[{at}]", notes)

    def _check_named(self, kind: Kind, said: dict[str, Any], place: str, notes: Notes) -> None:
        """Whether each file that the row and its parts name is there."""
        if kind.files and (said["file"] not in self.files or not said["file"].startswith(kind.files)):
            folder = kind.files.strip("/")
            notes.fault(f"{place}.file", f"No such file is among the {folder} of the archive.")
        for name, part in kind.parts.items():
            for at, one in enumerate(said[name]):
                self._check_named(part, one, f"{place}.{name}[{at}]", notes)
        for name, part in kind.only.items():
            if said[name] is not None:
                self._check_named(part, said[name], f"{place}.{name}", notes)

    @contextmanager
    def _reading(self, name: str, notes: Notes) -> Iterator[LongTable]:
        """Raises Faults, with what was noted before, where it cannot be read on."""
        try:
            with self.open(name) as opened:
                yield LongTable(opened)
        except Faults:
            raise
        except NotStrictJson as fault:
            raise Faults([*notes.faults, Fault(name, fault.sentence)]) from None
        except UNREADABLE as fault:
            raise Faults(
                [*notes.faults, Fault(name, f"This cannot be read: {fault or 'it is damaged'}.")]
            ) from None


def _day(said: Any) -> date:
    """The day of the manifest, which nothing but the moving of all days rests on."""
    try:
        return datetime.fromisoformat(said).date()
    except (TypeError, ValueError):
        return datetime.now(UTC).date()


def _digest(opened: BinaryIO) -> str:
    return hashlib.file_digest(opened, "sha256").hexdigest()


class _BoundedFile:
    """An archive's file for the zip library, which takes its whole directory at once, however long."""

    def __init__(self, file: BinaryIO) -> None:
        self.seek, self.tell, self.seekable = file.seek, file.tell, file.seekable
        self._read, self._length = file.read, file.seek(0, io.SEEK_END)

    def read(self, size: int = -1) -> bytes:
        left = max(0, self._length - self.tell())
        size = min(size, left) if size >= 0 else left
        octets = self._read(size) if size <= MOST_DIRECTORY_BYTES else b""
        if size > MOST_DIRECTORY_BYTES or octets.count(IN_DIRECTORY) > MOST_FILES:
            raise _ArchiveTooLarge(
                f"This archive holds more than {MOST_FILES:,} files, or calls them by names too long."
            )
        return octets


class _PartwiseFile(io.RawIOBase):
    """A file of an archive that is unpacked in parts, even for who asks for all of it.

    The zip library stops at the size that the directory says, but only when the whole of a part is unpacked.
    """

    def __init__(self, opened: IO[bytes]) -> None:
        self._opened = opened
        self.seek, self.tell = opened.seek, opened.tell

    def readable(self) -> bool:
        return True

    def seekable(self) -> bool:
        return True

    def readinto(self, to: Any) -> int:
        octets = self._opened.read(min(len(to), PART))
        to[: len(octets)] = octets
        return len(octets)
