"""An archive as it comes from anybody: found whole, with every fault in it said."""

import hashlib
import zipfile
import zlib
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import IO, Any, BinaryIO

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.photographs.imaging import MOST_BYTES, MOST_SCAN_BYTES
from catalogue.photographs.kinds import PHOTO
from catalogue.reading_room.exchange.archive import CATALOGUE, FORMAT, MANIFEST, VERSION
from catalogue.reading_room.exchange.reading import read_catalogue
from catalogue.tracing.kinds import SCAN
from catalogue.workroom.kinds import Kind
from catalogue.workroom.reader.strict_json import NotStrictJson, load_strictly

# The most that one file of each folder, and the catalogue, may hold.
MOST = {PHOTO.files: MOST_BYTES, SCAN.files: MOST_SCAN_BYTES}
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


class ReadArchive:
    """An archive that was read and found whole: its document, and its files by name."""

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
        self._refuse(list(self._check_pictures()))

    def open(self, name: str) -> IO[bytes]:
        return self._zip.open(name)

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
            folder = name.partition("/")[0] + "/"
            most = MOST_CATALOGUE_BYTES if name == CATALOGUE else MOST.get(folder, MOST_BYTES)
            try:
                if self._digest(name, most) != told.get("sha256"):
                    yield Fault(name, "Its checksum is another: the file was changed or damaged.")
            except UNREADABLE as fault:
                yield Fault(name, f"Cannot be read: {fault or 'it is damaged'}.")

    def _check_pictures(self) -> Iterator[Fault]:
        for at, reference in enumerate(self.document["references"]):
            for number, photo in enumerate(reference["photos"]):
                yield from self._check_picture(PHOTO, photo, f"references[{at}].photos[{number}].file")
            for number, plate in enumerate(reference["plates"]):
                if plate["scan"]:
                    place = f"references[{at}].plates[{number}].scan.file"
                    yield from self._check_picture(SCAN, plate["scan"], place)

    def _check_picture(self, kind: Kind, said: dict[str, Any], place: str) -> Iterator[Fault]:
        if said["file"] not in self.files or not said["file"].startswith(kind.files):
            yield Fault(place, f"No such file is among the {kind.files.strip('/')} of the archive.")

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
