"""The drawing of a lay: the cloth as it lies on the table, its length from left to right.

Drawn in millimetres of cloth, seen from the side that pieces are chalked on; folded cloth has its fold at
the top. Mirrored copies have their own chalk and say so. Cutting lines are full, sewing lines dotted, piecing
lines dashed; an arrow along the grain of each piece; thin lines where the repeat begins anew, and a dot where
each piece is matched to it.
"""

import math
from collections.abc import Iterator

import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from catalogue.drawing.showing import Colour, disc, drawing, element, line, ring, text, track
from catalogue.lengths.calculation.lengths import System, format_length
from fitting.laying.calculation.lay_out import Arrangement
from fitting.laying.calculation.piece import Outline
from fitting.laying.calculation.strip import Placement, placed_outline

CHALK = {False: Colour.PAPER, True: Colour.WASH_BLUE}  # as drawn, mirrored

_TICK_MM = {"in": 228.6, "cm": 250.0}  # a quarter of a yard, of a metre
_SHAPE, _MOST_ROWS = 2.0, 40  # a drawing is to be as much wider than high; in no more rows
_MOST_LINES = 200  # of a repeat, in one row
_LETTER = 0.55  # the width of a letter, as a part of its height


class _LaySheet:
    """Sizes that follow the cloth's width, so that narrow cloth and wide are drawn alike.

    A long lay is drawn in rows, each some yards or metres of it, so that it fills a page and not a line.
    """

    def __init__(self, lay: Arrangement, system: System) -> None:
        cloth = lay.cloth
        self.width = lay.order.width_mm
        self.selvedge = cloth.selvedge_mm * (1 - cloth.shrinkage_width)
        # Folded, both selvedges lie at the lower edge, one on the other.
        self.above = 0.0 if lay.order.is_folded else self.selvedge
        self.whole = self.above + self.width + self.selvedge
        # Bought cloth is drawn as it lies once shrunk.
        self.length = lay.length_to_buy_mm * (1 - cloth.shrinkage_length)
        self.letter = self.width / 30
        self.hair = self.width / 800
        self.margin = 1.2 * self.letter
        self.row_height = self.whole + 4.5 * self.letter
        self.row_length = min(self._row_lengths(_TICK_MM[system]), key=self._off_shape)

    def _row_lengths(self, tick: float) -> Iterator[float]:
        """In one row, in two and so on: rows of one length, each some quarters of a yard or metre."""
        yield self.length
        for count in range(2, _MOST_ROWS + 1):
            yield math.ceil(self.length / count / tick) * tick

    def _off_shape(self, row_length: float) -> float:
        """How far the drawing is from the shape that fills a page."""
        return abs(math.log(row_length / (self.rows(row_length) * self.row_height) / _SHAPE))

    def rows(self, row_length: float) -> int:
        return math.ceil(self.length / row_length - 1e-6)


def draw_lay(lay: Arrangement, *, system: System = "in", name: str = "lay", of: str = "") -> str:
    """The SVG element, its viewBox in millimetres. `name` keeps its ids apart on a page of several.

    `of`: which version of the pattern is laid; it stands beneath.
    """
    sheet = _LaySheet(lay, system)
    count = sheet.rows(sheet.row_length)
    rows = [_row(sheet, lay, number, system, name) for number in range(count)]
    top, high = -sheet.above - sheet.margin, count * sheet.row_height + sheet.margin
    if of:
        rows.append(text(0.0, top + high, of, size=sheet.letter, anchor="start"))
        high += sheet.letter
    box = (-sheet.margin, top, sheet.row_length + 2 * sheet.margin, high)
    title = f"Arrangement of the {of}" if of else "Arrangement"
    return drawing(*rows, name=name, css="lay", box=box, title=title, says=_described(lay, system))


