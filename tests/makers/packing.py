"""Archives for tests: taken out, packed again with other contents, taken in."""

import hashlib
import io
import json
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

from catalogue.photographs.models import Photo
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.models import Source
from catalogue.workroom.archive.opened import OpenedArchive
from catalogue.workroom.archive.packing import CATALOGUE, MANIFEST, write_archive
from catalogue.workroom.archive.taking import IntakeReport, take_archive
from catalogue.workroom.models import Workroom
from tests.makers.rows import NOON


def taken_out(workroom: Workroom) -> io.BytesIO:
    file = io.BytesIO()
    write_archive(workroom, file, at=NOON, personal=True)
    return file


def document(file: io.BytesIO) -> dict[str, Any]:
    with zipfile.ZipFile(file) as archive:
        return json.loads(archive.read(CATALOGUE))


def repacked(file: io.BytesIO, change: Callable[[dict[str, bytes]], None]) -> io.BytesIO:
    """The archive with other contents; the manifest says what `change` leaves it saying."""
    with zipfile.ZipFile(file) as archive:
        contents = {name: archive.read(name) for name in archive.namelist()}
    change(contents)
    changed = io.BytesIO()
    with zipfile.ZipFile(changed, "w") as archive:
        for name, content in contents.items():
            archive.writestr(name, content)
    return changed


def with_document(file: io.BytesIO, said: Any) -> io.BytesIO:
    """The archive with another catalogue in it, and the right checksum for that."""

    def change(contents: dict[str, bytes]) -> None:
        contents[CATALOGUE] = json.dumps(said).encode()
        manifest = json.loads(contents[MANIFEST])
        manifest["files"][CATALOGUE]["sha256"] = hashlib.sha256(contents[CATALOGUE]).hexdigest()
        contents[MANIFEST] = json.dumps(manifest).encode()

    return repacked(file, change)


def take(
    workroom: Workroom, file: io.BytesIO, *, overwrite: bool = False, only_try: bool = False
) -> IntakeReport:
    return take_archive(OpenedArchive(file), workroom=workroom, overwrite=overwrite, only_try=only_try)


def rows_of(workroom: Workroom) -> dict[str, int]:
    models = (Source, ReferenceGarment, Plate, Piece, Photo)
    return {model.__name__: model.objects.of_workroom(workroom).count() for model in models}


def files_in(folder: Path) -> set[str]:
    return {path.name for path in folder.rglob("*") if path.is_file()}


def broken(place: list[Any], value: Any) -> Callable[[dict[str, Any]], None]:
    def change(said: dict[str, Any]) -> None:
        *way, last = place
        for step in way:
            said = said[step]
        said[last] = value

    return change
