"""Traced rows as shapes in millimetres at full size, and back to pixels of the scan. Rows ↔ values."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from catalogue.lengths.calculation.errors import Fault, NotUnderstood
from catalogue.lengths.calculation.levels import LINES
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.calibration import PixelMap
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.geometry import MOST_ALIKE, MOST_MARKS, MOST_POINTS, has_its_points
from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import (
    LevelLine,
    Mark,
    TracedShape,
    edge_name,
    level_faults,
)
from catalogue.tracing.models import Calibration, TracedLevel, TracedPiece

# The tracing pages speak one unit only, with a decimal point, as places of points are best typed.
UNITS = {
    "in": {"name": "in", "words": "inches", "mm": 25.4},
    "cm": {"name": "cm", "words": "centimetres", "mm": 10.0},
}
FARTHEST_PX = 1e6


class GeometryNotUnderstood(NotUnderstood):
    """Points or curves that no page of ours sends."""


def map_of(calibration: Calibration) -> PixelMap:
    return PixelMap(
        matrix=np.array(calibration.matrix, dtype=float),
        relative_doubt=calibration.relative_doubt,
        worst_doubt=calibration.worst_doubt,
        residual_px=calibration.residual_px,
    )


def current_calibration(plate: Plate) -> Calibration | None:
    """The newest: it counts at once, also while its picture is still being cut."""
    return Calibration.objects.filter(scan__plate=plate).select_related("scan").first()


def shape_of(traced: TracedPiece, flat: PixelMap) -> TracedShape:
    nodes = [_node(row) for row in traced.nodes]
    placed = flat.to_mm([node.at for node in nodes])
    return TracedShape(
        name=traced.piece.name,
        outline=Outline(
            nodes=tuple(
                Node(at=at, corner=node.corner, curved=node.curved, edge=node.edge)
                for at, node in zip(placed, nodes, strict=True)
            )
        ),
        marks=tuple(
            Mark(
                kind=row["kind"],
                line=row.get("line", ""),
                count=row.get("count", 1),
                points=tuple(flat.to_mm(_points(row["points"]))),
            )
            for row in traced.marks
        ),
    )


def levels_of(plate: Plate, flat: PixelMap) -> list[LevelLine]:
    return [level_of(row, flat) for row in plate.traced_levels.all()]


def level_of(row: TracedLevel, flat: PixelMap) -> LevelLine:
    start, end = flat.to_mm(_points(row.points))
    return LevelLine(line=row.line, start=start, end=end)


def shape_to_json(shape: TracedShape) -> dict[str, Any]:
    """As the page draws it: millimetres at full size."""
    return {
        "nodes": [_node_to_json(node, node.at) for node in shape.outline.nodes],
        "marks": [_mark_to_json(mark, mark.points) for mark in shape.marks],
    }


def pixels_of(given: Mapping[str, Any], flat: PixelMap) -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
    """Nodes and marks as they came from the page (millimetres), to keep as pixels.

    Raises GeometryNotUnderstood for anything that our page does not send.
    """
    try:
        nodes = [_node(row) for row in given["nodes"][: MOST_POINTS + 1]]
        marks = [_read_mark(row) for row in given["marks"][:MOST_MARKS]]
        if len(nodes) > MOST_POINTS:
            raise ValueError
        placed = _on_scan([node.at for node in nodes], flat)
        return (
            [_node_to_json(node, at) for node, at in zip(nodes, placed, strict=True)],
            [_mark_to_json(mark, _on_scan(mark.points, flat)) for mark in marks],
        )
    except (KeyError, TypeError, ValueError, AttributeError):
        raise GeometryNotUnderstood("The outline could not be read. Load the page again.") from None


def level_pixels(given: Mapping[str, Any], flat: PixelMap) -> tuple[str, list[list[float]]]:
    try:
        line, points = given["line"], _points(given["points"])
        if LINES[line].kind != "girth" or len(points) != 2 or points[0] == points[1]:
            raise ValueError
        return line, [[at.real, at.imag] for at in _on_scan(points, flat)]
    except (KeyError, TypeError, ValueError):
        raise GeometryNotUnderstood("A level line could not be read. Load the page again.") from None


def _on_scan(points: Sequence[Point], flat: PixelMap) -> list[Point]:
    """The pixels of points in millimetres. Raises ValueError far off the scan, where pixels run away."""
    placed = flat.to_px(points)
    if not all(abs(at) < FARTHEST_PX for at in placed):
        raise ValueError(placed)
    return placed


def _node(row: Mapping[str, Any]) -> Node:
    return Node(
        at=_point((row["x"], row["y"])),
        corner=bool(row["corner"]),
        curved=bool(row["curved"]),
        edge=edge_name(row.get("edge", "")),
    )


def _read_mark(row: Mapping[str, Any]) -> Mark:
    points, line = tuple(_points(row["points"])), row.get("line", "")
    count = int(row.get("count", 1))
    if not has_its_points(row["kind"], len(points)) or (line and LINES[line].kind != "length"):
        raise ValueError
    if not 1 <= count <= (MOST_ALIKE if row["kind"] == "pleat" else 1):
        raise ValueError
    return Mark(kind=row["kind"], points=points, line=line, count=count)


def _points(rows: Sequence[Sequence[float]]) -> list[Point]:
    return [_point(row) for row in rows]


def _point(pair: Sequence[float]) -> Point:
    x, y = pair
    at = complex(float(x), float(y))
    if not abs(at) < 1e7:
        raise ValueError(at)
    return at


def _node_to_json(node: Node, at: Point) -> dict[str, Any]:
    return {"x": at.real, "y": at.imag, "corner": node.corner, "curved": node.curved, "edge": node.edge}


def _mark_to_json(mark: Mark, points: Sequence[Point]) -> dict[str, Any]:
    points_json = [[at.real, at.imag] for at in points]
    return {"kind": mark.kind, "line": mark.line, "count": mark.count, "points": points_json}


def faults_of(shape: TracedShape, levels: Sequence[LevelLine]) -> list[Fault]:
    """What is wrong with a traced piece, and nothing of an outline that is not closed yet."""
    if len(shape.outline.nodes) < 3:
        return []
    return shape.faults() or level_faults(shape, levels)
