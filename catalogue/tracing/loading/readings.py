"""What tracings give for the lines of a plate, on its page; beside what was read there by hand."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from catalogue.lengths.calculation.doubt import two_ended_reading_u
from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.models import TypedLength
from catalogue.plates.calculation.agreement import COVERAGE
from catalogue.plates.calculation.scale import Scale, ScaleNotUnderstood
from catalogue.plates.loading import scale_of
from catalogue.plates.models.piece import Reading
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.calibration import CLICK_PX, PixelMap
from catalogue.tracing.calculation.tracing import LevelLine, TracedShape, click_doubt_mm, level_widths
from catalogue.tracing.loading.outlines import current_calibration, faults_of, levels_of, map_of, shape_of
from catalogue.tracing.models import Calibration, TracedPiece, TracedReading

Key = tuple[int, str]  # a piece and a line


def readings_given(plate: Plate) -> dict[Key, TracedReading]:
    """What the plate's tracings give for each piece and line, as rows that are not saved."""
    calibration = current_calibration(plate)
    if calibration is None:
        return {}
    try:
        scale = scale_of(plate)
    except ScaleNotUnderstood:  # a plate begun, without its scale yet
        return {}
    flat = map_of(calibration)
    levels = levels_of(plate, flat)
    given: list[TracedReading] = []
    for traced in TracedPiece.objects.filter(piece__plate=plate).select_related("piece"):
        given += _readings_of(traced, shape_of(traced, flat), levels, flat, scale)
    return {(row.piece_id, row.line): row for row in given}


def _readings_of(
    traced: TracedPiece, shape: TracedShape, levels: Sequence[LevelLine], flat: PixelMap, scale: Scale
) -> Iterator[TracedReading]:
    if len(shape.outline.nodes) < 3 or faults_of(shape, levels):
        return
    first = traced.nodes[0]
    click_mm = click_doubt_mm(flat.mm_per_px(complex(first["x"], first["y"])), CLICK_PX)
    for width in level_widths(shape, levels):
        yield _reading(traced, width.line, width.width_mm, width.take_up_mm, click_mm, scale.across)
    for line, length_mm in shape.lengths_mm().items():
        yield _reading(traced, line, length_mm, 0.0, click_mm, scale.along)


def _reading(
    traced: TracedPiece, line: str, full_mm: float, take_up_mm: float, click_mm: float, factor: float
) -> TracedReading:
    return TracedReading(
        piece=traced.piece,
        line=line,
        reading_um=round(1000 * full_mm / factor),
        take_up_um=round(1000 * take_up_mm / factor) or None,
        doubt_um=max(1, round(1000 * click_mm / factor)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingPair:
    """A line as traced, and as read by hand where it was; how far apart they are at full size.

    `u_mm` is the standard uncertainty of their difference. `is_given`: the tracing still gives it.
    """

    row: TracedReading
    calibration: Calibration | None
    hand: TypedLength | None
    hand_take_up: TypedLength | None
    apart_mm: float | None
    u_mm: float
    is_given: bool

    @property
    def label(self) -> str:
        return LINES[self.row.line].label

    @property
    def traced_mm(self) -> float:
        return self.row.reading_um / 1000

    @property
    def take_up_mm(self) -> float:
        return (self.row.take_up_um or 0) / 1000

    @property
    def times_its_doubt(self) -> float:
        return abs(self.apart_mm or 0) / self.u_mm

    @property
    def disagrees(self) -> bool:
        return self.times_its_doubt > COVERAGE


def readings_beside(plate: Plate) -> list[ReadingPair]:
    """All that was traced on the plate. Its pieces come with their readings."""
    rows = list(TracedReading.objects.filter(piece__plate=plate).select_related("piece"))
    if not rows:
        return []
    by_line = {(piece.pk, line): one for piece in plate.pieces.all() for line, one in piece.by_line.items()}
    calibration, given = current_calibration(plate), readings_given(plate)
    return [
        _beside(row, by_line.get((row.piece_id, row.line)), plate, calibration, given)
        for row in rows
        if row.is_used or (row.piece_id, row.line) in given
    ]


def _beside(
    row: TracedReading,
    standing: Reading | None,
    plate: Plate,
    calibration: Calibration | None,
    given: dict[Key, TracedReading],
) -> ReadingPair:
    hand, hand_take_up = row.hand, row.hand_take_up
    if not row.is_used:
        hand, hand_take_up = (standing.reading, standing.take_up) if standing else (None, None)
    scale = scale_of(plate)
    factor = scale.across if LINES[row.line].kind == "girth" else scale.along
    net_um = row.reading_um - (row.take_up_um or 0)
    apart_mm = None
    if hand is not None:
        apart_mm = (net_um - hand.um + (hand_take_up.um if hand_take_up else 0)) * factor / 1000
    shares = (scale.relative_doubt, calibration.relative_doubt if calibration else 0.0)
    doubts = [share * net_um * factor / 1000 for share in shares]
    doubts.append(two_ended_reading_u(0, own_u_mm=row.doubt_um / 1000, take_up=bool(row.take_up_um)) * factor)
    doubts.append(two_ended_reading_u(plate.rule.mm, take_up=bool(hand_take_up)) * factor)
    if plate.scale_kind == Plate.ScaleKind.FIGURES:
        # A printed figure is not read off the drawing, and knows nothing of how well that was drawn.
        doubts.append(plate.drawing.mm)
    return ReadingPair(
        row=row,
        calibration=calibration,
        hand=hand,
        hand_take_up=hand_take_up,
        apart_mm=apart_mm,
        u_mm=math.hypot(*doubts),
        is_given=(row.piece_id, row.line) in given,
    )
