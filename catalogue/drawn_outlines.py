"""Traced pieces to scale: drawn on a page, as an SVG in real millimetres, and as DXF with named layers."""

import io
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import ezdxf
from django.utils.html import escape
from ezdxf import units

from catalogue.measuring.curve import Point
from catalogue.measuring.outline import Outline
from catalogue.measuring.tracing import LevelLine, TracedShape

MARGIN_MM = 10.0
SQUARE_MM = 100.0  # printed beside the pieces: held to a rule, it says whether the paper is at full size


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPiece:
    """A shape with the parts of level lines that lie within it: name of the level, start and end."""

    shape: TracedShape
    levels: tuple[tuple[str, Point, Point], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """Pieces of a plate as they lie on it, with the box that holds them, in millimetres."""

    pieces: tuple[DrawnPiece, ...]
    left: float
    top: float
    width: float
    height: float

    @property
    def line_mm(self) -> float:
        """A line that is seen when the whole drawing is as wide as a page."""
        return self.width / 600

    @property
    def box(self) -> str:
        return f"{self.left:.3f} {self.top:.3f} {self.width:.3f} {self.height:.3f}"


def drawing_of(shapes: Iterable[TracedShape], levels: Sequence[LevelLine]) -> Drawing | None:
    """None where nothing is traced yet."""
    closed = [shape for shape in shapes if len(shape.outline.nodes) > 2]
    if not closed:
        return None
    points = [point for shape in closed for point in shape.outline.flattened(0.5)]
    left, top = min(p.real for p in points) - MARGIN_MM, min(p.imag for p in points) - MARGIN_MM
    return Drawing(
        pieces=tuple(DrawnPiece(shape=shape, levels=tuple(_within(shape, levels))) for shape in closed),
        left=left,
        top=top,
        width=max(p.real for p in points) + MARGIN_MM - left,
        height=max(p.imag for p in points) + MARGIN_MM - top,
    )


def _within(shape: TracedShape, levels: Sequence[LevelLine]) -> Iterable[tuple[str, Point, Point]]:
    for level in levels:
        for start, end in shape.outline.spans(level.start, level.end):
            yield level.line, start, end


def path_of(outline: Outline) -> str:
    """The `d` of an SVG path round the outline."""
    parts = [f"M{_xy(outline.sides[0].start)}"]
    for side in outline.sides:
        if side.is_straight:
            parts.append(f"L{_xy(side.end)}")
        else:
            parts.append(f"C{_xy(side.handle_a)} {_xy(side.handle_b)} {_xy(side.end)}")
    return " ".join([*parts, "Z"])


def svg_of(drawing: Drawing, title: str) -> str:
    """The pieces at full size: a user unit is a millimetre, and a square of 100 mm stands below them."""
    below = drawing.top + drawing.height
    height = drawing.height + SQUARE_MM + MARGIN_MM
    width = max(drawing.width, SQUARE_MM + 2 * MARGIN_MM)
    square = f"M{drawing.left + MARGIN_MM:.3f} {below:.3f}h{SQUARE_MM:g}v{SQUARE_MM:g}h-{SQUARE_MM:g}Z"
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.3f}mm" height="{height:.3f}mm"'
        f' viewBox="{drawing.left:.3f} {drawing.top:.3f} {width:.3f} {height:.3f}" fill="none"'
        ' stroke="#000" stroke-width="0.35">',
        f"<title>{escape(title)}</title>",
        *(line for piece in drawing.pieces for line in _svg_piece(piece)),
        f'<path id="square-100-mm" d="{square}"/>',
        f'<text x="{drawing.left + MARGIN_MM + 4:.3f}" y="{below + 10:.3f}" font-size="6" fill="#000"'
        ' stroke="none">100 mm each way</text>',
        "</svg>",
    ]
    return "\n".join(lines)


def _svg_piece(piece: DrawnPiece) -> Iterable[str]:
    shape = piece.shape
    yield f"<g><title>{escape(shape.name)}</title>"
    yield f'<path d="{path_of(shape.outline)}"/>'
    for name, start, end in piece.levels:
        line = f"M{_xy(start)}L{_xy(end)}"
        yield f'<path d="{line}" stroke-dasharray="4 2"><title>{escape(name)}</title></path>'
    for mark in shape.marks:
        line = " ".join(map(_xy, mark.points)) if len(mark.points) > 1 else f"{_xy(mark.points[0])}h3"
        yield f'<path d="M{line}"><title>{escape(mark.kind)}</title></path>'
    middle = sum(node.at for node in shape.outline.nodes) / len(shape.outline.nodes)
    yield f'<text x="{middle.real:.3f}" y="{middle.imag:.3f}" font-size="8" fill="#000" stroke="none">'
    yield f"{escape(shape.name)}</text></g>"


def dxf_of(drawing: Drawing) -> str:
    """The pieces at full size in millimetres, y up; layers: outlines, levels, marks and names."""
    document = ezdxf.new("R2010", setup=True)
    document.units = units.MM
    for layer, color in (("outlines", 7), ("levels", 1), ("marks", 6), ("names", 3)):
        document.layers.add(layer, color=color)
    space = document.modelspace()
    for piece in drawing.pieces:
        for side in piece.shape.outline.sides:
            if side.is_straight:
                space.add_line(_up(side.start), _up(side.end), dxfattribs={"layer": "outlines"})
            else:
                control = [_up(p) for p in (side.start, side.handle_a, side.handle_b, side.end)]
                space.add_open_spline(control, degree=3, dxfattribs={"layer": "outlines"})
        for _, start, end in piece.levels:
            space.add_line(_up(start), _up(end), dxfattribs={"layer": "levels"})
        for mark in piece.shape.marks:
            if len(mark.points) > 1:
                space.add_lwpolyline(map(_up, mark.points), dxfattribs={"layer": "marks"})
            else:
                space.add_point(_up(mark.points[0]), dxfattribs={"layer": "marks"})
        place = _up(piece.shape.outline.nodes[0].at)
        space.add_text(piece.shape.name, height=8, dxfattribs={"layer": "names"}).set_placement(place)
    text = io.StringIO()
    document.write(text)
    return text.getvalue()


def _xy(point: Point) -> str:
    return f"{point.real:.4f} {point.imag:.4f}"


def _up(point: Point) -> tuple[float, float]:
    return point.real, -point.imag
