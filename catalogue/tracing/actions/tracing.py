"""What was traced is kept whole, becomes readings when a person asks, and can be laid on the printed line.

A reading that stands by a tracing is never a copy left behind: it is derived, and written anew with the index
cards of its garment (`workroom/index/filing.py`), within the transaction of whatever changed an outline, a
level, a calibration or the plate's scale.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any

import numpy as np
from django.db import transaction
from django.db.models import Q
from django.utils import timezone

from catalogue.lengths.models import TypedLength
from catalogue.plates.models.piece import Piece, Reading
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.calibration import PixelMap
from catalogue.tracing.calculation.outline import Node
from catalogue.tracing.calculation.printed_line import REACH_PX, onto_printed_line
from catalogue.tracing.imaging import part_of
from catalogue.tracing.loading.levels import cut_levels
from catalogue.tracing.loading.outlines import current_calibration, level_pixels, map_of, pixels_of
from catalogue.tracing.loading.readings import readings_given
from catalogue.tracing.models import PlateScan, TracedLevel, TracedPiece, TracedReading
from catalogue.workroom.files import is_there
from catalogue.workroom.index.filing import file_references

BESIDE_PX = int(4 * REACH_PX)  # of the picture, round about the outline


class ChangedElsewhere(Exception):
    """Somebody else traced on this plate since the page was loaded."""


def trace_stamp(plate: Plate) -> str:
    """Changes whenever something is traced on the plate, or its scan is calibrated.

    A page speaks in millimetres: kept by another calibration than it was loaded with, all of it would move.
    """
    calibration = current_calibration(plate)
    stamps = [row.changed_at for row in TracedPiece.objects.filter(piece__plate=plate)]
    stamps += [row.changed_at for row in plate.traced_levels.all()]
    newest = max(stamps, default=datetime.min).isoformat()
    return f"{calibration.number if calibration else 0}/{len(stamps)}/{newest}"


@transaction.atomic
def keep_trace(*, plate: Plate, drawing: Mapping[str, Any], flat: PixelMap, as_of: str | None) -> datetime:
    """Keep all outlines and level lines of a plate as they stand on a page; return when.

    `as_of` is the stamp that the page was loaded or last kept with; None keeps in any case.
    Raises ChangedElsewhere, GeometryNotUnderstood.
    """
    if as_of is not None and as_of != trace_stamp(plate):
        raise ChangedElsewhere
    pieces = {piece.pk: piece for piece in plate.pieces.all()}
    for given in drawing["pieces"]:
        # A piece that was deleted meanwhile takes its outline with it.
        if piece := pieces.get(given["piece"]):
            keep_outline(piece=piece, given=given, flat=flat)
    _keep_levels(plate, drawing["levels"], flat)
    file_references({plate.reference_id})
    return timezone.now()


@transaction.atomic
def keep_typed(
    *, piece: Piece, given: Mapping[str, Any], levels: Sequence[Mapping[str, Any]], flat: PixelMap
) -> None:
    """Keep one piece's outline and marks, and the level lines of its plate. Raises GeometryNotUnderstood."""
    keep_outline(piece=piece, given=given, flat=flat)
    _keep_levels(piece.plate, levels, flat)
    file_references({piece.plate.reference_id})


def _keep_levels(plate: Plate, given: Sequence[Mapping[str, Any]], flat: PixelMap) -> None:
    levels = [level_pixels(one, flat) for one in given]
    plate.traced_levels.all().delete()
    for line, points in levels:
        TracedLevel.objects.create(plate=plate, line=line, points=points)


@transaction.atomic
def move_level(*, plate: Plate, key: str) -> None:
    """Draw a level on the other side of the edge that cuts it short, on every piece that it crosses.

    `key` is of what was shown (`cut_levels`). Raises ChangedElsewhere where that is no more.
    """
    calibration = current_calibration(plate)
    cut = next((one for one in cut_levels(plate) if one.key == key and one.cut.moved), None)
    if calibration is None or cut is None or cut.cut.moved is None:
        raise ChangedElsewhere
    ends = map_of(calibration).to_px([cut.cut.moved.start, cut.cut.moved.end])
    cut.row.points = [[end.real, end.imag] for end in ends]
    cut.row.save()
    file_references({plate.reference_id})


def keep_outline(*, piece: Piece, given: Mapping[str, Any], flat: PixelMap) -> None:
    nodes, marks = pixels_of(given, flat)
    if nodes or marks:
        TracedPiece.objects.update_or_create(piece=piece, defaults={"nodes": nodes, "marks": marks})
    else:
        TracedPiece.objects.filter(piece=piece).delete()