def _row(sheet: _LaySheet, lay: Arrangement, number: int, system: System, name: str) -> str:
    """One stretch of the cloth; a piece that reaches into the next is drawn in both."""
    start = number * sheet.row_length
    end = min(start + sheet.row_length, sheet.length)
    window = f"{name}-row-{number}"
    whole = {"x": start, "y": -sheet.above, "width": end - start, "height": sheet.whole}
    pieces = (part for placement in lay.placements for part in _piece(sheet, lay, placement, start, end))
    seen = (*_cloth(sheet, lay, start, end), *pieces, *_repeat(sheet, lay, start, end))
    return element(
        "g",
        element("clipPath", element("rect", **whole), id=window),
        element("g", *seen, clip_path=f"url(#{window})"),
        *_ruler(sheet, lay, system, start, end),
        transform=f"translate({-start:.2f} {number * sheet.row_height:.2f})",
    )


def _described(lay: Arrangement, system: System) -> str:
    width, length = (format_length(mm, system=system) for mm in (lay.cloth.width_mm, lay.length_mm))
    folded = ", folded" if lay.order.is_folded else ""
    copies = len(lay.placements)
    return f"{copies} pieces on cloth {width} wide{folded}, {length} long, {lay.density:.0%} of it in pieces."


def _cloth(sheet: _LaySheet, lay: Arrangement, start: float, end: float) -> Iterator[str]:
    along = {"x": start, "width": end - start}
    whole = {"y": -sheet.above, "height": sheet.whole}
    yield element("rect", css="lay-selvedge", **along, **whole, fill=Colour.LINE)
    yield element("rect", css="lay-cloth", **along, y=0, height=sheet.width, fill=Colour.CARD)
    yield line(track("M", lay.length_mm, -sheet.above, "v", sheet.whole), Colour.INK, 2 * sheet.hair)
    if lay.order.is_folded:
        yield line(track("M", start, 0, "H", end), Colour.PIN_RED, 6 * sheet.hair, css="lay-fold")


def _repeat(sheet: _LaySheet, lay: Arrangement, start: float, end: float) -> Iterator[str]:
    """Where it begins anew, unless that is too fine to be seen, and where each piece is matched to it."""
    place = lay.place
    if not place.repeat.is_there:
        return
    if place.count_of_lines(end - start, sheet.width) <= _MOST_LINES:
        lines = [track("M", start, x, "H", end) for x in place.begins_across(sheet.width)]
        along = place.begins_along(start, end, sheet.width)
        lines += [track("M", y, left, "V", right) for y, left, right in along]
        yield line("".join(lines), Colour.CHALK_BLUE, sheet.hair, css="lay-repeat")
    for one in lay.placements:
        ((x, y),) = placed_outline((lay.matched_at(one.piece),), one)
        yield disc(y, x, 6 * sheet.hair, Colour.CHALK_BLUE, css="lay-match")


def _piece(
    sheet: _LaySheet, lay: Arrangement, placement: Placement, start: float, end: float
) -> Iterator[str]:
    there = placed_outline(lay.cut_outlines[placement.piece], placement)
    if not any(start < y for _, y in there) or not any(y < end for _, y in there):
        return
    hair = sheet.hair
    yield element(
        "path",
        css=f"lay-piece lay-{'mirrored' if placement.mirrored else 'as-drawn'}",
        d=_line_of(there) + "Z",
        fill=CHALK[placement.mirrored],
        stroke=Colour.INK,
        stroke_width=1.5 * hair,
        stroke_linejoin="round",
    )
    sewing, joins = _lines_within(lay, placement)
    dots, dashes = track(2 * hair, 3 * hair), track(10 * hair, 5 * hair)
    for each in sewing:
        yield line(each, Colour.INK_SOFT, hair, stroke_dasharray=dots, css="lay-sewing")
    for each in joins:
        yield line(each, Colour.PIN_RED, 2 * hair, stroke_dasharray=dashes, css="lay-piecing")
    yield from _label(sheet, Polygon(there), placement, _side(lay, placement))


def _line_of(points: Outline) -> str:
    """A line across and along the cloth as the drawing has it: along, across."""
    return ring(((y, x) for x, y in points), is_closed=False)


