"""What a workroom holds of photographs of garments."""

import io
from collections.abc import Callable
from typing import IO, Any
from uuid import uuid4

from catalogue.photographs.actions import keep_copies
from catalogue.photographs.imaging import MOST_BYTES, read_own, read_upload
from catalogue.photographs.models import Photo, WithCopies
from catalogue.workroom.deletions import Deletion, register_deletions
from catalogue.workroom.files import put
from catalogue.workroom.kinds import Kind, register
from catalogue.workroom.persons import OfPerson


def kind_of_photographs(
    model: type[WithCopies],
    *,
    part_of: str,
    files: str,
    keep: Callable[[Any, IO[bytes]], None],
    of_person: OfPerson | None = None,
) -> Kind:
    """The kind of a row with a picture; `keep` draws its copies of the file, under a stem of its own."""

    def keep_anew(photo: WithCopies, opened: IO[bytes]) -> None:
        # Where the file is refused, its row is asked for all the same which files it has.
        photo.stem, photo.width, photo.height = uuid4().hex, 0, 0
        keep(photo, io.BytesIO(opened.read()))

    return Kind(
        model=model,
        part_of=part_of,
        left_out=("stem", "width", "height"),
        files=files,
        most=MOST_BYTES,
        keep=keep_anew,
        of_person=of_person,
    )


def keep_own(photo: WithCopies, file: IO[bytes]) -> None:
    """Of a picture that our own program drew, the file is a copy itself: nothing but copies is kept."""
    keep_copies(photo, read_own(file))


def _keep_with_original(photo: Photo, file: IO[bytes]) -> None:
    keep_copies(photo, read_upload(file))
    put(photo.original, file)


register(
    kind_of_photographs(Photo, part_of="reference", files="photographs/", keep=_keep_with_original),
)
register_deletions(
    Deletion(
        model=Photo,
        the="the photograph",
        way=lambda photo: [("Reference garments", "reference-list"), photo.reference],
        picture="photo-file",
        says="A plate that shows it stays, without its picture.",
    ),
)
