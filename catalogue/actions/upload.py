"""An archive that was sent and tried waits here until its keeper says yes: an hour, and then it goes."""

import shutil
from datetime import datetime, timedelta
from pathlib import Path
from typing import BinaryIO
from uuid import UUID, uuid4

from django.conf import settings

from catalogue.workroom.files import new_original

WAITS = timedelta(hours=1)


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
