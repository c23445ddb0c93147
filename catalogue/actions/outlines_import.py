"""Outlines of a file become traced pieces of a plate: all that were chosen, or none."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from django.db import transaction

from catalogue.actions.drawn_sheet import begin_sheet
from catalogue.actions.tracing import (
    ChangedElsewhere,
    keep_outline,
    refresh_traced_readings,
    trace_stamp,
)
from catalogue.measuring.tracing import LevelLine, TracedShape
from catalogue.models.trace import TracedLevel
from catalogue.outlines import current_calibration, level_pixels, levels_of, map_of, shape_to_json
from catalogue.plates.actions import next_place
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.workroom.index.filing import refiled
from catalogue.workroom.models import User

SAME_MM = 0.1  # a level line this near to one of the plate is that one


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
        refresh_traced_readings(plate=plate, flat=flat)


def _new_piece(plate: Plate, one: ChosenOutline) -> Piece:
    has_fold = any(mark.kind == "fold" for mark in one.shape.marks)
    usual = {"cut": 2 if plate.is_half and not has_fold else 1, "on_fold": has_fold}
    return Piece.objects.create(plate=plate, order=next_place(plate), name=one.name, **(usual | one.facts))


def levels_to_add(plate: Plate, levels: Sequence[LevelLine]) -> list[LevelLine]:
    """Those of a file that the plate does not have."""
    calibration = current_calibration(plate)
    held = levels_of(plate, map_of(calibration)) if calibration else []
    return [level for level in levels if not any(_are_same(level, one) for one in held)]


def _are_same(one: LevelLine, other: LevelLine) -> bool:
    apart = max(abs(one.start - other.start), abs(one.end - other.end))
    return one.line == other.line and apart < SAME_MM
