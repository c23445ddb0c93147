"""Photographs and scans out of an archive: stored like any that are sent, gone again if not all is kept."""

import io
import shutil
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import IO, Any, Self
from uuid import uuid4

from catalogue.lengths.calculation.errors import Fault
from catalogue.photographs.actions import remove_files, store_original
from catalogue.photographs.imaging import ImageRefused, check_scan, read_upload, store_derivatives
from catalogue.photographs.models import photo_folder
from catalogue.tracing.models import PlateScan
from catalogue.workroom.files import new_original


class Pictures:
    """Used as a context: what was stored inside stays only if nothing was raised.

    `opened` gives a file of the archive by its name there; `kept` counts what was, or would be, stored.
    A fault of a picture is noted with `place`.
    """

    def __init__(self, opened: Callable[[str], IO[bytes]], *, only_try: bool) -> None:
        self._opened, self._only_try = opened, only_try
        self._stems: list[str] = []
        self._folders: list[Path] = []
        self.kept: Counter[str] = Counter()
        self.place = ""
        self.faults: list[Fault] = []

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, raised: BaseException | None, trace: TracebackType | None
    ) -> None:
        if raised is not None:
            remove_files(self._stems)
            for folder in self._folders:
                shutil.rmtree(folder, ignore_errors=True)

    def keep_photo(self, said: dict[str, Any]) -> dict[str, Any]:
        """Store a photograph's files; return its stem and its size in pixels."""
        with self._opened(said["file"]) as opened:
            content = io.BytesIO(opened.read())
        stem = uuid4().hex
        self.kept["photographs"] += 1
        try:
            prepared = read_upload(content)
        except ImageRefused as refused:
            self._refuse(said, refused)
            return {"stem": stem, "width": 0, "height": 0}
        if not self._only_try:
            self._stems.append(stem)
            store_derivatives(prepared, photo_folder(), stem)
            store_original(content, stem)
        return {"stem": stem, "width": prepared.width, "height": prepared.height}

    def keep_scan(self, said: dict[str, Any]) -> str:
        """Store a scan's file, which may be large, as it is; return its stem. It is opened when it is cut."""
        scan = PlateScan(stem=uuid4().hex)
        self.kept["scans"] += 1
        with self._opened(said["file"]) as opened:
            try:
                check_scan(opened)
            except ImageRefused as refused:
                self._refuse(said, refused)
        if not self._only_try:
            self._folders.append(scan.folder)
            with new_original(scan.original) as original, self._opened(said["file"]) as opened:
                shutil.copyfileobj(opened, original)
        return scan.stem

    def _refuse(self, said: dict[str, Any], refused: ImageRefused) -> None:
        self.faults.append(Fault(f"{self.place}, {said['file']}", refused.sentence))
