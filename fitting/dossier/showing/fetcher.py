"""What may enter a PDF: our own static files, and the photographs that its values name. Nothing else.

Those are photographs that the reader may see (`loading/pictures.py`). WeasyPrint's own fetcher would embed
any file that the process can read, and fetch any address. Imported only where Pango is there.
"""

import mimetypes
from collections.abc import Mapping
from pathlib import Path

from django.contrib.staticfiles import finders
from django.core.exceptions import SuspiciousFileOperation
from weasyprint.urls import URLFetcher, URLFetcherResponse

from catalogue.workroom.files import open_file


class OwnFilesOnly(URLFetcher):
    """Answers `static:fitting/dossier.css` and the addresses in `photos`; refuses every other address."""

    def __init__(self, photos: Mapping[str, str]) -> None:
        super().__init__(allowed_protocols=(), allow_redirects=False)
        self.photos = photos

    def fetch(self, url: str, headers: object = None) -> URLFetcherResponse:
        if name := self.photos.get(url):
            with open_file(name) as opened:
                return _response(url, name, opened.read())
        path = _own_static_file(url)
        if path is None:
            raise ValueError("only the program’s own files and the outfit’s photographs may enter a dossier")
        return _response(url, path.name, path.read_bytes())


def _response(url: str, name: str, octets: bytes) -> URLFetcherResponse:
    kind = mimetypes.guess_type(name)[0] or "application/octet-stream"
    return URLFetcherResponse(url, octets, {"Content-Type": kind})


def _own_static_file(url: str) -> Path | None:
    scheme, _, name = url.partition(":")
    if scheme != "static":
        return None
    try:
        found = finders.find(name)
    except SuspiciousFileOperation:
        return None
    return Path(found) if found and Path(found).is_file() else None
