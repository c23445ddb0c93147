"""A drawing as DXF."""

import io
import re
from collections.abc import Iterator

import ezdxf
from ezdxf import units
from ezdxf.document import Drawing
from ezdxf.layouts import Modelspace

from catalogue.plates.models.piece import Piece
from catalogue.tracing.calculation.curve import Cubic, Point
from catalogue.tracing.calculation.tracing import Mark
from catalogue.tracing.loading.drawing import PieceTracing, PlateTracing

# By the kind of a mark.
LAYERS = {
    "grain": "grain lines",
    "fold": "folds",
    "notch": "notches",
    "dart": "darts",
    "pleat": "pleats",
    "length": "lengths",
}
LEVELS, CUTTING, NAMES = "levels", "cutting lines", "names"
_COLOURS = {LEVELS: 1, CUTTING: 7, NAMES: 3, **dict.fromkeys(LAYERS.values(), 6)}
PROGRAM = "PLATE_AND_TOILE"  # under which the count of a pleat is kept with its line
_TEXT, _WHOLE = 1000, 1070  # what a value of extended data is: DXF reference, group codes of XDATA


def dxf_of(drawing: PlateTracing) -> str:
    """In millimetres at full size, y up: each piece on a layer of its own, all else by what it is."""
    document = ezdxf.new("R2010", setup=True)
    document.units = units.MM
    document.appids.add(PROGRAM)
    for layer, colour in _COLOURS.items():
        document.layers.add(layer, color=colour)
    for piece in drawing.pieces:
        _draw(document, piece)
    text = io.StringIO()
    document.write(text)
    return text.getvalue()


def _draw(document: Drawing, piece: PieceTracing) -> None:
    space, layer, moved = document.modelspace(), _layer_of(piece.piece), piece.moved
    if layer not in document.layers:
        document.layers.add(layer, color=7)
    for side in piece.shape.outline.sides:
        _draw_side(space, side, moved, layer)
    if piece.cutting:
        ring = [_up(point + moved) for point in piece.cutting]
        space.add_lwpolyline(ring, close=True, dxfattribs={"layer": CUTTING})
    for line in _levels_of(piece):
        space.add_lwpolyline([_up(point + moved) for point in line], dxfattribs={"layer": LEVELS})
    for mark in piece.shape.marks:
        _draw_mark(space, mark, moved)
    name = space.add_text(piece.piece.name, height=8, dxfattribs={"layer": NAMES})
    name.set_placement(_up(piece.middle + moved))


def _levels_of(piece: PieceTracing) -> Iterator[tuple[Point, ...]]:
    yield from (span for width in piece.widths for span in width.spans)
    yield from piece.own_levels.values()


def _draw_side(space: Modelspace, side: Cubic, moved: Point, layer: str) -> None:
    points = (side.start, side.handle_a, side.handle_b, side.end)
    start, *handles, end = (_up(point + moved) for point in points)
    if side.is_straight:
        space.add_line(start, end, dxfattribs={"layer": layer})
    else:
        space.add_open_spline([start, *handles, end], degree=3, dxfattribs={"layer": layer})


def _draw_mark(space: Modelspace, mark: Mark, moved: Point) -> None:
    """Of a pleat each fold is a line that says how many lie beside each other; so do words at its first."""
    layer = LAYERS[mark.kind]
    if mark.is_bowed:
        for side in (side for line in mark.lines for side in line):
            _draw_side(space, side, moved, layer)
    elif len(mark.points) == 1:
        space.add_point(_up(mark.points[0] + moved), dxfattribs={"layer": layer})
    elif mark.kind == "pleat":
        for line in mark.lines:
            ends = _up(line[0].start + moved), _up(line[-1].end + moved)
            fold = space.add_line(*ends, dxfattribs={"layer": layer})
            fold.set_xdata(PROGRAM, [(_TEXT, mark.kind), (_WHOLE, mark.count)])
        if mark.count > 1:
            words = space.add_text(f"{mark.count} pleats", height=4, dxfattribs={"layer": layer})
            words.set_placement(_up(mark.points[0] + moved))
    else:
        space.add_lwpolyline([_up(point + moved) for point in mark.points], dxfattribs={"layer": layer})


def _layer_of(piece: Piece) -> str:
    """No name of a piece is that of another layer, nor holds a sign that DXF keeps for itself."""
    cloth = "" if piece.cloth in ("", Piece.ClothRole.OUTER) else f" {piece.cloth}"
    return re.sub(r'[<>/\\":;?*|=`,]', "-", f"piece {piece.name}{cloth}")


def _up(point: Point) -> tuple[float, float]:
    return point.real, -point.imag
