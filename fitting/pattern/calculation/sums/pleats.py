"""Pleats: any unknown from the others, in whole pleats, as a maker works them out.

Width is what shows of one pleat on the finished edge; depth is how far its fold reaches beneath. A fold
takes up twice its depth, so flat = finished + 2 × folds × depth × number. A cartridge pleat stands on edge:
nothing of it lies along the band, flat = 2 × depth × number, and its width is only the room it takes there.
"""

import math
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from enum import StrEnum

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.limits import MOST_PARTS, counted, unfit
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.declaration import Answer, Given, PatternSum
from fitting.pattern.calculation.sums.folded_row import AGREES_MM, changed, corrected, disagreeing
from fitting.pattern.calculation.sums.garment import at_waist
from fitting.pattern.calculation.sums.sheet_answer import AnswerLine, SheetAnswer, Sum, number
from fitting.pattern.calculation.sums.strips import STRIPS, in_strips, strips_told


class Pleat(StrEnum):
    KNIFE = "knife"
    BOX = "box"
    INVERTED = "inverted"
    DOUBLE_BOX = "double box"
    CARTRIDGE = "cartridge"

    @property
    def folds(self) -> int:
        return {Pleat.KNIFE: 1, Pleat.CARTRIDGE: 1, Pleat.DOUBLE_BOX: 4}.get(self, 2)

    @property
    def shows(self) -> int:
        """1 where its width is cloth of its own, 0 where it stands on edge."""
        return 0 if self is Pleat.CARTRIDGE else 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Pleats:
    """A row of pleats. `corrected` names what was asked for and is no longer so, since pleats are whole."""

    kind: Pleat
    number: int
    finished_mm: float
    flat_mm: float
    width_mm: float
    depth_mm: float
    corrected: tuple[str, ...] = ()

    @property
    def ratio(self) -> float:
        return self.flat_mm / self.finished_mm

    @property
    def overlap_mm(self) -> float:
        """How far folds lie over the folds of their neighbours, beneath: thick, though it can be sewn.

        Knife pleats have the whole width beneath each, the others half of it for the folds of each side.
        """
        if self.kind is Pleat.CARTRIDGE:
            return 0.0
        room_mm = self.width_mm if self.kind is Pleat.KNIFE else self.width_mm / 2
        return max(0.0, self.depth_mm - room_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class PleatGivens:
    """What is known of a row of pleats; None is asked for."""

    finished: float | None = None
    flat: float | None = None
    number: int | None = None
    width: float | None = None
    depth: float | None = None


_TOO_FEW = "Give three of the five, such as finished length, width and depth, or both lengths and the number."


def pleats(kind: Pleat, known: PleatGivens) -> Pleats:
    """The row that what is known makes, in millimetres; a width that gives no whole number is corrected.

    The number is the nearest. Width is corrected rather than depth, unless finished and flat length leave
    only the depth. Raises Faults where too little is known, where what is known disagrees, or where no
    cloth is left.
    """
    faults = list(unfit(asdict(known)))
    count = None if faults else _count(kind, known)
    if count is None:
        raise Faults(faults or [Fault("finished", _TOO_FEW)])
    number = max(1, math.floor(counted(count, where="width", what="pleats") + 0.5))
    row = _row(kind, known, number)
    faults = [
        *_impossible(row),
        *disagreeing(asdict(known), {"width": row.width_mm, "depth": row.depth_mm}, row.corrected),
    ]
    if faults:
        raise Faults(faults)
    return row


def _count(kind: Pleat, known: PleatGivens) -> float | None:
    """How many pleats, not made whole; None where that does not follow."""
    finished, flat, width, depth = known.finished, known.flat, known.width, known.depth
    if known.number is not None:
        return known.number
    if finished is not None and width is not None:
        return finished / width
    if flat is not None and depth is not None:
        if finished is not None:
            return (flat - kind.shows * finished) / (2 * kind.folds * depth)
        if width is not None:
            return flat / (kind.shows * width + 2 * kind.folds * depth)
    return None


def _row(kind: Pleat, known: PleatGivens, number: int) -> Pleats:
    taken = 2 * kind.folds * number
    if known.finished is not None:
        width: float | None = known.finished / number
    elif kind.shows and known.flat is not None and known.depth is not None:
        width = (known.flat - taken * known.depth) / number
    else:
        width = known.width
    if width is None:
        raise Faults([Fault("width", _TOO_FEW)])
    finished = number * width
    depth = known.depth if known.flat is None else (known.flat - kind.shows * finished) / taken
    if depth is None:
        raise Faults([Fault("depth", _TOO_FEW)])
    return Pleats(
        kind=kind,
        number=number,
        finished_mm=finished,
        flat_mm=kind.shows * finished + taken * depth,
        width_mm=width,
        depth_mm=depth,
        corrected=corrected(asdict(known), {"width": width, "depth": depth}),
    )


def _impossible(row: Pleats) -> Iterator[Fault]:
    if row.width_mm <= 0:
        yield Fault("depth", "The folds take up all the cloth and more: nothing is left to show.")
    elif row.depth_mm <= 0:
        yield Fault("flat", "The flat cloth is no longer than the finished length: nothing is left to fold.")


def _reckon(
    *, kind: Pleat, number: int | None, finished_mm: float | None, flat_mm: float | None,
    width_mm: float | None, depth_mm: float | None, strips: object,
) -> Pleats:  # fmt: skip
    known = PleatGivens(finished=finished_mm, flat=flat_mm, number=number, width=width_mm, depth=depth_mm)
    return pleats(kind, known)


def _answer(row: Pleats, given: Given) -> Answer:
    answer = asdict(row) | {"ratio": row.ratio, "overlap_mm": row.overlap_mm}
    return answer | strips_told(row.flat_mm, given["strips"])


def _worked(row: Pleats, given: Given) -> SheetAnswer:
    folds = f"{2 * row.kind.folds} × {row.number} × "
    lying = (row.finished_mm, " + ") if row.kind.shows else ()
    ratio = number(row.ratio)
    worked = SheetAnswer(
        figures={
            "number": row.number,
            "finished": row.finished_mm,
            "flat": row.flat_mm,
            "width": row.width_mm,
            "depth": row.depth_mm,
            "ratio": row.ratio,
            "overlap": row.overlap_mm,
        },
        lines=(
            AnswerLine(label="number", parts=(f"{row.number} {row.kind} pleats",)),
            AnswerLine(label="width", parts=(row.finished_mm, f" ÷ {row.number} = ", row.width_mm)),
            AnswerLine(label="depth", parts=(row.depth_mm,)),
            AnswerLine(label="flat cloth", parts=(*lying, folds, row.depth_mm, " = ", row.flat_mm)),
            AnswerLine(label="ratio", parts=(row.flat_mm, " ÷ ", row.finished_mm, f" = {ratio}")),
        ),
        flags=tuple(_flags(row, given)),
    )
    return in_strips(worked, row.flat_mm, given["strips"])


def _flags(row: Pleats, given: Given) -> Iterator[Sum]:
    yield from changed(given, {"width": row.width_mm, "depth": row.depth_mm}, row.corrected, what="pleats")
    if row.overlap_mm > AGREES_MM:
        over_mm = row.overlap_mm
        yield ("Folds lie over the folds of their neighbours by ", over_mm, ": thick, but it can be sewn.")


PLEATS = PatternSum(
    key="pleats",
    title="pleats",
    says="Knife, box, inverted, double box or cartridge pleats: give what is known, get the rest.",
    group="Fullness and pleats",
    command="fullness",
    inputs=(
        ask.Choice("kind", "Pleats", box="pleat", words=Pleat, first=Pleat.KNIFE),
        ask.Length("finished", "Finished length", first=at_waist),
        ask.Length(
            "flat", "Flat cloth", first=lambda known: known.flat_mm["waist"] if known.ratio("waist") else None
        ),
        ask.Whole("number", "How many", most=MOST_PARTS),
        ask.Length("width", "Width of one, as it shows", first=25.4),
        ask.Length(
            "depth",
            "Depth of a fold",
            first=lambda known: None if known.ratio("waist") else 25.4,
            hint="Give three of these five; the others follow, in whole pleats.",
        ),
        STRIPS,
    ),
    reckon=_reckon,
    worked=_worked,
    answer=_answer,
)
