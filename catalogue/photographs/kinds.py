"""What a workroom holds of photographs of garments."""

import io
from collections.abc import Callable
from typing import IO
from uuid import uuid4

from catalogue.photographs.actions import store_original
from catalogue.photographs.imaging import MOST_BYTES, read_upload, store_derivatives
from catalogue.photographs.models import Photo, photo_folder
from catalogue.workroom.kinds import Kind, register


def _keep(photo: Photo, opens: Callable[[], IO[bytes]]) -> None:
    photo.stem, photo.width, photo.height = uuid4().hex, 0, 0
    with opens() as opened:
        content = io.BytesIO(opened.read())
    prepared = read_upload(content)
    photo.width, photo.height = prepared.width, prepared.height
    store_derivatives(prepared, photo_folder(), photo.stem)
    store_original(content, photo.stem)


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
