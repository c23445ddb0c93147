"""Outlines of a file become traced pieces of a plate: all that were chosen, or none.

A plate that has outlines and no scan gets a sheet: the program draws it, so that it is calibrated by
construction.
"""

import io
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any
from uuid import uuid4

import numpy as np
from django.db import transaction
from PIL import Image, ImageDraw

from catalogue.plates.actions import next_place
from catalogue.plates.calculation.scale import RELATIVE_DOUBT
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.tracing.actions.scan import new_calibration
from catalogue.tracing.actions.tracing import (
    ChangedElsewhere,
    keep_outline,
    trace_stamp,
)
from catalogue.tracing.calculation.calibration import PixelMap
from catalogue.tracing.calculation.outline import Outline
from catalogue.tracing.calculation.tracing import LevelLine, TracedShape
from catalogue.tracing.loading.outlines import (
    current_calibration,
    level_pixels,
    levels_of,
    map_of,
    shape_to_json,
)
from catalogue.tracing.models import Calibration, PlateScan, TracedLevel
from catalogue.workroom.files import put, remove
from catalogue.workroom.index.filing import refiled
from catalogue.workroom.models import User
from catalogue.workroom.work.engine import do_at_once

MARGIN_MM = 50.0
FINEST_MM = 0.5  # of a pixel: as fine as a scan of a plate of 1:8 at 400 dots to the inch
MOST_PIXELS = 3_000_000
PAPER, PENCIL = 255, 130
SAME_MM = 0.1  # a level line this near to one of the plate is that one


def begin_sheet(*, plate: Plate, outlines: Sequence[Outline], by: User, at: datetime) -> Calibration:
    """The sheet as the plate's scan, cut and calibrated: within the caller's transaction.

    Its doubt is that of what the outlines were drawn from, which the plate's row says.
    """
    points = [outline.flattened(0.5) for outline in outlines]
    corner, far = _box([point for line in points for point in line])
    across, down = far.real - corner.real, far.imag - corner.imag
    step = max(FINEST_MM, math.sqrt(across * down / MOST_PIXELS), max(across, down) / 30_000)
    doubt = RELATIVE_DOUBT[plate.read_from]
    matrix = np.array([[step, 0, corner.real], [0, step, corner.imag], [0, 0, 1]])
    found = PixelMap(matrix=matrix, relative_doubt=doubt, worst_doubt=doubt)
    picture = Image.new("L", (math.ceil(across / step), math.ceil(down / step)), PAPER)
    for line in points:
        pixels = [((at.real - corner.real) / step, (at.imag - corner.imag) / step) for at in line]
        ImageDraw.Draw(picture).line([*pixels, pixels[0]], fill=PENCIL, width=2)
    return _kept(plate, picture, found, by, at)


def _box(points: Sequence[complex]) -> tuple[complex, complex]:
    across, down = [point.real for point in points], [point.imag for point in points]
    margin = complex(MARGIN_MM, MARGIN_MM)
    return complex(min(across), min(down)) - margin, complex(max(across), max(down)) + margin


def _kept(plate: Plate, picture: Image.Image, found: PixelMap, by: User, at: datetime) -> Calibration:
    width, height = picture.size
    scan = PlateScan(plate=plate, stem=uuid4().hex, width=width, height=height)
    drawn = io.BytesIO()
    picture.save(drawn, "PNG")
    try:
        put(scan.original, drawn)
        scan.save()
        given = {"points": [], "lengths": {}}
        way = Calibration.Way.DRAWN
        calibration = new_calibration(scan=scan, way=way, found=found, given=given, by=by, at=at)
        for tiled in (scan, calibration):
            # Cut here and not by a process of their own: the outlines are seen once their sheet is ready.
            work = do_at_once(tiled, at=at)
            if not work.is_done:
                raise OSError(work.fault)
    except BaseException:
        remove(scan.folder)
        raise
    return calibration


@dataclass(frozen=True, slots=True, kw_only=True)
class ChosenOutline:
    """An outline and whose it is to be: `piece`, or a new one with this name and these columns."""

    shape: TracedShape
    piece: Piece | None
    name: str = ""
    facts: Mapping[str, Any] = field(default_factory=dict)


@transaction.atomic
def take_outlines(
    *,
    plate: Plate,
    chosen: Sequence[ChosenOutline],
    levels: Sequence[LevelLine],
    as_of: str,
    by: User,
    at: datetime,
) -> None:
    """Keep the outlines chosen and these level lines. What was traced of other pieces stays.

    `as_of` is the stamp (`trace_stamp`) of when it was chosen. Raises ChangedElsewhere, and
    GeometryNotUnderstood for what lies too far off the plate's scan.
    """
    if as_of != trace_stamp(plate):
        raise ChangedElsewhere
    calibration = current_calibration(plate) or begin_sheet(
        plate=plate, outlines=[one.shape.outline for one in chosen], by=by, at=at
    )
    flat = map_of(calibration)
    with refiled(plate.reference):
        for one in chosen:
            piece = one.piece or _new_piece(plate, one)
            keep_outline(piece=piece, given=shape_to_json(one.shape), flat=flat)
        for level in levels:
            ends = [[level.start.real, level.start.imag], [level.end.real, level.end.imag]]
            line, points = level_pixels({"line": level.line, "points": ends}, flat)
            TracedLevel.objects.create(plate=plate, line=line, points=points)


def _new_piece(plate: Plate, one: ChosenOutline) -> Piece:
    has_fold = any(mark.kind == "fold" for mark in one.shape.marks)
    usual = {"cut": 2 if plate.is_half and not has_fold else 1, "on_fold": has_fold}
    return Piece.objects.create(plate=plate, order=next_place(plate), name=one.name, **(usual | one.facts))


def levels_to_add(plate: Plate, levels: Sequence[LevelLine]) -> list[LevelLine]:
    """The level lines of a file that the plate does not have yet."""
    calibration = current_calibration(plate)
    held = levels_of(plate, map_of(calibration)) if calibration else []
    return [level for level in levels if not any(_are_same(level, one) for one in held)]


def _are_same(one: LevelLine, other: LevelLine) -> bool:
    apart = max(abs(one.start - other.start), abs(one.end - other.end))
    return one.line == other.line and apart < SAME_MM
