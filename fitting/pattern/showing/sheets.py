"""Pattern sheets as a sheet to keep: how many pages, which of them each piece lies on, and the page plan."""

from catalogue.tracing.calculation.outline import FLAT_TO
from fitting.pattern.calculation.sheets.cutting_line import ring_of
from fitting.pattern.calculation.sheets.sheet import Page, PrintedPiece, Sheet
from fitting.pattern.calculation.sums.sheet_answer import (
    AnswerLine,
    Grid,
    SheetAnswer,
    Sketch,
    SketchWord,
    Stroke,
    number,
)

_ROUGH_MM = 1.0


def sheets_sheet(sheet: Sheet, *, made: str, allowance: str) -> SheetAnswer:
    """`made` says how the pieces came about, `allowance` is the usual one as typed."""
    paper = sheet.tiling.paper.name
    one = len(sheet.pages) == 1
    lines = [
        AnswerLine(label="pages", parts=(f"{len(sheet.pages)} {'page' if one else 'pages'} of {paper}",)),
        AnswerLine(label="pieces", parts=(made,)),
        AnswerLine(label="usual allowance", parts=(allowance,)),
    ]
    if sheet.scale != 1:
        lines.append(AnswerLine(label="size", parts=(f"1 to {number(1 / sheet.scale)}",)))
    rows = tuple(((piece.shape.name,), (", ".join(_pages_of(piece, sheet)),)) for piece in sheet.pieces)
    return SheetAnswer(
        figures={"pages": len(sheet.pages)},
        lines=tuple(lines),
        grids=() if one else (Grid(caption="Where each piece lies", heads=("piece", "pages"), rows=rows),),
        drawings=(_plan(sheet),),
    )


def _pages_of(piece: PrintedPiece, sheet: Sheet) -> list[str]:
    return [page.tile.place for page in sheet.pages if piece in page.pieces]


def _plan(sheet: Sheet) -> Sketch:
    tolerance = max(FLAT_TO, _ROUGH_MM * sheet.scale)
    return Sketch(
        title="Page plan",
        says="Every page that is printed, by its name, and the pieces on them; blank pages are left out.",
        strokes=(
            *(_outline(page) for page in sheet.pages),
            *(
                Stroke(points=tuple(ring_of(piece.cut.simplify(tolerance))), look="old", is_closed=True)
                for piece in sheet.pieces
            ),
        ),
        words=tuple(
            SketchWord(
                at=(page.tile.left + page.tile.width / 2, page.tile.top + page.tile.height / 2),
                parts=(page.tile.place,),
            )
            for page in sheet.pages
            if sheet.scale == 1
        ),
    )


def _outline(page: Page) -> Stroke:
    tile = page.tile
    right, foot = tile.left + tile.width, tile.top + tile.height
    corners = ((tile.left, tile.top), (right, tile.top), (right, foot), (tile.left, foot))
    return Stroke(points=corners, look="level", is_closed=True)
