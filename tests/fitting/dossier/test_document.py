"""The PDF is read back: what a maker holds in the hand is what the values say."""

import builtins
from io import BytesIO

import pytest
from pypdf import PdfReader

from fitting.dossier.document import PdfNotPossible, html_of, print_dossier, print_html
from fitting.dossier.sections import SECTIONS, USUAL
from fitting.dossier.values import dossier_values
from tests.makers import NOON, make_garment, make_outfit


def bookmarks(reader: PdfReader, entries: list | None = None) -> dict[str, int]:
    """The page that each bookmark leads to, by its title, from 1."""
    found: dict[str, int] = {}
    for one in reader.outline if entries is None else entries:
        if isinstance(one, list):
            found |= bookmarks(reader, one)
        else:
            found[one.title] = reader.get_destination_page_number(one) + 1
    return found


def test_it_is_tagged_named_dated_and_in_english(egg_seller):
    reader = egg_seller.reader
    catalog = reader.trailer["/Root"]
    assert catalog["/MarkInfo"]["/Marked"]
    assert catalog["/Lang"] == "en"
    assert reader.metadata.title == "The egg-seller: dossier of 25 November 2026"
    assert reader.metadata.author == "The Drying Loft"
    assert reader.metadata.creation_date.date() == egg_seller.values.printed_at.date()
    assert "pdfuaid" in catalog["/Metadata"].get_data().decode()


def test_nothing_is_refused_or_misunderstood_and_every_picture_has_words(egg_seller):
    # WeasyPrint warns of a style it does not know, an address not fetched, a drawing without a description.
    assert egg_seller.complaints == []


def test_bookmarks_lead_to_the_outfit_to_each_garment_and_to_each_chapter(egg_seller):
    pages = bookmarks(egg_seller.reader)
    assert next(iter(pages)) == "The egg-seller"
    assert {"Measures to retake", "What to check", "Routes and why", "Sources", "Cautions"} <= set(pages)


def test_every_page_says_which_of_how_many_it_is_and_when_it_was_printed(egg_seller):
    for number, words in enumerate(egg_seller.pages, start=1):
        assert f"page {number} of {len(egg_seller.pages)}" in words
        assert "printed 25 November 2026" in words


def test_the_outfit_takes_two_pages_and_each_garment_one_sheet(egg_seller):
    pages = bookmarks(egg_seller.reader)
    assert (pages["The egg-seller"], pages["Measures to retake"], pages["What to check"]) == (1, 2, 2)
    sheets = [pages[f"{sheet.garment.order} {sheet.garment}"] for sheet in egg_seller.values.sheets]
    assert sheets == [3, 4, 5, 6, 7, 8]
    assert pages["Where each measure is taken"] == 9


def test_each_chosen_section_is_there(egg_seller):
    words = " ".join(egg_seller.pages)
    for section in (
        "Where each measure is taken",
        "Routes and why",
        "Plate: Half-boned stays",
        "Photographs",
    ):
        assert section in words
    assert "From the Press Cupboard: Nineteen Garments Measured and Drawn" in words
    assert "Drawn by this program for its demo workroom" in words


def test_the_only_font_is_the_one_that_is_shipped(egg_seller):
    fonts = {
        str(font.get_object()["/BaseFont"]).partition("+")[2]
        for page in egg_seller.reader.pages
        for font in page["/Resources"].get("/Font", {}).values()
    }
    assert fonts
    assert all("Vollkorn" in font for font in fonts)


@pytest.mark.parametrize(
    ("paper", "width_pt", "height_pt"), [("A4", 595.28, 841.89), ("Letter", 612, 792)]
)  # ISO 216; ANSI/ASME Y14.1, 8 1/2 × 11 in
def test_the_paper_is_the_one_asked_for(people, paper, width_pt, height_pt):
    outfit = make_outfit(people.workroom)
    values = dossier_values(outfit, sections=USUAL, paper=paper, system="in", by=None, at=NOON)
    page = PdfReader(BytesIO(print_dossier(values).pdf)).pages[0]
    assert float(page.mediabox.width) == pytest.approx(width_pt, abs=0.02)
    assert float(page.mediabox.height) == pytest.approx(height_pt, abs=0.02)


def test_an_outfit_of_which_nothing_is_known_still_prints_and_says_so(people):
    outfit = make_outfit(people.workroom, name="W" * 160, occasion="o" * 200)
    make_garment(outfit, name="x" * 120)
    given = {"paper": "A4", "system": "cm", "by": people.maker, "at": NOON}
    values = dossier_values(outfit, sections=tuple(SECTIONS), **given)
    html = html_of(values)
    for words in (
        "there is nobody to measure",
        "It names no plate to compare with.",
        "has a photograph yet",
        "No source",
    ):
        assert words in html.replace("\n", " ")
    assert print_dossier(values).pages >= 4


def test_without_pango_the_sentence_says_what_to_install(monkeypatch):
    real = builtins.__import__

    def without_pango(name, *args, **kwargs):
        if name == "weasyprint":
            raise OSError("cannot load library 'libpango-1.0-0'")
        return real(name, *args, **kwargs)

    monkeypatch.setattr(builtins, "__import__", without_pango)
    with pytest.raises(PdfNotPossible, match=r"Pango is missing \(writing PDFs\)"):
        print_html("<p>", photos={})
