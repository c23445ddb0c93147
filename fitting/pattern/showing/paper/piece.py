"""How a piece is drawn on a sheet: cutting line, seam line, grain, fold, darts, notches, and its words."""

from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.tracing import Mark
from fitting.pattern.calculation.sheets.cutting_line import ring_of
from fitting.pattern.calculation.sheets.sheet import PrintedPiece, notch_lines
from fitting.pattern.showing.paper.canvas import CHAIN, DASHED, INK, SOFT, SOLID, Canvas

# The first line of a label is the piece's name, and larger.
NAME_MM, WORDS_MM, SMALLEST_MM = 7.0, 4.0, 1.6
_ARROW_MM = 4.0


def draw_piece(canvas: Canvas, piece: PrintedPiece, *, fine: float = 1.0) -> None:
    """Draw it where it lies. `fine` makes lines thinner on a miniature."""
    canvas.pen(0.5 * fine)
    canvas.line([complex(x, y) for x, y in ring_of(piece.cut)], closed=True)
    canvas.pen(0.25 * fine, DASHED)
    canvas.curve(piece.shape.outline.sides)
    for mark in piece.shape.marks:
        _draw_mark(canvas, mark, fine)
    canvas.pen(0.5 * fine, SOLID)
    for ends in notch_lines(piece):
        canvas.line(ends)
    _draw_words(canvas, piece, fine)


def _draw_mark(canvas: Canvas, mark: Mark, fine: float) -> None:
    if mark.kind == "grain":
        canvas.pen(0.35 * fine, SOLID)
        canvas.line(mark.points)
        start, end = mark.points
        _arrow(canvas, start, chord(end, start) * fine)
        _arrow(canvas, end, chord(start, end) * fine)
    elif mark.kind == "fold":
        canvas.pen(0.5 * fine, CHAIN)
        canvas.line(mark.points)
        middle = sum(mark.points) / 2
        canvas.text(middle + 2 * fine, "fold", size_mm=3.5 * fine, colour=SOFT)
    elif mark.kind == "dart":
        canvas.pen(0.25 * fine, SOLID)
        canvas.curve([side for line in mark.lines for side in line], closed=len(mark.lines) == 4)
    elif mark.kind == "pleat":
        canvas.pen(0.25 * fine, DASHED)
        canvas.line(mark.points[:2])
        canvas.line(mark.points[2:])


def _arrow(canvas: Canvas, tip: Point, way: Point) -> None:
    for side in (1j, -1j):
        canvas.line([tip, tip - _ARROW_MM * way + _ARROW_MM / 2 * way * side])


def _draw_words(canvas: Canvas, piece: PrintedPiece, fine: float) -> None:
    """About the middle of the widest free place, as large as there is room for."""
    if not piece.words:
        return
    middle, radius = piece.label_place
    sizes = [NAME_MM, *[WORDS_MM] * (len(piece.words) - 1)]
    widest = max(canvas.face.width_of(words, size) for words, size in zip(piece.words, sizes, strict=True))
    high = sum(1.4 * size for size in sizes)
    fit = min(fine, 2 * radius / abs(complex(widest, high)))
    fit = max(fit, SMALLEST_MM / WORDS_MM)
    y = middle.imag - fit * high / 2
    for words, size in zip(piece.words, sizes, strict=True):
        y += 1.2 * fit * size
        canvas.text(complex(middle.real, y), words, size_mm=fit * size, centred=True, colour=INK)
        y += 0.2 * fit * size


def words_on(piece: PrintedPiece) -> list[str]:
    return [*piece.words, "fold"]
