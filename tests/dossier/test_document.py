"""The PDF is read back: what a maker holds in the hand is what the values say."""

import builtins
import re
from datetime import timedelta
from io import BytesIO

import pytest
from pypdf import PdfReader

from fitting.dossier.calculation import SECTIONS, USUAL
from fitting.dossier.loading.values import dossier_values
from fitting.dossier.showing.document import PdfNotPossible, html_of, print_dossier, print_html
from tests.makers.rows import NOON, make_garment, make_outfit, make_task


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


def test_every_drawing_of_it_bears_a_name_of_its_own(egg_seller):
    named = re.findall(r'<(?:title|desc|marker|clipPath) id="([^"]+)"', egg_seller.html)
    assert len(named) == len(set(named)) >= 2 * egg_seller.html.count("<svg") > 0


def test_bookmarks_lead_to_the_outfit_to_each_garment_and_to_each_chapter(egg_seller):
    pages = bookmarks(egg_seller.reader)
    assert next(iter(pages)) == "The egg-seller"
    assert {"Measures to retake", "What to check"} <= set(pages)
    headings = {section.label for section in SECTIONS.values()} - {
        "Two pages for the outfit", "A sheet for each garment", "Plates and readings",
    }  # fmt: skip
    assert headings <= set(pages)


def links(reader: PdfReader) -> list[tuple[int, int]]:
    """From which page to which, from 1, for every link within the file."""
    named = reader.named_destinations
    # A link is one annotation for each box it is set in: the words, the dots, the number.
    leads = dict.fromkeys(
        (number, str(annotation["/Dest"]))
        for number, page in enumerate(reader.pages, start=1)
        for annotation in (one.get_object() for one in page.get("/Annots", ()))
        if "/Dest" in annotation
    )
    return [(number, reader.get_destination_page_number(named[to]) + 1) for number, to in leads]


def test_the_table_of_contents_leads_to_the_pages_it_names(egg_seller):
    pages = bookmarks(egg_seller.reader)
    parts = egg_seller.values.parts
    found = links(egg_seller.reader)
    assert len(found) == len(parts)
    assert {start for start, _ in found} == {1}
    leads = {part.label: page for part, (_, page) in zip(parts, found, strict=True)}
    for label in ("Log", "Fittings", "Materials and money", "Plate: Half-boned stays"):
        assert leads[label] == pages[label]
        assert re.search(rf"{re.escape(label)} ?[. ]+ ?{leads[label]}\b", egg_seller.pages[0])


def test_the_log_is_printed_with_hours_stages_and_photographs(egg_seller):
    words = " ".join(egg_seller.pages)
    assert "10 October · Shift · bands and hems · 2.25 h · sewn → finished" in words
    assert "in all 33 69.75 £ 32.90" in words
    assert sum("logphoto" in address for address in egg_seller.values.photos) == 4


def test_fittings_tell_what_was_seen_and_how_it_turned_out(egg_seller):
    words = " ".join(egg_seller.pages)
    assert "side front, side front seam: take in 1/8 in at each of 4 edges" in words
    assert "dropped: She carries her basket on the hip, never on the head." in words
    assert "carried through, to be confirmed" in words
    assert any("observationphoto" in address for address in egg_seller.values.photos)


def test_photographs_are_embedded_at_the_size_they_are_printed_at(egg_seller):
    """At most 960 dots over 58 mm of height, 420 an inch; only a plate, as wide as the page, has more."""
    # Every page lists the pictures of the whole file.
    sizes = [max(image.image.size) for image in egg_seller.reader.pages[0].images]
    plates = [page.picture for page in egg_seller.values.plates if page.picture]
    assert len(sizes) > len(plates)
    assert sum(size > 960 for size in sizes) == len(plates)


def test_the_same_rows_on_the_same_day_give_the_same_bytes(egg_seller, settings):
    settings.DATA_DIR = egg_seller.folder
    assert print_html(egg_seller.html, photos=egg_seller.values.photos).pdf == egg_seller.pdf


def test_the_hour_of_printing_changes_no_byte_and_the_day_does(people):
    outfit = make_outfit(people.workroom)

    def printed(at):
        given = {"sections": USUAL, "paper": "A4", "system": "in", "by": None, "at": at}
        return print_dossier(dossier_values(outfit, **given))

    noon, later, tomorrow = (printed(NOON + timedelta(hours=hours)) for hours in (0, 3, 24))
    assert noon == later
    assert noon.mark != tomorrow.mark
    assert noon.sha256 != tomorrow.sha256


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
    for words in ("there is nobody to measure", "It names no plate to compare with."):
        assert words in html.replace("\n", " ")
    assert values.sections == ("outfit", "garments", "measuring", "cautions", "dates")
    assert print_dossier(values).pages >= 4


def test_where_nothing_that_was_chosen_says_anything_the_page_says_so(people):
    given = {"paper": "A4", "system": "cm", "by": people.maker, "at": NOON}
    values = dossier_values(make_outfit(people.workroom), sections=["log", "sources"], **given)
    assert values.sections == ()
    assert "There is nothing yet to print of what was chosen." in html_of(values)


def test_every_letter_of_a_long_plan_can_be_read(people):
    """Seven points are the least that a page of reference is set in; common practice, no source."""
    outfit = make_outfit(people.workroom, occasion_on=NOON.date() + timedelta(days=200), hours_a_week=7)
    for number in range(1, 46):
        make_task(outfit, name=f"seam {number}", estimate_hours=2)
    given = {"paper": "Letter", "system": "in", "by": people.maker, "at": NOON}
    values = dossier_values(outfit, sections=["tasks"], **given)
    # 20, 20 and 5 bars.
    assert len(values.making.tasks.drawings) == 3
    sizes: dict[float, str] = {}

    def read(text, matrix, text_matrix, font, size):
        if text.strip():
            height = abs(text_matrix[3] * matrix[3]) * size
            sizes.setdefault(round(height, 1), text)

    for page in PdfReader(BytesIO(print_dossier(values).pdf)).pages:
        page.extract_text(visitor_text=read)
    assert len(sizes) > 2
    assert min(sizes) >= 7, sizes


def test_without_pango_the_sentence_says_what_to_install(monkeypatch):
    real = builtins.__import__

    def without_pango(name, *args, **kwargs):
        if name == "weasyprint":
            raise OSError("cannot load library 'libpango-1.0-0'")
        return real(name, *args, **kwargs)

    monkeypatch.setattr(builtins, "__import__", without_pango)
    with pytest.raises(PdfNotPossible, match=r"Pango is missing \(writing PDFs\)"):
        print_html("<p>", photos={})
