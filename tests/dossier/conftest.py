"""The demo outfit as values, as HTML and as a PDF of every section: laid out once for all tests that look."""

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from io import BytesIO
from pathlib import Path

import pytest
from django.db import transaction
from django.test import override_settings
from pypdf import PdfReader

from fitting.comparing.actions import compare_garment
from fitting.dossier.calculation import SECTIONS
from fitting.dossier.loading.values import DossierValues, dossier_values
from fitting.dossier.showing.document import html_of, print_html
from fitting.outfits.models.outfit import Outfit
from tests.demo import WRITTEN, demo_told_at


@dataclass
class Printed:
    values: DossierValues
    html: str
    pdf: bytes
    complaints: list[str]
    folder: Path

    @cached_property
    def reader(self) -> PdfReader:
        return PdfReader(BytesIO(self.pdf))

    @cached_property
    def pages(self) -> list[str]:
        """The words of each page."""
        return [" ".join(page.extract_text().split()) for page in self.reader.pages]


@pytest.fixture(scope="session")
def egg_seller(django_db_setup, django_db_blocker) -> Printed:
    with (
        django_db_blocker.unblock(),
        demo_told_at(WRITTEN) as demo,
        override_settings(DATA_DIR=demo.folder),
        transaction.atomic(),
    ):
        jacket = demo.shown
        compare_garment(jacket, by=jacket.outfit.maker, at=WRITTEN)
        values = dossier_values(
            Outfit.objects.for_detail_page().get(pk=jacket.outfit_id),
            sections=tuple(SECTIONS),
            paper="A4",
            system="in",
            by=jacket.outfit.maker,
            at=WRITTEN,
        )
        html = html_of(values)
        with heard("weasyprint") as complaints:
            pdf = print_html(html, photos=values.photos).pdf
        transaction.set_rollback(True)
    return Printed(values=values, html=html, pdf=pdf, complaints=complaints, folder=demo.folder)


@contextmanager
def heard(name: str) -> Iterator[list[str]]:
    """What a logger warns of meanwhile."""
    said: list[str] = []
    handler = logging.Handler(logging.WARNING)
    handler.emit = lambda record: said.append(record.getMessage())
    logging.getLogger(name).addHandler(handler)
    yield said
    logging.getLogger(name).removeHandler(handler)
