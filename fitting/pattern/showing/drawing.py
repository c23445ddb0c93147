"""The pattern drawn for a page: a sheet of pattern work; where every page of the full-size sheets goes."""

from catalogue.drawing.showing import Colour, element, line, ring, text
from catalogue.drawing.showing import drawing as drawn
from catalogue.lengths.showing import Writing
from fitting.pattern.calculation.sheets.cutting_line import ring_of
from fitting.pattern.calculation.sheets.paper import Tile
from fitting.pattern.calculation.sheets.sheet import Sheet
from fitting.pattern.calculation.sums.sheet_answer import Sketch, SketchWord, Stroke, written

_LOOKS = {  # fill, stroke
    "old": ("none", Colour.INK_SOFT),
    "new": ("none", Colour.PIN_RED),
    "cloth": (Colour.CARD, Colour.INK),
    "level": ("none", Colour.INK_SOFT),
}
_DASHED = ("new", "level")
# Of the page plan: millimetres, and how many lines lie side by side along its longer side.
_PLAN_MARGIN_MM, _PLAN_LINES = 10.0, 600
_MARGIN, _LETTER, _HAIR = 0.06, 0.035, 0.004  # parts of the drawing's larger side


def draw_work(drawing: Sketch, writing: Writing, *, name: str) -> str:
    """Full lines for what is drawn, dashed for what is new.

    The SVG element, its viewBox in millimetres. `name` keeps its ids apart on a page of several.
    """
    points = [point for stroke in drawing.strokes for point in stroke.points]
    left, top = min(x for x, _ in points), min(y for _, y in points)
    width, height = max(x for x, _ in points) - left, max(y for _, y in points) - top
    size = max(width, height)
    margin = _MARGIN * size
    # Words may be wider than a narrow piece.
    aside = max(0.0, (0.3 * size - width) / 2)
    box = (left - margin - aside, top - margin, width + 2 * (margin + aside), height + 2 * margin)
    return drawn(
        *(_stroke(stroke, size) for stroke in drawing.strokes),
        *(_word(word, size, writing) for word in drawing.words),
        name=name,
        css="work-drawing",
        box=box,
        title=drawing.title,
        says=drawing.says,
    )


def _stroke(stroke: Stroke, size: float) -> str:
    fill, colour = _LOOKS[stroke.look]
    return element(
        "path",
        css=f"work-{stroke.look}",
        d=ring(stroke.points, is_closed=stroke.is_closed),
        fill=fill,
        stroke=colour,
        stroke_width=_HAIR * size,
        stroke_dasharray=4 * _HAIR * size if stroke.look in _DASHED else None,
        stroke_linejoin="round",
    )


def _word(word: SketchWord, size: float, writing: Writing) -> str:
    letter = _LETTER * size
    x, y = word.at
    return text(x, y - 0.25 * letter, written(word.parts, writing.length), size=letter, anchor=word.anchor)


def draw_page_plan(sheet: Sheet) -> str:
    """Its viewBox is in millimetres of the sheet."""
    tiling = sheet.tiling
    wide = (tiling.columns - 1) * tiling.step_mm[0] + tiling.paper.prints_mm[0]
    high = (tiling.rows - 1) * tiling.step_mm[1] + tiling.paper.prints_mm[1]
    letter = min(tiling.paper.prints_mm) / 4
    hair = max(wide, high) / _PLAN_LINES
    cuts = (ring(ring_of(piece.cut.simplify(hair / 3))) for piece in sheet.pieces)
    return drawn(
        *(_page(page.tile, letter if sheet.scale == 1 else 0.0, hair) for page in sheet.pages),
        *(line(cut, Colour.INK_SOFT, hair) for cut in cuts),
        name="page-plan",
        css="page-plan",
        box=(-_PLAN_MARGIN_MM, -_PLAN_MARGIN_MM, wide + 2 * _PLAN_MARGIN_MM, high + 2 * _PLAN_MARGIN_MM),
        title="Page plan",
        says=f"{len(sheet.pieces)} pieces on {len(sheet.pages)} pages, in {tiling.rows}"
        f" rows and {tiling.columns} columns; blank pages are left out.",
    )


def _page(tile: Tile, letter: float, hair: float) -> str:
    """Its outline and its name; a miniature has one page, which needs no name."""
    look = {"fill": "none", "stroke": Colour.INK_SOFT, "stroke_width": hair, "stroke_dasharray": 3 * hair}
    outline = element("rect", x=tile.left, y=tile.top, width=tile.width, height=tile.height, **look)
    if not letter:
        return outline
    return outline + text(tile.left + tile.width / 2, tile.top + tile.height / 2, tile.place, size=letter)
