"""The folder of what people enter: database, key, photographs, dossiers. Only its owner may look inside."""

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
    if not path.exists():
        _place_key(path)
    key = path.read_text().strip()
    if len(key) < 50:
        raise RuntimeError(
            f"The key in {path} is cut short. Delete that file; a new key is made, and all sign in again."
        )
    return key


def _place_key(path: Path) -> None:
    fresh = path.with_name(f"secret_key.{secrets.token_hex(8)}")
    with os.fdopen(os.open(fresh, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w") as file:
        file.write(secrets.token_urlsafe(50))
    try:
        # A link appears whole or not at all, and never over another: of two first runs one places its key.
        os.link(fresh, path)
    except FileExistsError:
        pass
    finally:
        fresh.unlink()