@transaction.atomic
def follow_tracings(references: Collection[int]) -> None:
    """Write anew what tracings give on all plates of these garments, and the readings that stand by them.

    What was typed over stands as typed. Where a tracing gives nothing any more, as while a level is drawn
    anew, a reading stays as it was last traced: its page says so.
    """
    of_tracings = Q(scan__isnull=False) | Q(pieces__traced_readings__isnull=False)
    for plate in Plate.objects.filter(of_tracings, reference__in=references).distinct():
        _follow(plate)


def _follow(plate: Plate) -> None:
    given = readings_given(plate)
    traced = Reading.objects.filter(piece__plate=plate, doubt_um__isnull=False)
    standing = {(reading.piece_id, reading.line): reading for reading in traced}
    has_followed = False
    for row in TracedReading.objects.filter(piece__plate=plate):
        fresh = given.pop((row.piece_id, row.line), None)
        reading = standing.get((row.piece_id, row.line)) if row.is_used else None
        if fresh is None:
            if reading is None:
                row.delete()
            continue
        if row.is_used and reading is None:
            row.is_used, row.hand, row.hand_take_up = False, None, None
            row.save()
        if _sizes(row) != _sizes(fresh):
            row.reading_um, row.take_up_um, row.doubt_um = _sizes(fresh)
            row.save()
        if reading is not None and _sizes(reading) != _sizes(row):
            _fill(row)
            has_followed = True
    TracedReading.objects.bulk_create(given.values())
    if has_followed:
        # Also marks the plate as changed: whoever types on an older sheet of readings is told.
        plate.save()


def _sizes(row: Reading | TracedReading) -> tuple[int, int | None, int | None]:
    return row.reading_um, row.take_up_um, row.doubt_um


@transaction.atomic
def use_traced(*, readings: Iterable[TracedReading]) -> None:
    """Let these stand in the plate's table; what was read by hand there is kept beside them."""
    readings = list(readings)
    for row in readings:
        by_hand = Reading.objects.filter(piece=row.piece, line=row.line).first()
        if by_hand and not row.is_used:
            row.hand, row.hand_take_up = by_hand.reading, by_hand.take_up
        row.is_used = True
        row.save()
        _fill(row)
    file_references({row.piece.plate.reference_id for row in readings})


@transaction.atomic
def put_back_by_hand(*, readings: Iterable[TracedReading]) -> None:
    """Let what was read by hand stand again; where there was nothing the reading goes."""
    readings = list(readings)
    for row in readings:
        for reading in Reading.objects.filter(piece=row.piece, line=row.line):
            if row.hand is None:
                reading.delete()
            else:
                reading.reading, reading.take_up, reading.doubt_um = row.hand, row.hand_take_up, None
                reading.save()
        row.is_used, row.hand, row.hand_take_up = False, None, None
        row.save()
    file_references({row.piece.plate.reference_id for row in readings})


def _fill(row: TracedReading) -> None:
    Reading.objects.update_or_create(
        piece=row.piece,
        line=row.line,
        defaults={
            "reading": _written_out(row.reading_um),
            "take_up": _written_out(row.take_up_um) if row.take_up_um else None,
            "doubt_um": row.doubt_um,
        },
    )


def _written_out(um: int) -> TypedLength:
    """To the micrometre, so that a sheet of readings that is kept unchanged does not round it."""
    return TypedLength(text=f"{um / 1000:.3f} mm", um=um)


def laid_on_print(*, scan: PlateScan, nodes: list[Mapping[str, Any]], flat: PixelMap) -> list[dict[str, Any]]:
    """Nodes as a page has them (millimetres) on the printed line. Raises GeometryNotUnderstood."""
    rows, _ = pixels_of({"nodes": nodes, "marks": []}, flat)
    if not rows:
        return []
    across, down = ([row[axis] for row in rows] for axis in ("x", "y"))
    left, top = (max(0, int(min(places)) - BESIDE_PX) for places in (across, down))
    right = min(scan.width, int(max(across)) + BESIDE_PX)
    bottom = min(scan.height, int(max(down)) + BESIDE_PX)
    if right <= left or bottom <= top:
        return list(map(dict, nodes))
    if not is_there(scan.tiles):
        return list(map(dict, nodes))
    corner = complex(left, top)
    grey = np.asarray(part_of(scan.tiles, scan.size, (left, top, right, bottom)))
    traced = [
        Node(at=complex(row["x"], row["y"]) - corner, corner=row["corner"], curved=row["curved"])
        for row in rows
    ]
    laid = flat.to_mm([node.at + corner for node in onto_printed_line(traced, grey)])
    return [dict(node) | {"x": at.real, "y": at.imag} for node, at in zip(nodes, laid, strict=True)]
