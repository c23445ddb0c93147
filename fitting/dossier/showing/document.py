"""Values to HTML to PDF. WeasyPrint is imported only to lay out: it needs Pango from the system."""

import gc
import hashlib
import logging
import re
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace

from django.conf import settings
from django.template.loader import render_to_string

from fitting.dossier.loading.values import DossierValues

# Stands where the mark goes until it is known; no maker types it.
_MARK, _MARK_LENGTH = "\ue000mark\ue000", 8
# How far along, in percent, and what is being done.
Told = Callable[[int, str], None]


class PdfNotPossible(RuntimeError):
    """This machine cannot write PDFs; `sentence` says what to install."""

    def __init__(self, sentence: str) -> None:
        self.sentence = sentence
        super().__init__(sentence)


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedDossier:
    """`mark` stands on every page: two dossiers with the same mark say the same. Empty for other HTML."""

    pdf: bytes
    pages: int
    mark: str = ""

    @property
    def sha256(self) -> str:
        return hashlib.sha256(self.pdf).hexdigest()


def html_of(values: DossierValues) -> str:
    return marked_html(values)[0]


def marked_html(values: DossierValues) -> tuple[str, str]:
    """The page with its mark on it, and the mark: the head of the SHA-256 of all that the page says.

    Nothing in it tells the hour: from the same rows, on the same day, it is the same, to the byte.
    """
    shown = {"dossier": values, "units": values.units, "mark": _MARK}
    html = render_to_string("dossier/printed/dossier.html", shown)
    mark = hashlib.sha256(html.encode()).hexdigest()[:_MARK_LENGTH]
    return html.replace(_MARK, mark), mark


def print_html(
    html: str, *, photos: Mapping[str, str], told: Told = lambda percent, step: None
) -> PrintedDossier:
    """Lay out a page of ours as a tagged PDF (PDF/UA-1) with bookmarks. Raises PdfNotPossible."""
    try:
        import weasyprint

        from fitting.dossier.showing.fetcher import OwnFilesOnly
    except OSError as absent:
        raise PdfNotPossible(f"{settings.HOW_TO_GET_PANGO}.") from absent
    with _telling(told), _collecting_nothing():
        document = weasyprint.HTML(string=html, url_fetcher=OwnFilesOnly(photos)).render()
        pdf = document.write_pdf(pdf_variant="pdf/ua-1")
    return PrintedDossier(pdf=pdf, pages=len(document.pages))


def print_dossier(values: DossierValues, *, told: Told = lambda percent, step: None) -> PrintedDossier:
    told(20, "setting the text")
    html, mark = marked_html(values)
    return replace(print_html(html, photos=values.photos, told=told), mark=mark)


@contextmanager
def _telling(told: Told) -> Iterator[None]:
    """Pass on what WeasyPrint says of its progress, page by page."""
    log = logging.getLogger("weasyprint.progress")
    handler = _Listener(told)
    before = log.level
    log.addHandler(handler)
    log.setLevel(logging.INFO)
    try:
        yield
    finally:
        log.removeHandler(handler)
        log.setLevel(before)


@contextmanager
def _collecting_nothing() -> Iterator[None]:
    """Boxes of a page hold on to each other: to look for litter among them takes a fifth of the time."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


class _Listener(logging.Handler):
    """Hears “Step 5 - Creating layout - Page 12” and says how far that is."""

    def __init__(self, told: Told) -> None:
        super().__init__()
        self.told = told

    def emit(self, record: logging.LogRecord) -> None:
        said = record.getMessage()
        page = re.search(r"Page (\d+)", said)
        if page:
            self.told(min(85, 35 + int(page[1])), f"laying out page {page[1]}")
        elif said.startswith(("Step 6", "Step 7")):
            self.told(90, "writing the PDF")
        else:
            self.told(30, "setting the text")
