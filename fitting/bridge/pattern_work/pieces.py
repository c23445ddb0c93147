"""The pieces of a plate as they are laid: outlines where they were traced, else boxes from their readings."""

import cmath
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from shapely import Polygon, affinity

from catalogue.bridge import scale_of
from catalogue.measuring.levels import LINES
from catalogue.measuring.tracing import TracedShape
from catalogue.models import Piece, Plate, Seam, TracedPiece
from catalogue.models.length import exact_mm
from catalogue.outlines import current_calibration, map_of, shape_of
from fitting.exchange.lay_file import FORMAT, VERSION

Point = tuple[float, float]
# A chalk line is wider; with every chord of a traced curve the search for a lay finds nothing in its time.
CHALK_MM = 0.1
_JOINED_MM = 0.1  # halves that meet at a fold are one piece, whatever the last digits say
_TURNS = {Piece.Grain.ACROSS: 90.0, Piece.Grain.BIAS: 45.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceToLay:
    """`outline` at full size, grain along y, unfolded; empty for a box, whose sides may not be known yet."""

    name: str
    outline: tuple[Point, ...]
    width_mm: float | None
    length_mm: float | None
    cut: int
    is_pair: bool

    @property
    def is_traced(self) -> bool:
        return bool(self.outline)


def lay_entry(
    piece: PieceToLay, *, copies: int, allowance: str, box_mm: tuple[float, float] | None = None
) -> dict[str, Any]:
    """The piece as an order for a lay has it; `box_mm`, across and along, where it has no outline."""
    outline = [list(point) for point in piece.outline]
    if box_mm is not None:
        width, length = box_mm
        outline = [[0, 0], [width, 0], [width, length], [0, length]]
    return {
        "name": piece.name,
        "outline": outline,
        "cut": copies,
        "mirrored_pair": piece.is_pair and copies % 2 == 0,
        "allowance": allowance,
    }


def lay_order(
    pieces: Sequence[Mapping[str, Any]], *, cloth: Mapping[str, Any], seconds: float
) -> dict[str, Any]:
    """What the `lay` command reads."""
    return {
        "format": FORMAT,
        "version": VERSION,
        "cloth": dict(cloth),
        "seconds": seconds,
        "pieces": list(pieces),
    }


def pieces_to_lay(
    plate: Plate, cloth: str, *, graded: Mapping[str, TracedShape] | None = None
) -> list[PieceToLay]:
    """Those of one cloth, in order. Prefetch as `Plate.objects.for_detail_page`.

    `graded`: by name, what is laid in place of a piece as it was drawn.
    """
    chosen = [piece for piece in plate.pieces.all() if piece.cloth == cloth]
    calibration = current_calibration(plate)
    traced = (
        {one.piece_id: one for one in TracedPiece.objects.filter(piece__in=chosen).select_related("piece")}
        if calibration
        else {}
    )
    found = []
    for piece in chosen:
        outline: tuple[Point, ...] = ()
        if graded and piece.name in graded:
            outline = _outline(graded[piece.name], piece)
        elif calibration and piece.pk in traced:
            outline = _outline(shape_of(traced[piece.pk], map_of(calibration)), piece)
        found.append(_to_lay(piece, plate, outline))
    return found


def _to_lay(piece: Piece, plate: Plate, outline: tuple[Point, ...]) -> PieceToLay:
    scale, fold = scale_of(plate), 2 if piece.on_fold else 1
    read = {
        reading.line: float(exact_mm(reading.reading_um, reading.reading_text))
        for reading in piece.readings.all()
    }
    across = [mm * scale.across * fold for line, mm in read.items() if LINES[line].kind == "girth"]
    along = [mm * scale.along for line, mm in read.items() if LINES[line].kind == "length"]
    along += [mm * scale.along for mm in _edges_mm(piece, plate.seams.all())]
    width, length = max(across, default=None), max(along, default=None)
    if piece.grain == Piece.Grain.ACROSS:
        width, length = length, width
    return PieceToLay(
        name=piece.name,
        outline=outline,
        width_mm=width,
        length_mm=length,
        cut=piece.cut,
        is_pair=piece.cut % 2 == 0 and not piece.on_fold,
    )


def _edges_mm(piece: Piece, seams: Iterable[Seam]) -> list[float]:
    """Its edges as read on the page: no piece is shorter than its longest one is straight."""
    sides = [
        (seam.piece_a_id, seam.length_a_um, seam.length_a_text) for seam in seams
    ] + [(seam.piece_b_id, seam.length_b_um, seam.length_b_text) for seam in seams]  # fmt: skip
    return [float(exact_mm(um, text)) for key, um, text in sides if key == piece.pk and um is not None]


def _outline(shape: TracedShape, piece: Piece) -> tuple[Point, ...]:
    """Empty where the outline is not whole yet."""
    if len(shape.outline.nodes) < 3 or shape.outline.faults(piece.name):
        return ()
    points = [(at.real, at.imag) for at in shape.outline.flattened()]
    whole = Polygon(points)
    fold = next((mark.points for mark in shape.marks if mark.kind == "fold"), None)
    if piece.on_fold and fold:
        whole = _unfolded(whole, *fold)
    grain = next((mark.points for mark in shape.marks if mark.kind == "grain"), None)
    turn = _TURNS.get(piece.grain, 0.0)
    if grain:
        turn = 90.0 - cmath.phase(grain[1] - grain[0]) * 180 / cmath.pi
    laid = affinity.rotate(whole, turn, origin=(0, 0)).simplify(CHALK_MM)
    left, top, _, _ = laid.bounds
    return tuple((round(x - left, 3), round(y - top, 3)) for x, y in list(laid.exterior.coords)[:-1])


def _unfolded(half: Polygon, start: complex, end: complex) -> Polygon:
    along = (end - start) / abs(end - start)
    flipped = [start + ((complex(x, y) - start) / along).conjugate() * along for x, y in half.exterior.coords]
    other = Polygon([(at.real, at.imag) for at in flipped])
    grown = half.buffer(_JOINED_MM, join_style="mitre").union(other.buffer(_JOINED_MM, join_style="mitre"))
    whole = grown.buffer(-_JOINED_MM, join_style="mitre")
    return whole if isinstance(whole, Polygon) else half
