"""Photographs out of an archive: drawn again like any that are sent, gone again if the whole is not kept."""

import io
from collections.abc import Callable
from types import TracebackType
from typing import Any, Self
from uuid import uuid4

from catalogue.actions.photos import remove_files, store_original
from catalogue.images import ImageRefused, read_upload, store_derivatives
from catalogue.measuring.errors import Fault
from catalogue.models.photo import photo_folder


class Pictures:
    """Used as a context: what was stored inside stays only if nothing was raised."""

    def __init__(self, photograph: Callable[[str], bytes], *, only_try: bool) -> None:
        self._photograph, self._only_try = photograph, only_try
        self._stems: list[str] = []
        self.place = ""
        self.faults: list[Fault] = []

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, raised: BaseException | None, trace: TracebackType | None
    ) -> None:
        if raised is not None:
            remove_files(self._stems)

    def keep(self, said: dict[str, Any]) -> dict[str, Any]:
        """Store a photograph's files; return its stem and its size in pixels. A fault is noted."""
        content = io.BytesIO(self._photograph(said["file"]))
        stem = uuid4().hex
        try:
            prepared = read_upload(content)
        except ImageRefused as refused:
            self.faults.append(Fault(f"{self.place}, {said['file']}", refused.sentence))
            return {"stem": stem, "width": 0, "height": 0}
        if not self._only_try:
            self._stems.append(stem)
            store_derivatives(prepared, photo_folder(), stem)
            store_original(content, stem)
        return {"stem": stem, "width": prepared.width, "height": prepared.height}
