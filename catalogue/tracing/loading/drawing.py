"""Traced pieces of a plate to one scale, as they lie on it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.calibration import PixelMap
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.outline import Outline
from catalogue.tracing.calculation.tracing import LevelLine, LevelWidth, TracedShape, level_widths
from catalogue.tracing.loading.outlines import current_calibration, levels_of, map_of, shape_of
from catalogue.tracing.models import TracedPiece

MARGIN_MM = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceTracing:
    """A piece as it was traced, with what it measures at each level that crosses it.

    A piece of a pattern has level lines of its own, a cutting line, and is `moved` clear of the others; what
    else is to be known of it when it is read again is `kept`.
    """

    piece: Piece
    shape: TracedShape
    widths: tuple[LevelWidth, ...] = ()
    own_levels: Mapping[str, tuple[Point, ...]] = field(default_factory=dict)
    cutting: tuple[Point, ...] = ()
    moved: Point = 0j
    kept: str = ""

    @property
    def width_at(self) -> dict[str, LevelWidth]:
        return {width.line: width for width in self.widths}

    @property
    def middle(self) -> Point:
        """A point within it: the middle of the widest part, half way down."""
        points = self.shape.outline.flattened(0.5)
        left, right = min(p.real for p in points) - 1, max(p.real for p in points) + 1
        level = (min(p.imag for p in points) + max(p.imag for p in points)) / 2
        spans = self.shape.outline.spans(complex(left, level), complex(right, level))
        start, end = max(spans, key=lambda span: abs(span[1] - span[0]), default=(points[0], points[0]))
        return (start + end) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateTracing:
    """Pieces and level lines with the box that holds the pieces, in millimetres at full size.

    `digits`: how many are written of a place; `kept`: what else is to be known of the whole.
    """

    pieces: tuple[PieceTracing, ...]
    levels: tuple[LevelLine, ...]
    left: float
    top: float
    width: float
    height: float
    digits: int = 4
    kept: str = ""


def drawing_of(
    traced: Iterable[tuple[Piece, TracedShape]], levels: Sequence[LevelLine]
) -> PlateTracing | None:
    """The drawing of these traced pieces and levels; None where nothing is traced yet."""
    closed = [(piece, shape) for piece, shape in traced if len(shape.outline.nodes) > 2]
    if not closed:
        return None
    points = [point for _, shape in closed for point in shape.outline.flattened(0.5)]
    left, top = min(p.real for p in points) - MARGIN_MM, min(p.imag for p in points) - MARGIN_MM
    return PlateTracing(
        pieces=tuple(
            PieceTracing(piece=piece, shape=shape, widths=tuple(level_widths(shape, levels)))
            for piece, shape in closed
        ),
        levels=tuple(levels),
        left=left,
        top=top,
        width=max(p.real for p in points) + MARGIN_MM - left,
        height=max(p.imag for p in points) + MARGIN_MM - top,
    )


def traced_drawing(plate: Plate, *, only: Piece | None = None) -> PlateTracing | None:
    """Everything traced on the plate, or one piece of it; None where nothing is."""
    calibration = current_calibration(plate)
    if calibration is None:
        return None
    flat = map_of(calibration)
    rows = TracedPiece.objects.filter(piece__plate=plate).select_related("piece")
    rows = rows.filter(piece=only) if only else rows.order_by("piece__order", "piece")
    return drawing_of([(row.piece, shape_of(row, flat)) for row in rows], levels_of(plate, flat))


def traced_drawings(plates: Sequence[Plate], *, with_levels: bool = False) -> dict[int, PlateTracing]:
    """By plate, of plates as the page of a garment has them (`with_newest_matrix`, pieces with `traced`).

    `with_levels`: they come with `traced_levels` too. Nothing is asked of the database here.
    """
    found = {}
    for plate in plates:
        if not plate.newest_matrix:
            continue
        flat = PixelMap(
            matrix=np.array(plate.newest_matrix, dtype=float), relative_doubt=0.0, worst_doubt=0.0
        )
        pieces = [piece for piece in plate.pieces.all() if hasattr(piece, "traced")]
        shapes = [(piece, shape_of(piece.traced, flat)) for piece in pieces]
        if drawing := drawing_of(shapes, levels_of(plate, flat) if with_levels else []):
            found[plate.pk] = drawing
    return found


def path_of(outline: Outline, digits: int = 4) -> str:
    """The `d` of an SVG path round the outline."""
    parts = [f"M{xy(outline.sides[0].start, digits)}"]
    for side in outline.sides:
        if side.is_straight:
            parts.append(f"L{xy(side.end, digits)}")
        else:
            handles = f"{xy(side.handle_a, digits)} {xy(side.handle_b, digits)}"
            parts.append(f"C{handles} {xy(side.end, digits)}")
    return " ".join([*parts, "Z"])


def xy(point: Point, digits: int = 4) -> str:
    return f"{point.real:.{digits}f} {point.imag:.{digits}f}"
