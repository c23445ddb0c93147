"""The first page, with two squares to measure before anything is cut; and where every page goes."""

from dataclasses import dataclass

from fitting.pattern.calculation.sheets.cutting_line import ring_of
from fitting.pattern.calculation.sheets.sheet import Sheet
from fitting.pattern.showing.paper.canvas import DOTTED, INK, SOFT, SOLID, Canvas

HUNDRED_MM, FOUR_INCHES_MM = 100.0, 4 * 25.4
_SQUARES = ((HUNDRED_MM, "100 mm"), (FOUR_INCHES_MM, "4 in"))
_ADVICE = (
    "Print at 100 %, without “fit to page”.",
    "Measure both squares; if either is off, print again before cutting.",
    "Trim the margins that say so, and lay each page on the dotted lines of the one before, cross on cross.",
    "Solid: cutting line. Dashed: seam line.",
)
_PLAN = "Page plan"
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 pages"


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetTitle:
    """What the sheets are of: `made` says how the pieces came about, `printed_on` is the date in words.

    `version`: of the paper pattern, which counts up with every alteration that reaches it.
    """

    garment: str
    made: str
    printed_on: str
    allowance: str = ""
    version: str = ""

    @property
    def line(self) -> str:
        return " · ".join(filter(None, (self.garment, self.version, self.made, self.printed_on)))


def words_of_cover(title: SheetTitle) -> list[str]:
    return [title.line, title.allowance, *_ADVICE, _PLAN, _LETTERS,
            *(name for _, name in _SQUARES), "10 mm"]  # fmt: skip


def draw_cover(canvas: Canvas, sheet: Sheet, title: SheetTitle, *, margin_mm: float) -> None:
    at = complex(margin_mm, margin_mm + 7)
    canvas.text(at, title.garment, size_mm=7.0)
    about = [f"{title.made}, printed {title.printed_on}", title.version, title.allowance, *_ADVICE]
    for row, words in enumerate(filter(None, about)):
        canvas.text(at + 1j * (7 + 4.6 * row), words, size_mm=3.4)
    top = margin_mm + 46
    draw_squares(canvas, complex(margin_mm, top))
    left = margin_mm + FOUR_INCHES_MM + 8
    _draw_plan(
        canvas, sheet, left, top, canvas.width_mm - margin_mm - left, canvas.height_mm - margin_mm - top
    )


def draw_squares(canvas: Canvas, at: complex, *, small: bool = False) -> None:
    """The two squares one under the other; on a miniature one of 10 mm."""
    for size_mm, name in ((10.0, "10 mm"),) if small else _SQUARES:
        canvas.pen(0.2, SOLID, INK)
        canvas.rectangle(at.real, at.imag, size_mm, size_mm)
        words_mm = 2.2 if small else 5.0
        canvas.text(at + (1 + 1j) * size_mm / 2, name, size_mm=words_mm, centred=True)
        at += 1j * (size_mm + 6)


def _draw_plan(canvas: Canvas, sheet: Sheet, left: float, top: float, width: float, height: float) -> None:
    """The whole sheet small, its pages by name; those not printed are left out."""
    tiling = sheet.tiling
    canvas.text(
        complex(left, top + 4),
        f"{_PLAN}: {len(sheet.pages)} page{'' if len(sheet.pages) == 1 else 's'}",
        size_mm=4.0,
    )
    whole_x = (tiling.columns - 1) * tiling.step_mm[0] + tiling.paper.prints_mm[0]
    whole_y = (tiling.rows - 1) * tiling.step_mm[1] + tiling.paper.prints_mm[1]
    factor = min(width / whole_x, (height - 8) / whole_y)
    start = complex(left, top + 8)
    for piece in sheet.pieces:
        canvas.pen(0.2, SOLID, INK)
        canvas.line([start + factor * complex(x, y) for x, y in ring_of(piece.cut)], closed=True)
    for page in sheet.pages:
        tile = page.tile
        corner = start + factor * complex(tile.left, tile.top)
        canvas.pen(0.15, DOTTED, SOFT)
        canvas.rectangle(corner.real, corner.imag, factor * tile.width, factor * tile.height)
        middle = corner + factor * complex(tile.width, tile.height) / 2
        size_mm = min(4.0, factor * tile.height / 3)
        canvas.text(middle, tile.place, size_mm=size_mm, centred=True, colour=SOFT)
