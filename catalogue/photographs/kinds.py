"""What a workroom holds of photographs of garments."""

import io
from collections.abc import Callable
from typing import IO
from uuid import uuid4

from catalogue.photographs.actions import keep_copies
from catalogue.photographs.imaging import MOST_BYTES, read_upload
from catalogue.photographs.models import Photo
from catalogue.workroom.files import put
from catalogue.workroom.kinds import Kind, register


def _keep(photo: Photo, opens: Callable[[], IO[bytes]]) -> None:
    photo.stem, photo.width, photo.height = uuid4().hex, 0, 0
    with opens() as opened:
        content = io.BytesIO(opened.read())
    prepared = read_upload(content)
    keep_copies(photo, prepared)
    put(photo.original, content)


register(
    Kind(
        model=Photo,
        part_of="reference",
        left_out=("stem", "width", "height"),
        files="photographs/",
        most=MOST_BYTES,
        keep=_keep,
    )
)
