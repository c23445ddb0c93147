"""Sheets as a PDF: first the page plan with its test squares, then every page that carries something.

Drawn straight into the file, within the request and without a layout engine: sizes are exact by one operator,
a gown of 86 pages takes under a second, and neither Pango nor a process of its own is needed. Dossiers are
text and go through WeasyPrint.
"""

from io import BytesIO

import pydyf

from fitting.pattern.calculation.sheets.paper import PAPERS, Paper
from fitting.pattern.calculation.sheets.sheet import Page, Sheet
from fitting.pattern.showing.paper.canvas import DOTTED, INK, SOFT, SOLID, Canvas
from fitting.pattern.showing.paper.cover import SheetTitle, draw_cover, draw_squares, words_of_cover
from fitting.pattern.showing.paper.font import Typeface
from fitting.pattern.showing.paper.piece import draw_piece, words_on

_CROSS_MM = 4.0
_TRIM = "trim this margin"
_ALWAYS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ page of, to · place not pasted here"


def full_size_pdf(sheet: Sheet, title: SheetTitle) -> bytes:
    """The page plan on a page of the same paper, then the pages in the order of the plan."""
    face, paper = _face(sheet, title), sheet.tiling.paper
    if paper.name == "roll":
        paper = Paper.roll(paper.width_mm, PAPERS["A4"].height_mm)
    cover = Canvas(width_mm=paper.width_mm, height_mm=paper.height_mm, face=face)
    draw_cover(cover, sheet, title, margin_mm=paper.margin_mm)
    return _written([cover, *(_page(sheet, page, title, face) for page in sheet.pages)], face, title)


def miniature_pdf(sheet: Sheet, title: SheetTitle) -> bytes:
    """All pieces on one page, with a test square beneath them where there is room."""
    face, paper = _face(sheet, title), sheet.tiling.paper
    canvas = Canvas(width_mm=paper.width_mm, height_mm=paper.height_mm, face=face)
    margin_mm, (across, down) = paper.margin_mm, paper.prints_mm
    with canvas.part(left=margin_mm, top=margin_mm, width=across, height=down, start=0j):
        for piece in sheet.pieces:
            draw_piece(canvas, piece, fine=0.6)
    foot = complex(margin_mm, paper.height_mm - margin_mm / 2)
    canvas.text(foot, title.line, size_mm=3.0, colour=SOFT)
    draw_squares(
        canvas, complex(paper.width_mm - margin_mm - 10, paper.height_mm - margin_mm - 10), small=True
    )
    return _written([canvas], face, title)


def _page(sheet: Sheet, page: Page, title: SheetTitle, face: Typeface) -> Canvas:
    tiling, tile = sheet.tiling, page.tile
    margin_mm = tiling.paper.margin_mm
    canvas = Canvas(width_mm=tiling.paper.width_mm, height_mm=tiling.paper.height_mm, face=face)
    with canvas.part(
        left=margin_mm,
        top=margin_mm,
        width=tile.width,
        height=tile.height,
        start=complex(tile.left, tile.top),
    ):
        for piece in page.pieces:
            draw_piece(canvas, piece)
        canvas.pen(0.25, SOLID)
        for x, y in tiling.register_marks():
            if -_CROSS_MM < x - tile.left < tile.width + _CROSS_MM and (
                -_CROSS_MM < y - tile.top < tile.height + _CROSS_MM
            ):
                _cross(canvas, complex(x, y))
    _edges(canvas, sheet, page, margin_mm)
    words = f"{tile.place} · page {page.number} of {len(sheet.pages)} · {title.line}"
    canvas.text(complex(margin_mm + 2, margin_mm - 2), words, size_mm=3.0, colour=SOFT)
    return canvas


def _cross(canvas: Canvas, at: complex) -> None:
    canvas.line([at - _CROSS_MM, at + _CROSS_MM])
    canvas.line([at - _CROSS_MM * 1j, at + _CROSS_MM * 1j])
    half = _CROSS_MM / 2
    canvas.line([at - half, at - half * 1j, at + half, at + half * 1j], closed=True)


def _edges(canvas: Canvas, sheet: Sheet, page: Page, margin_mm: float) -> None:
    """The frame of what is printed; where the next page is laid on; and which page that is."""
    tiling, tile = sheet.tiling, page.tile
    places = {(one.tile.row, one.tile.column): one.tile.place for one in sheet.pages}
    canvas.pen(0.15, SOLID, SOFT)
    canvas.rectangle(margin_mm, margin_mm, tile.width, tile.height)
    _trim_marks(
        canvas,
        margin_mm,
        left=(tile.row, tile.column - 1) in places,
        top=(tile.row - 1, tile.column) in places,
    )
    canvas.pen(0.15, DOTTED, SOFT)
    right, foot = margin_mm + tile.width, margin_mm + tile.height
    beside = places.get((tile.row, tile.column + 1))
    if beside:
        x = right - tiling.overlap_mm
        canvas.line([complex(x, margin_mm), complex(x, foot)])
        canvas.text(complex(x + 1, margin_mm + tile.height / 2), f"to {beside}", size_mm=3.0, colour=SOFT)
    below = places.get((tile.row + 1, tile.column))
    if below:
        y = foot - tiling.overlap_mm
        canvas.line([complex(margin_mm, y), complex(right, y)])
        canvas.text(complex(margin_mm + tile.width / 2, y + 4), f"to {below}", size_mm=3.0, colour=SOFT)


def _trim_marks(canvas: Canvas, margin_mm: float, *, left: bool, top: bool) -> None:
    """Where a page is laid on another, its margin there is cut off: short lines at both ends, and a word."""
    across, down = canvas.width_mm, canvas.height_mm
    near, far = 2.0, margin_mm - 1.5
    canvas.pen(0.3, SOLID)
    if left:
        for y, to in ((near, far), (down - near, down - far)):
            canvas.line([complex(margin_mm, y), complex(margin_mm, to)])
        canvas.text(complex(margin_mm - 2, down / 2), _TRIM, size_mm=3.0, centred=True, along=-1j)
    if top:
        for x, to in ((near, far), (across - near, across - far)):
            canvas.line([complex(x, margin_mm), complex(to, margin_mm)])
        canvas.text(complex(across - margin_mm - 22, margin_mm - 2), _TRIM, size_mm=3.0)


def _face(sheet: Sheet, title: SheetTitle) -> Typeface:
    said = [words for piece in sheet.pieces for words in words_on(piece)]
    return Typeface([*said, *words_of_cover(title), title.line, _TRIM, _ALWAYS])


def _written(canvases: list[Canvas], face: Typeface, title: SheetTitle) -> bytes:
    pdf, file = pydyf.PDF(), BytesIO()
    font = face.add_to(pdf)
    for canvas in canvases:
        canvas.add_to(pdf, font)
    pdf.info["Title"] = pydyf.String(title.line)
    pdf.catalog["Lang"] = pydyf.String("en-GB")
    pdf.catalog["ViewerPreferences"] = pydyf.Dictionary({"PrintScaling": "/None"})
    pdf.write(file)
    return file.getvalue()


__all__ = ["INK", "full_size_pdf", "miniature_pdf"]
