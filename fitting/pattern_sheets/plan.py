"""The page plan as SVG, for a page of the site: where each piece lies and which pages are printed."""

from django.utils.safestring import SafeString, mark_safe

from fitting.calculation.sheets.cutting_line import ring_of
from fitting.calculation.sheets.paper import Tile
from fitting.calculation.sheets.sheet import Sheet

_MARGIN_MM = 10.0
_LINES = 600  # lines side by side along the longer side


def draw_page_plan(sheet: Sheet) -> SafeString:
    """Its viewBox is in millimetres of the sheet; every word in it is ours."""
    tiling = sheet.tiling
    wide = (tiling.columns - 1) * tiling.step_mm[0] + tiling.paper.prints_mm[0]
    high = (tiling.rows - 1) * tiling.step_mm[1] + tiling.paper.prints_mm[1]
    letter = min(tiling.paper.prints_mm) / 4
    line = max(wide, high) / _LINES
    pages = "".join(_page(page.tile, letter if sheet.scale == 1 else 0.0, line) for page in sheet.pages)
    pieces = "".join(
        f'<path class="work-old" fill="none" stroke-width="{line:.2f}" d="M'
        + "L".join(f"{x:.1f} {y:.1f}" for x, y in ring_of(piece.cut.simplify(line / 3)))
        + 'Z"/>'
        for piece in sheet.pieces
    )
    box = f"{-_MARGIN_MM} {-_MARGIN_MM} {wide + 2 * _MARGIN_MM:.1f} {high + 2 * _MARGIN_MM:.1f}"
    return mark_safe(  # noqa: S308
        f'<svg xmlns="http://www.w3.org/2000/svg" class="page-plan" viewBox="{box}" role="img"'
        ' aria-labelledby="page-plan-title page-plan-desc"><title id="page-plan-title">Page plan</title>'
        f'<desc id="page-plan-desc">{len(sheet.pieces)} pieces on {len(sheet.pages)} pages, in {tiling.rows}'
        f" rows and {tiling.columns} columns; blank pages are left out.</desc>{pages}{pieces}</svg>"
    )


def _page(tile: Tile, letter: float, line: float) -> str:
    """Its outline and its name; a miniature has one page, which needs no name."""
    x, y = tile.left + tile.width / 2, tile.top + tile.height / 2
    dash = f"{3 * line:.1f}"
    outline = (
        f'<rect class="work-level" x="{tile.left:.1f}" y="{tile.top:.1f}" width="{tile.width:.1f}"'
        f' height="{tile.height:.1f}" fill="none" stroke-width="{line:.2f}"'
        f' stroke-dasharray="{dash} {dash}"/>'
    )
    if not letter:
        return outline
    return (
        f'{outline}<text class="work-word" x="{x:.1f}" y="{y:.1f}" text-anchor="middle"'
        f' font-size="{letter:.1f}">{tile.place}</text>'
    )
