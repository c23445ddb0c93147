"""Where files go that were sent to us: kept for their owner alone, and never over another.

File first, row second: a process killed between the two leaves an orphan file, never a row without its file.
"""

import os
from pathlib import Path
from typing import BinaryIO


def new_original(path: Path) -> BinaryIO:
    """The file to write it into. Raises FileExistsError where there is one already."""
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    return os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb")