def _lines_within(lay: Arrangement, placement: Placement) -> tuple[list[str], list[str]]:
    """Sewing lines, where they are not the cut edge itself, and the joins of a part, where the piece lies."""
    for piecing in lay.piecings:
        if placement.piece in {part.name for part in piecing.parts}:
            net, lines = piecing.piece.outline, piecing.lines_x_mm
            break
    else:
        net = next(piece.outline for piece in lay.order.pieces if piece.name == placement.piece)
        lines = ()
    part = Polygon(lay.cut_outlines[placement.piece])
    _, low, _, high = part.bounds
    inner = Polygon(net).exterior.intersection(part.buffer(-1e-6))
    joins = [LineString([(x, low), (x, high)]).intersection(part.intersection(Polygon(net))) for x in lines]
    return _placed_lines(inner, placement), [d for join in joins for d in _placed_lines(join, placement)]


def _placed_lines(geometry: BaseGeometry, placement: Placement) -> list[str]:
    parts = getattr(geometry, "geoms", [geometry])
    lines = [tuple(part.coords) for part in parts if part.geom_type in ("LineString", "LinearRing")]
    return [_line_of(placed_outline(points, placement)) for points in lines if len(points) > 1]


def _side(lay: Arrangement, placement: Placement) -> str:
    """Whether it is on the fold or mirrored: half a piece is the same both ways."""
    if any(piece.on_fold for piece in lay.order.pieces if piece.name == placement.piece):
        return "on the fold"
    return "mirrored" if placement.mirrored else ""


def _label(sheet: _LaySheet, cut: Polygon, placement: Placement, side: str) -> Iterator[str]:
    """The name above the grain, what else is to know below it; about the point farthest from any edge."""
    middle = shapely.maximum_inscribed_circle(cut)
    (x, y), radius = middle.coords[0], middle.length
    size = min(sheet.letter, 1.8 * radius / (_LETTER * len(placement.piece)), 0.6 * radius)
    yield _arrow(x, y, 0.8 * radius, along=placement.rotation_deg % 180 == 0, width=1.5 * sheet.hair)
    for css, words, at, letter in (
        ("lay-name", placement.piece, x - 0.4 * size, size),
        ("lay-side", side, x + 0.9 * size, 0.75 * size),
    ):
        if words:
            yield text(y, at, words, size=letter, css=css)


def _arrow(x: float, y: float, half: float, *, along: bool, width: float) -> str:
    """Along the grain, with a barb at both ends."""
    barb, near = half / 8, half * 7 / 8
    if along:
        shaft = track("M", y - half, x, "h", 2 * half)
        barbs = track("M", y - near, x - barb, "l", -barb, barb, barb, barb) + track(
            "M", y + near, x - barb, "l", barb, barb, -barb, barb
        )
    else:
        shaft = track("M", y, x - half, "v", 2 * half)
        barbs = track("M", y - barb, x - near, "l", barb, -barb, barb, barb) + track(
            "M", y - barb, x + near, "l", barb, barb, barb, -barb
        )
    return line(shaft + barbs, Colour.INK_SOFT, width, css="lay-grain")


def _ruler(sheet: _LaySheet, lay: Arrangement, system: System, start: float, end: float) -> Iterator[str]:
    """Along the lower edge: steps of a quarter yard or metre from the start, and where the lay ends."""
    edge, step, letter = sheet.width + sheet.selvedge, _TICK_MM[system], sheet.letter
    numbers = range(math.ceil(start / step - 1e-6), math.floor(end / step + 1e-6) + 1)
    marks = (track("M", at * step, edge, "v", letter * (0.5 if at % 4 else 1)) for at in numbers)
    yield line("".join(marks), Colour.INK_SOFT, sheet.hair)
    look = {"size": letter, "css": "lay-words"}
    for number in numbers:
        if number % 4 == 0:
            word = f"{number // 4} {'yd' if system == 'in' else 'm'}" if number else "0"
            yield text(number * step, edge + 1.9 * letter, word, **look)
    if lay.order.is_folded:
        yield text(start, -0.4 * letter, "fold", anchor="start", **look)
    if start < lay.length_mm <= end:
        laid = f"laid {format_length(lay.length_mm, system=system)}, {lay.density:.0%} of it in pieces"
        anchor = "end" if lay.length_mm - start > sheet.row_length / 2 else "start"
        yield text(lay.length_mm, edge + 3.1 * letter, laid, anchor=anchor, **look)
