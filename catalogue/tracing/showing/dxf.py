"""A drawing as DXF."""

import io
import re

import ezdxf
from ezdxf import units

from catalogue.plates.models.piece import Piece
from catalogue.tracing.calculation.curve import Cubic, Point
from catalogue.tracing.loading.drawing import PlateTracing


def dxf_of(drawing: PlateTracing) -> str:
    """In millimetres at full size, y up: each piece on a layer of its own; levels, marks, names on theirs."""
    document = ezdxf.new("R2010", setup=True)
    document.units = units.MM
    for layer, color in (("levels", 1), ("marks", 6), ("names", 3)):
        document.layers.add(layer, color=color)
    space = document.modelspace()
    for piece in drawing.pieces:
        layer = _layer_of(piece.piece)
        if layer not in document.layers:
            document.layers.add(layer, color=7)
        for side in piece.shape.outline.sides:
            if side.is_straight:
                space.add_line(_up(side.start), _up(side.end), dxfattribs={"layer": layer})
            else:
                space.add_open_spline(_control(side), degree=3, dxfattribs={"layer": layer})
        for start, end in (span for width in piece.widths for span in width.spans):
            space.add_line(_up(start), _up(end), dxfattribs={"layer": "levels"})
        for mark in piece.shape.marks:
            if mark.is_bowed:
                for side in (side for line in mark.lines for side in line):
                    space.add_open_spline(_control(side), degree=3, dxfattribs={"layer": "marks"})
            elif len(mark.points) > 1:
                space.add_lwpolyline(map(_up, mark.points), dxfattribs={"layer": "marks"})
            else:
                space.add_point(_up(mark.points[0]), dxfattribs={"layer": "marks"})
        name = space.add_text(piece.piece.name, height=8, dxfattribs={"layer": "names"})
        name.set_placement(_up(piece.middle))
    text = io.StringIO()
    document.write(text)
    return text.getvalue()


def _layer_of(piece: Piece) -> str:
    """No name of a piece is that of another layer, nor holds a sign that DXF keeps for itself."""
    cloth = "" if piece.cloth == Piece.ClothRole.OUTER else f" {piece.cloth}"
    return re.sub(r'[<>/\\":;?*|=`,]', "-", f"piece {piece.name}{cloth}")


def _control(side: Cubic) -> list[tuple[float, float]]:
    return [_up(point) for point in (side.start, side.handle_a, side.handle_b, side.end)]


def _up(point: Point) -> tuple[float, float]:
    return point.real, -point.imag
