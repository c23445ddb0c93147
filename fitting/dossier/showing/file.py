import os
from pathlib import Path

from fitting.dossier.models import part_of


def write_whole(path: Path, octets: bytes) -> None:
    """The file appears whole under its name or not at all, and only its owner may read it."""
    part = part_of(path)
    with os.fdopen(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as file:
        file.write(octets)
        file.flush()
        os.fsync(file.fileno())
    part.replace(path)
