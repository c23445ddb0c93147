"""The one door to the files of the data folder: put, opened, listed, answered, removed.

Nobody else builds a path there. A file is known by a name such as `photos/1f….jpg`; behind the door stands
Django's storage, by default a folder of this machine (`LocalFiles`).

Put first, row second: a process killed between the two leaves a file without a row, never a row without its
file. Removed the other way round: in the transaction in which its row goes the file is noted as unwanted
(`forget`), and whatever is noted is taken away once that is sure, if not now then by the next sweep.
"""

import os
import shutil
import tempfile
import time
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import partial
from pathlib import Path
from typing import Any, BinaryIO
from uuid import uuid4

from django.apps import apps
from django.conf import settings
from django.core.files.base import ContentFile, File
from django.core.files.storage import FileSystemStorage, default_storage
from django.db import transaction
from django.db.models.signals import post_delete
from django.http import FileResponse, Http404

from catalogue.workroom.models import UnwantedFile, WithFiles

HALF_MADE = "half made"
# What lies half made for so long, nobody is making any more.
ABANDONED_AFTER_S = 24 * 60 * 60

_stay: ContextVar[bool] = ContextVar("files stay", default=False)


class LocalFiles(FileSystemStorage):
    """The folder `files` of the data folder. What is saved appears whole under its name or not at all.

    It lies on the disk, with the entry of its folder, before `save` returns.
    """

    @property
    def base_location(self) -> Path:
        return Path(settings.DATA_DIR) / "files"

    @property
    def location(self) -> str:
        return os.path.abspath(self.base_location)

    def get_available_name(self, name: str, max_length: int | None = None) -> str:
        """The very name: what is saved takes the place of what lay there."""
        return name

    def listdir(self, path: str) -> tuple[list[str], list[str]]:
        folders, files = super().listdir(path)
        return [folder for folder in folders if path or folder != HALF_MADE], files

    def _save(self, name: str, content: File) -> str:
        path = Path(self.path(name))
        new = [folder for folder in (path.parent, *path.parent.parents) if not folder.exists()]
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        for folder in new:
            _sync(folder.parent)
        with written_whole(path, meanwhile_in=half_made()) as file:
            for chunk in content.chunks():
                file.write(chunk)
        return name


@contextmanager
def written_whole(path: Path, *, meanwhile_in: Path | None = None) -> Iterator[BinaryIO]:
    """What is written into it appears whole under its name or not at all, for its owner alone."""
    part = (meanwhile_in or path.parent) / f"{uuid4().hex}.part"
    try:
        with os.fdopen(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as file:
            yield file
            file.flush()
            os.fsync(file.fileno())
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
    _sync(path.parent)


def _sync(folder: Path) -> None:
    if os.name == "nt":  # there a folder cannot be opened, and its entries are journalled
        return
    opened = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(opened)
    finally:
        os.close(opened)


def half_made() -> Path:
    """Where files lie until they are whole, on the same disk as those that are."""
    folder = Path(settings.DATA_DIR) / "files" / HALF_MADE
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    return folder


@contextmanager
def scratch() -> Iterator[Path]:
    """A folder to work in, gone at the end: what is to stay is put from there."""
    with tempfile.TemporaryDirectory(dir=half_made()) as folder:
        yield Path(folder)


def put(name: str, content: bytes | BinaryIO | Path) -> None:
    """Keep the content under this name, whole or not at all, in place of what lay there."""
    if isinstance(content, Path):
        with content.open("rb") as opened:
            return put(name, opened)
    if not isinstance(content, bytes):
        content.seek(0)
    default_storage.save(name, ContentFile(content) if isinstance(content, bytes) else File(content))


def open_file(name: str) -> BinaryIO:
    """Raises FileNotFoundError."""
    return default_storage.open(name)


def is_there(name: str) -> bool:
    return default_storage.exists(name)


def size_of(name: str) -> int:
    """In bytes. Raises FileNotFoundError."""
    return default_storage.size(name)


def names_in(folder: str) -> list[str]:
    """The files in a folder, `scans/1f…/`, and in those within it."""
    try:
        folders, files = default_storage.listdir(folder)
    except FileNotFoundError:
        return []
    within = [name for one in folders for name in names_in(f"{folder}{one}/")]
    return sorted([*within, *(f"{folder}{name}" for name in files)])


def age_s(name: str) -> float:
    """Seconds since it was put."""
    return time.time() - default_storage.get_modified_time(name).timestamp()


def remove(name: str) -> None:
    """Take away a file, or with `/` at its end a folder and all in it; nothing where there is none."""
    if not name.endswith("/"):
        default_storage.delete(name)
        return
    for one in names_in(name):
        default_storage.delete(one)
    # A storage of objects has no folders; one of folders keeps them when they are empty.
    if default_storage.exists(name):
        default_storage.delete(name)


def file_answer(name: str, *, missing: str, cache: str, **given: Any) -> FileResponse:
    """The file with what a browser may do about it; 404 with the sentence `missing` where it is not there."""
    try:
        opened = open_file(name)
    except FileNotFoundError:
        raise Http404(missing) from None
    return FileResponse(opened, headers={"Cache-Control": cache}, **given)


def forget(names: Iterable[str]) -> None:
    """Have these files taken away once the transaction that calls this has come about."""
    unwanted = UnwantedFile.objects.bulk_create(UnwantedFile(name=name) for name in names)
    transaction.on_commit(partial(_take_away, unwanted))


def sweep_files() -> None:
    """Take away what a killed process left: files noted as unwanted, and what was half made a day ago."""
    _take_away(UnwantedFile.objects.all())
    for left in half_made().iterdir():
        if time.time() - left.stat().st_mtime > ABANDONED_AFTER_S:
            shutil.rmtree(left) if left.is_dir() else left.unlink(missing_ok=True)


@contextmanager
def files_stay() -> Iterator[None]:
    """Rows deleted meanwhile keep their files: the bin holds them, and has them forgotten later."""
    before = _stay.set(True)
    try:
        yield
    finally:
        _stay.reset(before)


def watch_rows() -> None:
    """Called once, when the app starts: no action sees which rows a database's cascade takes along."""
    for model in apps.get_models():
        if issubclass(model, WithFiles):
            post_delete.connect(_forget_with_row, sender=model, dispatch_uid=f"files of {model._meta.label}")


def _forget_with_row(instance: WithFiles, **kwargs: Any) -> None:
    if not _stay.get():
        forget(instance.files())


def _take_away(unwanted: Iterable[UnwantedFile]) -> None:
    for one in unwanted:
        remove(one.name)
        one.delete()
