"""Sending a picture that we drew ourselves, a JPEG always: a copy of a photograph, a tile of a scan."""

from pathlib import Path

from django.http import FileResponse, Http404

from catalogue.images import SIZES

# A copy never changes under its address, but only this person's browser may keep it.
KEPT_A_DAY = "private, max-age=86400, immutable"
KEPT_AN_HOUR = "private, max-age=3600"
NOT_KEPT = "private, no-store"


def picture_of_size(photo, size: int, *, cache: str) -> FileResponse:
    """The copy of a photograph of any kind whose long edge is `size` pixels."""
    if size not in SIZES:
        raise Http404("Photographs are kept in other sizes.")
    return picture(photo.file(size), cache=cache)


def picture(file: Path, *, cache: str) -> FileResponse:
    """The file with what a browser may do about it; 404 where it is missing."""
    try:
        opened = file.open("rb")
    except FileNotFoundError:
        raise Http404("The picture’s file is missing from the data folder.") from None
    return FileResponse(opened, content_type="image/jpeg", headers={"Cache-Control": cache})
