"""Only our own files and the outfit's photographs can enter a PDF: WeasyPrint would fetch anything."""

import pytest

from catalogue.workroom.files import put
from fitting.dossier.calculation import SECTIONS
from fitting.dossier.loading.values import dossier_values
from fitting.dossier.showing.document import html_of, print_html
from fitting.dossier.showing.fetcher import OwnFilesOnly
from tests.makers.rows import (
    NOON,
    make_bodice_plate,
    make_garment,
    make_outfit,
    make_photo,
    make_reference,
    make_source,
)

EVIL = '<img src="file:///etc/passwd"><link rel="attachment" href="file:///etc/hostname">'


@pytest.mark.parametrize(
    "address",
    [
        "file:///etc/passwd",
        "http://127.0.0.1/secret.png",
        "https://example.org/a.css",
        "ftp://example.org/a",
        "data:text/plain,hello",
        "static:../../../../etc/passwd",
        "static:/etc/passwd",
        "static:fitting/../../settings.py",
        "static:fitting",
        "photo:2-960",
        "STATIC:fitting/dossier.css",
        "",
    ],
)
def test_every_other_address_is_refused(address, tmp_path):
    put("photos/one.jpg", b"jpeg")
    fetcher = OwnFilesOnly({"photo:1-960": "photos/one.jpg"})
    with pytest.raises(ValueError, match="only the program’s own files"):
        fetcher.fetch(address)


def test_our_own_files_and_the_photographs_named_are_given(tmp_path):
    put("photos/one.jpg", b"jpeg")
    fetcher = OwnFilesOnly({"photo:1-960": "photos/one.jpg"})
    photo = fetcher.fetch("photo:1-960")
    assert photo.read() == b"jpeg"
    assert photo.content_type == "image/jpeg"
    sheet = fetcher.fetch("static:fitting/dossier.css")
    assert b"@page" in sheet.read()
    assert sheet.content_type == "text/css"


def test_an_address_in_a_page_is_refused_and_the_rest_is_printed(tmp_path, monkeypatch):
    asked = []
    real = OwnFilesOnly.fetch

    def heard(self, url, headers=None):
        asked.append(url)
        return real(self, url, headers)

    monkeypatch.setattr(OwnFilesOnly, "fetch", heard)
    secret = tmp_path / "secret.txt"
    secret.write_text("body measures of somebody else")
    html = (
        f'<html lang="en"><title>t</title><style>@import "file://{secret}";'
        f'p {{ background: url("file://{secret}") }}</style>'
        f'<p>kept</p><img alt="a" src="file://{secret}"><img alt="b" src="http://127.0.0.1:9/x.png">'
        f'<link rel="attachment" href="file://{secret}"><svg><image href="file://{secret}"/></svg>'
    )
    printed = print_html(html, photos={})
    assert {address.partition(":")[0] for address in asked} == {"file", "http"}
    assert b"EmbeddedFile" not in printed.pdf


def evil_outfit(workroom):
    """Markup that would fetch, in every field that a dossier prints."""
    plate = make_bodice_plate(workroom)
    plate.title, plate.page, plate.notes, plate.source = (
        EVIL,
        EVIL[:60],
        EVIL,
        make_source(workroom, title=EVIL),
    )
    plate.save()
    reference = plate.reference
    reference.name, reference.seam_evidence_note = EVIL, EVIL
    reference.save()
    make_photo(reference, caption=EVIL, credit=EVIL)
    outfit = make_outfit(workroom, name=EVIL, occasion=EVIL, notes=EVIL)
    garment = make_garment(outfit, name=EVIL, notes=EVIL, plate=plate)
    garment.references.create(reference=reference)
    return outfit


def test_what_makers_type_is_printed_as_words_and_fetches_nothing(people, monkeypatch):
    outfit = evil_outfit(people.workroom)
    photo = outfit.garments.get().plate.reference.photos.get()
    put(photo.file(960), b"not a picture")
    given = {"paper": "A4", "system": "in", "by": None, "at": NOON}
    values = dossier_values(outfit, sections=tuple(SECTIONS), **given)
    asked = []
    real = OwnFilesOnly.fetch
    monkeypatch.setattr(
        OwnFilesOnly, "fetch", lambda self, url, headers=None: asked.append(url) or real(self, url, headers)
    )
    html = html_of(values)
    assert "<img src=&quot;" not in html  # escaped once, not twice
    print_html(html, photos=values.photos)
    assert {address for address in asked if not address.startswith("static:")} == {f"photo:{photo.pk}-960"}


def test_a_photograph_of_another_workroom_does_not_enter(people):
    outfit = make_outfit(people.workroom)
    elsewhere = people.stranger.memberships.get().workroom
    garment = make_garment(outfit, plate=make_bodice_plate(people.workroom))
    for reference in (make_reference(elsewhere), garment.plate.reference):
        photo = make_photo(reference)
        put(photo.file(960), b"jpeg")
        garment.references.create(reference=reference)
    values = dossier_values(
        outfit, sections=["outfit", "photographs"], paper="A4", system="in", by=None, at=NOON
    )
    ours = garment.plate.reference.photos.get()
    assert set(values.photos) == {f"photo:{ours.pk}-960"}
