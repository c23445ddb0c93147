"""A drawing as an SVG in real millimetres, with all that `exchange/svg_outlines.py` reads back."""

import json
from collections.abc import Iterable

from django.utils.html import escape

from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.tracing import Mark
from catalogue.tracing.exchange.svg_shapes import SQUARE_ID
from catalogue.tracing.loading.drawing import MARGIN_MM, PieceTracing, PlateTracing, path_of, xy

SQUARE_MM = 100.0  # printed beside the pieces: held to a rule, it says whether the paper is at full size


def svg_of(drawing: PlateTracing, title: str) -> str:
    """The pieces at full size: a user unit is a millimetre, and a square of 100 mm stands below them.

    What their lines do not show is said in `data-` attributes.
    """
    below = drawing.top + drawing.height
    height = drawing.height + SQUARE_MM + MARGIN_MM
    width = max(drawing.width, SQUARE_MM + 2 * MARGIN_MM)
    square = f"M{drawing.left + MARGIN_MM:.3f} {below:.3f}h{SQUARE_MM:g}v{SQUARE_MM:g}h-{SQUARE_MM:g}Z"
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.3f}mm" height="{height:.3f}mm"'
        f' viewBox="{drawing.left:.3f} {drawing.top:.3f} {width:.3f} {height:.3f}" fill="none"'
        f' stroke="#000" stroke-width="0.35"{_kept(drawing.kept)}>',
        f"<title>{escape(title)}</title>",
        *(line for piece in drawing.pieces for line in _piece(piece, drawing.digits)),
        *(_level(level.line, (level.start, level.end), drawing.digits) for level in drawing.levels),
        f'<path id="{SQUARE_ID}" d="{square}"/>',
        f'<text x="{drawing.left + MARGIN_MM + 4:.3f}" y="{below + 10:.3f}" font-size="6" fill="#000"'
        ' stroke="none">100 mm each way</text>',
        "</svg>",
    ]
    return "\n".join(lines)


def _kept(said: str) -> str:
    return f' data-kept="{escape(said)}"' if said else ""


def _level(name: str, points: Iterable[Point], digits: int) -> str:
    path = "L".join(xy(point, digits) for point in points)
    return (
        f'<path data-level="{escape(name)}" d="M{path}" stroke-dasharray="4 2">'
        f"<title>{escape(name)}</title></path>"
    )


def _piece(drawn: PieceTracing, digits: int) -> Iterable[str]:
    piece, nodes, moved = drawn.piece, drawn.shape.outline.nodes, drawn.moved
    place = f' transform="translate({xy(moved, digits)})" data-moved="{xy(moved, digits)}"' if moved else ""
    yield (
        f'<g data-piece="{escape(piece.name)}" data-cut="{piece.cut}" data-cloth="{piece.cloth}"'
        f' data-on-fold="{"yes" if piece.on_fold else "no"}" data-grain="{piece.grain}"'
        f"{place}{_kept(drawn.kept)}>"
        f"<title>{escape(piece.name)}</title>"
    )
    corners = " ".join(str(at) for at, node in enumerate(nodes) if node.corner)
    edges = escape(json.dumps({at: node.edge for at, node in enumerate(nodes) if node.edge}))
    yield (
        f'<path data-points="{len(nodes)}" data-corners="{corners}" data-edges="{edges}"'
        f' d="{path_of(drawn.shape.outline, digits)}"/>'
    )
    if drawn.cutting:
        line = " ".join(xy(point) for point in drawn.cutting)
        yield f'<path data-cutting="yes" d="M{line}Z" stroke-width="0.7"><title>cutting line</title></path>'
    yield from (_level(name, points, digits) for name, points in drawn.own_levels.items())
    for mark in drawn.shape.marks:
        straight = ' data-straight="yes"' if mark.is_straight else ""
        yield (
            f'<path data-mark="{mark.kind}" data-line="{escape(mark.line)}" data-count="{mark.count}"'
            f'{straight} d="{mark_path(mark, digits)}">'
            f"<title>{escape(mark.kind)}</title></path>"
        )
    middle = drawn.middle
    yield f'<text x="{middle.real:.3f}" y="{middle.imag:.3f}" font-size="8" fill="#000" stroke="none">'
    yield f"{escape(piece.name)}</text></g>"


def mark_path(mark: Mark, digits: int = 4) -> str:
    """The `d` of an SVG path along a mark; a single point is drawn as a short stroke."""

    def at(point: Point) -> str:
        return xy(point, digits)

    if mark.is_bowed:
        sides = (side for line in mark.lines for side in line)
        curves = (f"C{at(side.handle_a)} {at(side.handle_b)} {at(side.end)}" for side in sides)
        return f"M{at(mark.points[0])}{''.join(curves)}"
    points = " ".join(map(at, mark.points))
    return f"M{points}" if len(mark.points) > 1 else f"M{points}h3"
