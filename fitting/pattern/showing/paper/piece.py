"""How a piece is drawn on a sheet: its lines, its levels, its marks with their numbers, and its words."""

from collections.abc import Iterator

from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.outline import Edge
from catalogue.tracing.calculation.tracing import Mark
from fitting.pattern.calculation.sheets.cutting_line import ring_of
from fitting.pattern.calculation.sheets.sheet import PrintedPiece, notch_lines
from fitting.pattern.showing.paper.canvas import CHAIN, DASHED, DOTTED, INK, SOFT, SOLID, Canvas

# The first line of a label is the piece's name, and larger.
NAME_MM, WORDS_MM, SMALLEST_MM = 7.0, 4.0, 1.6
_ARROW_MM = 4.0
_SMALL_MM = 2.8  # names of edges and levels, numbers of notches
_EDGE_IN_MM = 2.0  # how far within the seam line the name of an edge stands
_PLACES = (0.5, 0.35, 0.65, 0.2, 0.8)  # along an edge, the first that no notch takes
_ROOM = 0.7  # of an edge, for its name


def draw_piece(canvas: Canvas, piece: PrintedPiece, *, fine: float = 1.0) -> None:
    """Draw it where it lies. `fine` makes lines thinner on a miniature."""
    canvas.pen(0.5 * fine)
    canvas.line([complex(x, y) for x, y in ring_of(piece.cut)], closed=True)
    canvas.pen(0.25 * fine, DASHED)
    canvas.curve(piece.shape.outline.sides)
    _draw_levels(canvas, piece, fine)
    for mark in piece.shape.marks:
        _draw_mark(canvas, mark, fine)
    _draw_notches(canvas, piece, fine)
    _draw_edge_names(canvas, piece, fine)
    _draw_words(canvas, piece, fine)


def _draw_levels(canvas: Canvas, piece: PrintedPiece, fine: float) -> None:
    for name, line in piece.piece.levels.items():
        canvas.pen(0.2 * fine, DOTTED, SOFT)
        canvas.line(line)
        start, end = (line[0], line[-1]) if line[0].real <= line[-1].real else (line[-1], line[0])
        along = chord(start, end)
        canvas.text(
            start + fine * (4 * along - 1j * along), name, size_mm=_SMALL_MM * fine, colour=SOFT, along=along
        )


def _draw_notches(canvas: Canvas, piece: PrintedPiece, fine: float) -> None:
    """Each as a short line; its number stands within."""
    numbers = iter(piece.piece.numbers)
    for within, out in notch_lines(piece):
        canvas.pen(0.5 * fine, SOLID)
        canvas.line((within, out))
        if number := next(numbers, None):
            at = within + 2.2 * fine * chord(out, within) + 1j * fine
            canvas.text(at, str(number), size_mm=_SMALL_MM * fine, centred=True)


def _draw_edge_names(canvas: Canvas, piece: PrintedPiece, fine: float) -> None:
    """Along each edge, within the seam line; an edge too short for its name has none."""
    notches = [within for within, _ in notch_lines(piece)]
    inwards = 1j * piece.shape.outline.turns
    for edge in piece.shape.outline.edges():
        size_mm = _SMALL_MM * fine
        wide = canvas.face.width_of(edge.name, size_mm)
        if not edge.name or wide > _ROOM * edge.length:
            continue
        for at, along in _places_on(edge):
            place = at + (_EDGE_IN_MM + 0.4 * _SMALL_MM) * fine * inwards * along
            if all(abs(notch - place) > wide / 2 + 2 * fine for notch in notches):
                way = along if along.real >= 0 else -along
                canvas.text(
                    place + 0.35j * size_mm * way, edge.name, size_mm=size_mm, centred=True, along=way,
                    colour=SOFT,
                )  # fmt: skip
                break


def _places_on(edge: Edge) -> Iterator[tuple[Point, Point]]:
    """Points along an edge, with the direction that it takes there."""
    lengths = [side.length() for side in edge.sides]
    for part in _PLACES:
        left, index = part * sum(lengths), 0
        while left > lengths[index] and index < len(lengths) - 1:
            left, index = left - lengths[index], index + 1
        t = left / lengths[index]
        side = edge.sides[index]
        yield side.at(t), chord(side.at(max(0.0, t - 0.01)), side.at(min(1.0, t + 0.01)))


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
    edges = (edge.name for edge in piece.shape.outline.edges())
    return [*piece.words, *piece.piece.levels, *edges, "fold", "0123456789"]
