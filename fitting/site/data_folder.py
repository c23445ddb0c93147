"""The folder that holds what people enter: database, key, photographs, dossiers. Its owner alone may read it."""

import os
import secrets
from pathlib import Path


def open_data_folder(folder: Path) -> Path:
    """Return `folder` (absolute), made if absent, readable by its owner only."""
    folder = folder.absolute()
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    folder.chmod(0o700)
    return folder


def secret_key(folder: Path) -> str:
    """Return the signing key kept in `folder`, made at the first run."""
    path = folder / "secret_key"
    try:
        # O_EXCL: of two processes that start together only one may write the key.
        descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        pass
    else:
        with os.fdopen(descriptor, "w") as file:
            file.write(secrets.token_urlsafe(50))
    key = path.read_text().strip()
    if len(key) < 50:
        raise RuntimeError(
            f"The key in {path} is cut short. Delete that file; a new key is made, and everyone signs in again."
        )
    return key
