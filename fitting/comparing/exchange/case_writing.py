"""A case as JSON that reads back as the same case: what a stored comparison keeps, defaults and all."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from catalogue.plates.calculation.readings import DrawnPiece, FastenedWidth, PageReading, PlateReadings
from catalogue.plates.calculation.scale import Scale
from fitting.comparing.calculation.case import Case, Patterns
from fitting.comparing.calculation.limits import Limits
from fitting.comparing.calculation.routes import SKILL_OF
from fitting.comparing.exchange.case_file import FORMAT, VERSION
from fitting.wearers.calculation.body import Body


def case_to_json(case: Case) -> dict[str, Any]:
    """The keys that `case_from_json` reads, and that `assess` reads from a file."""
    plate = case.plate
    optional = {
        "stand": None if case.stand_mm is None else {"girths": _lengths(case.stand_mm)},
        "days_left": case.days_left,
        "other_patterns": case.patterns_in_hand is Patterns.WITHOUT_PARTS or None,
        "draft_in_catalogue": case.has_draft or None,
    }
    return {
        "format": FORMAT,
        "version": VERSION,
        "scale": _scale(plate.scale),
        "seam_allowance": {"drawn": _allowance(plate.allowance_mm)},
        "rule_division": length_text(plate.rule_division_mm),
        "drawing_doubt": length_text(plate.drawing_doubt_mm),
        "pieces": [_piece(piece) for piece in plate.pieces],
        "fastening": {
            "overlap": _fastened(plate.overlap, plate),
            "lacing_gap": _fastened(plate.lacing_gap, plate),
        },
        "lengths": {line: _length(readings) for line, readings in plate.lengths.items()},
        "measures": _measures(case.body),
        "ease": _lengths(case.ease_mm),
        "fit": {line: fit.value for line, fit in case.fit.items()},
        "limits": _limits(case.limits),
        "purpose": case.purpose.value,
        "seams": {
            "recorded": case.seams.recorded,
            "inferred": case.seams.inferred,
            "tried": case.seams.tried,
            "unknown": case.seams.unknown,
        },
        "skills": {name: case.skill(name).value for name in SKILL_OF.values()},
        "patterns_in_hand": case.patterns_in_hand is Patterns.WITH_PARTS,
        "hours_a_day": case.hours_a_day,
        "hours": {route.value: hours for route, hours in case.hours.items()},
    } | {key: value for key, value in optional.items() if value is not None}


def length_text(mm: float) -> str:
    """A length as text that reads back: exactly what people type, to a picometre what was reckoned."""
    return f"{f'{mm:.9f}'.rstrip('0').rstrip('.')} mm"


def _lengths(by_line: Mapping[str, float]) -> dict[str, str]:
    return {line: length_text(mm) for line, mm in by_line.items()}


def _scale(scale: Scale) -> dict[str, Any]:
    across = {} if scale.across == scale.along else {"ratio_across": _ratio(scale.across)}
    return {"ratio": _ratio(scale.along), **across, "relative_doubt": scale.relative_doubt}


def _ratio(factor: float) -> str:
    return f"1:{Decimal(repr(factor)):f}"


def _allowance(allowance_mm: float | None) -> str:
    if allowance_mm is None:
        return "not known"
    return length_text(allowance_mm) if allowance_mm else "none"


def _piece(piece: DrawnPiece) -> dict[str, Any]:
    taken_up = {level: reading.take_up_mm for level, reading in piece.readings.items() if reading.take_up_mm}
    edges = {} if piece.edges is None else {"edges": piece.edges}
    traced = {level: reading.u_mm for level, reading in piece.readings.items() if reading.u_mm is not None}
    return {
        "name": piece.name,
        "cut": piece.cut,
        "on_fold": piece.on_fold,
        **edges,
        "readings": {level: length_text(reading.length_mm) for level, reading in piece.readings.items()},
        "take_up": _lengths(taken_up),
        **({"doubt": _lengths(traced)} if traced else {}),
    }


def _fastened(width: FastenedWidth, plate: PlateReadings) -> str | dict[str, str]:
    if not width.at_mm:
        return length_text(width.everywhere_mm)
    return {level: length_text(width.at(level)) for level in plate.levels}


def _length(readings: tuple[PageReading, ...]) -> dict[str, Any] | list[dict[str, Any]]:
    written = [
        {
            "reading": length_text(reading.length_mm),
            "take_up": length_text(reading.take_up_mm),
            "crossed_ends": reading.crossed_ends,
            **({} if reading.u_mm is None else {"doubt": length_text(reading.u_mm)}),
        }
        for reading in readings
    ]
    return written[0] if len(written) == 1 else written


def _measures(body: Body) -> dict[str, Any]:
    measured = {**body.girths, **body.lengths}
    stale = {"stale": body.stale} if body.stale else {}
    return {
        "state": body.state,
        "girths": {line: length_text(measure.mm) for line, measure in body.girths.items()},
        "lengths": {line: length_text(measure.mm) for line, measure in body.lengths.items()},
        "doubt": {line: length_text(measure.doubt_mm) for line, measure in measured.items()},
        **stale,
    }


def _limits(limits: Limits) -> dict[str, Any]:
    edges = limits.edges_that_may_take
    return {
        "fits": length_text(limits.fits_mm),
        "add": length_text(limits.add_mm),
        "take_off": length_text(limits.take_off_mm),
        "per_edge": length_text(limits.per_edge_mm),
        **({} if edges is None else {"edges_that_may_take": edges}),
        "length_fits": length_text(limits.length_fits_mm),
        "length_alter": length_text(limits.length_alter_mm),
        "grade_far": length_text(limits.grade_far_mm),
        "grade_too_far": length_text(limits.grade_too_far_mm),
    }
