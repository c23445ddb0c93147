"""Sheets read back: sizes by pypdf from the page itself, and measured on the printed picture in pixels."""

import io
import shutil
import subprocess

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader
from pypdf.generic import ContentStream

from fitting.pattern.calculation.sheets.miniature import miniature_sheet
from fitting.pattern.calculation.sheets.paper import PAPERS, Paper
from fitting.pattern.calculation.sheets.sheet import (
    Allowances,
    PieceToPrint,
    full_size_sheet,
)
from fitting.pattern.showing.paper.cover import SheetTitle
from fitting.pattern.showing.paper.document import full_size_pdf, miniature_pdf
from fixtures.demo.draw.garments import day_bodice
from tests.makers.drafts import plate_to_grade

MM = 72 / 25.4
TITLE = SheetTitle(garment="Day bodice, Größe 1", made="as drawn", printed_on="25 November 2026")
PAPERS_TO_TRY = [*PAPERS.values(), Paper.roll(610)]


def sheet_on(paper: Paper):
    pieces = [
        PieceToPrint(shape=piece.shape, words=(piece.shape.name, "as drawn, 25 November 2026"))
        for piece in plate_to_grade(day_bodice.PLATE)
    ]
    return full_size_sheet(pieces, paper=paper, allowances=Allowances(usual_mm=12.7, by_edge={}))


def read(pdf: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(pdf))


def rectangles_mm(reader: PdfReader, page: int) -> list[tuple[float, float]]:
    """Widths and heights of the rectangles of a page, by its own operators: its first cm and every re."""
    operations = ContentStream(reader.pages[page].get_contents(), reader).operations
    scale = next(float(given[0]) for given, operator in operations if operator == b"cm")
    return [
        (float(given[2]) * scale / MM, float(given[3]) * scale / MM)
        for given, operator in operations
        if operator == b"re"
    ]


@pytest.mark.parametrize("paper", PAPERS_TO_TRY, ids=lambda paper: paper.name)
def test_pages_and_squares_have_their_sizes_to_a_twentieth_of_a_millimetre(paper):
    sheet = sheet_on(paper)
    reader = read(full_size_pdf(sheet, TITLE))
    assert len(reader.pages) == len(sheet.pages) + 1
    for page in reader.pages[1:]:
        size = float(page.mediabox.width) / MM, float(page.mediabox.height) / MM
        assert size == pytest.approx((sheet.tiling.paper.width_mm, sheet.tiling.paper.height_mm), abs=0.05)
    squares = rectangles_mm(reader, 0)[:2]
    assert squares[0] == pytest.approx((100, 100), abs=0.05)
    assert squares[1] == pytest.approx((101.6, 101.6), abs=0.05)


def test_a_traced_edge_has_its_length_on_the_page():
    sheet = sheet_on(Paper.roll(914))
    reader = read(full_size_pdf(sheet, TITLE))
    operations = ContentStream(reader.pages[1].get_contents(), reader).operations
    scale = next(float(given[0]) for given, operator in operations if operator == b"cm") / MM
    drawn = [[float(value) * scale for value in given] for given, operator in operations if operator == b"c"]
    ends = [complex(x, y) for *_, x, y in drawn]
    outline = sheet.pieces[0].shape.outline
    for end, side in zip(ends, outline.sides, strict=False):
        assert abs(end - side.end) < 0.05


def test_the_100_mm_square_is_100_mm_of_pixels(tmp_path):
    (tmp_path / "sheets.pdf").write_bytes(full_size_pdf(sheet_on(PAPERS["A4"]), TITLE))
    dots_an_inch = 508  # 20 pixels a millimetre
    subprocess.run(
        [
            shutil.which("pdftoppm"),
            "-r",
            str(dots_an_inch),
            "-f",
            "1",
            "-l",
            "1",
            "-gray",
            "-png",
            "sheets.pdf",
            "page",
        ],
        cwd=tmp_path,
        check=True,
        timeout=60,
    )
    (picture,) = tmp_path.glob("page*.png")
    dark = np.asarray(Image.open(picture).convert("L")) < 128
    rows = np.flatnonzero(dark[:, 1000])
    top = next(row for row in rows if dark[row, 300:1900].all())
    line = np.flatnonzero(dark[top + 200, 150:2300]) + 150
    left, right = line[0], line[-1]
    assert right - left == pytest.approx(100 * 20, abs=6)
    foot = next(row for row in rows if row > top + 500 and dark[row, 300:1900].all())
    assert foot - top == pytest.approx(100 * 20, abs=6)


def test_words_can_be_searched_and_say_what_version_a_piece_is_of():
    reader = read(full_size_pdf(sheet_on(PAPERS["A3"]), TITLE))
    text = "\n".join(page.extract_text() for page in reader.pages)
    assert "Day bodice, Größe 1" in text
    for piece in plate_to_grade(day_bodice.PLATE):
        assert piece.shape.name in text
    assert text.count("as drawn, 25 November 2026") >= 7


def test_a_letter_that_the_face_lacks_does_not_stop_the_sheets():
    title = SheetTitle(garment="胴衣 bodice", made="as drawn", printed_on="today")
    assert "bodice" in read(full_size_pdf(sheet_on(PAPERS["A3"]), title)).pages[0].extract_text()


def test_viewers_are_asked_not_to_fit_the_page_to_the_paper():
    reader = read(full_size_pdf(sheet_on(PAPERS["A4"]), TITLE))
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert all("/FontFile2" in page["/Resources"]["/Font"]["/F"]["/DescendantFonts"][0]["/FontDescriptor"]
               for page in reader.pages)  # fmt: skip


def test_a_miniature_is_one_page_with_a_square_of_its_own():
    pieces = [
        PieceToPrint(shape=one.shape, words=(one.shape.name,)) for one in plate_to_grade(day_bodice.PLATE)
    ]
    sheet = miniature_sheet(pieces, paper=PAPERS["A4"], scale=3 / 16, allowance_mm=3)
    reader = read(miniature_pdf(sheet, TITLE))
    assert len(reader.pages) == 1
    assert rectangles_mm(reader, 0)[-1] == pytest.approx((10, 10), abs=0.05)
