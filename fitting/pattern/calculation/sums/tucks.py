"""Tucks side by side: any unknown from the others, in whole tucks.

Tucks are stitched down, so spacing counts from stitching to stitching: finished = spacing × (number − 1) and
the two edges, flat = finished + 2 × depth × number.
"""

import math
from collections.abc import Iterator
from dataclasses import asdict, dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.limits import MOST_PARTS, counted, unfit
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.declaration import Answer, Given, PatternSum
from fitting.pattern.calculation.sums.folded_row import AGREES_MM, changed, corrected, disagreeing
from fitting.pattern.calculation.sums.garment import at_waist
from fitting.pattern.calculation.sums.sheet_answer import AnswerLine, SheetAnswer, Sum
from fitting.pattern.calculation.sums.strips import STRIPS, in_strips, strips_told

_TOO_FEW = "Give three of the five, such as finished length, spacing and depth."
_SLIP = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Tucks:
    """A row of tucks. `corrected` names what was asked for and is no longer so, since tucks are whole."""

    number: int
    finished_mm: float
    flat_mm: float
    spacing_mm: float
    depth_mm: float
    corrected: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class TuckGivens:
    """What is known of a row of tucks; None is asked for."""

    finished: float | None = None
    flat: float | None = None
    number: int | None = None
    spacing: float | None = None
    depth: float | None = None


def tucks(known: TuckGivens, *, edge_mm: float = 0.0) -> Tucks:
    """The row that what is known makes, in millimetres, its outer tucks `edge_mm` from the edges.

    Over a finished length they come no farther apart than asked: the spacing is made a little less to come
    out even. Raises Faults where too little is known, where it disagrees, or where the edges leave no room.
    """
    faults = [*unfit(asdict(known)), *unfit({"edge": edge_mm}, may_be_nothing=["edge"])]
    if known.finished is not None and known.finished <= 2 * edge_mm:
        faults.append(Fault("edge", "The edges leave no room for tucks."))
    count = None if faults else _count(known, edge_mm)
    if count is None:
        raise Faults(faults or [Fault("finished", _TOO_FEW)])
    if count < 2:
        raise Faults([Fault("number", "A row has two tucks at least: one has nothing to be spaced from.")])
    row = _row(known, count, edge_mm)
    if faults := [
        *_impossible(row),
        *disagreeing(asdict(known), {"spacing": row.spacing_mm, "depth": row.depth_mm}, row.corrected),
    ]:
        raise Faults(faults)
    return row


def _count(known: TuckGivens, edge_mm: float) -> int | None:
    """How many whole tucks; None where that does not follow."""
    count = _parts(known, edge_mm)
    return None if count is None else math.floor(counted(count, where="spacing", what="tucks"))


def _parts(known: TuckGivens, edge_mm: float) -> float | None:
    finished, flat, spacing, depth = known.finished, known.flat, known.spacing, known.depth
    if known.number is not None:
        return known.number
    if finished is not None and spacing is not None:
        return math.ceil((finished - 2 * edge_mm) / spacing - _SLIP) + 1.0
    if flat is None or depth is None:
        return None
    if finished is not None:
        return (flat - finished) / (2 * depth) + 0.5
    if spacing is not None:
        return (flat - 2 * edge_mm + spacing) / (spacing + 2 * depth) + _SLIP
    return None


def _row(known: TuckGivens, number: int, edge_mm: float) -> Tucks:
    finished = known.finished
    if finished is None and known.flat is not None and known.depth is not None:
        finished = known.flat - 2 * known.depth * number
    elif finished is None and known.spacing is not None:
        finished = known.spacing * (number - 1) + 2 * edge_mm
    if finished is None:
        raise Faults([Fault("finished", _TOO_FEW)])
    depth = known.depth if known.flat is None else (known.flat - finished) / (2 * number)
    if depth is None:
        raise Faults([Fault("depth", _TOO_FEW)])
    spacing = (finished - 2 * edge_mm) / (number - 1)
    return Tucks(
        number=number,
        finished_mm=finished,
        flat_mm=finished + 2 * depth * number,
        spacing_mm=spacing,
        depth_mm=depth,
        corrected=corrected(asdict(known), {"spacing": spacing, "depth": depth}),
    )


def _impossible(row: Tucks) -> Iterator[Fault]:
    if row.spacing_mm <= 0:
        yield Fault("depth", "The tucks take up all the cloth and more: nothing is left between them.")
    elif row.depth_mm <= 0:
        yield Fault("flat", "The flat cloth is no longer than the finished length: nothing is left to tuck.")


def _reckon(
    *, number: int | None, finished_mm: float | None, flat_mm: float | None, spacing_mm: float | None,
    depth_mm: float | None, edge_mm: float, strips: object,
) -> Tucks:  # fmt: skip
    known = TuckGivens(finished=finished_mm, flat=flat_mm, number=number, spacing=spacing_mm, depth=depth_mm)
    return tucks(known, edge_mm=edge_mm)


def _answer(row: Tucks, given: Given) -> Answer:
    return asdict(row) | strips_told(row.flat_mm, given["strips"])


def _worked(row: Tucks, given: Given) -> SheetAnswer:
    spaces, room_mm = row.number - 1, row.finished_mm - 2 * given["edge_mm"]
    flat = (row.finished_mm, f" + 2 × {row.number} × ", row.depth_mm, " = ", row.flat_mm)
    worked = SheetAnswer(
        figures={
            "number": row.number,
            "finished": row.finished_mm,
            "flat": row.flat_mm,
            "spacing": row.spacing_mm,
            "depth": row.depth_mm,
        },
        lines=(
            AnswerLine(label="tucks", parts=(f"{row.number}, with {spaces} spaces between",)),
            AnswerLine(label="spacing", parts=(room_mm, f" ÷ {spaces} = ", row.spacing_mm)),
            AnswerLine(label="depth", parts=(row.depth_mm,)),
            AnswerLine(label="flat cloth", parts=flat),
        ),
        flags=tuple(_flags(row, given)),
    )
    return in_strips(worked, row.flat_mm, given["strips"])


def _flags(row: Tucks, given: Given) -> Iterator[Sum]:
    yield from changed(given, {"spacing": row.spacing_mm, "depth": row.depth_mm}, row.corrected, what="tucks")
    if row.depth_mm > row.spacing_mm + AGREES_MM:
        yield ("Each tuck lies over the stitching of the next.",)


TUCKS = PatternSum(
    key="tucks",
    title="tucks",
    says="Tucks side by side, spaced to come out even: give what is known, get the rest.",
    group="Fullness and pleats",
    command="fullness",
    inputs=(
        ask.Length("finished", "Finished length", first=at_waist),
        ask.Length("flat", "Flat cloth"),
        ask.Whole("number", "How many", most=MOST_PARTS),
        ask.Length("spacing", "At most so far apart, stitching to stitching", first=25.4),
        ask.Length(
            "depth",
            "Depth of a tuck",
            first=6.35,
            hint="Give three of these five; the others follow, in whole tucks.",
        ),
        ask.Length("edge", "The outer ones so far from the edges", default="0 in"),
        STRIPS,
    ),
    reckon=_reckon,
    worked=_worked,
    answer=_answer,
)
