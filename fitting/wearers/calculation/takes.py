"""Several takes of one measure become one measure with its doubt.

Repeated takes give their own doubt, the standard deviation of their mean (JCGM 100:2008, 4.2.3), but never
less than a tape can show. A single take has the doubt of the hand that took it.
"""

import math
import statistics
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from catalogue.lengths.calculation.doubt import two_ended_reading_u
from catalogue.lengths.calculation.errors import Fault
from catalogue.lengths.calculation.lengths import System, format_length
from catalogue.lengths.calculation.levels import LINES, Kind
from fitting.wearers.calculation.body import (
    LENGTH_SENT_IN_MM,
    LENGTH_TRAINED_HAND_MM,
    SENT_IN_MM,
    TRAINED_HAND_MM,
    BodyMeasure,
)

TAPE_DIVISION_MM = 25.4 / 8
# The doubt of a single take: by a trained hand, and sent in by the wearer.
SINGLE_MM: Mapping[Kind, tuple[float, float]] = {
    "girth": (TRAINED_HAND_MM, SENT_IN_MM),
    "length": (LENGTH_TRAINED_HAND_MM, LENGTH_SENT_IN_MM),
}
MOST_APART = 0.1  # of their mean; common practice, no source: beyond it one of the takes is a slip


@dataclass(frozen=True, slots=True, kw_only=True)
class Taking:
    """One taking. `side` is empty, or left, right, front or back."""

    line: str
    side: str
    mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LineTakes:
    """All takes of one line: `sides` holds what was taken apart, `measure` what the line comes to."""

    line: str
    measure: BodyMeasure
    count: int
    sides: Mapping[str, BodyMeasure]


def taken_by_line(takes: Iterable[Taking], *, is_sent_in: bool = False) -> dict[str, LineTakes]:
    """Return what each line comes to, in the order of `LINES`.

    Takes of the whole count before takes of its sides. A front and a back arc make a girth; one arc alone
    makes none, and its line is left out. Of a left and a right girth a garment must pass the larger; a left
    and a right length are averaged (both common practice, no source).
    """
    grouped: dict[str, dict[str, list[float]]] = {}
    for take in takes:
        grouped.setdefault(take.line, {}).setdefault(take.side, []).append(take.mm)
    taken = {}
    for line in (line for line in LINES if line in grouped):
        single_mm = SINGLE_MM[LINES[line].kind][is_sent_in]
        measures = {side: _measure(mms, single_mm) for side, mms in grouped[line].items()}
        if measure := measures.get("") or _from_sides(line, measures):
            sides = {side: one for side, one in measures.items() if side}
            count = max(len(mms) for mms in grouped[line].values())
            taken[line] = LineTakes(line=line, measure=measure, count=count, sides=sides)
    return taken


def takes_far_apart(takes: Iterable[Taking], *, system: System = "in") -> Iterator[Fault]:
    """What to ask about takes that cannot all be right, by the keys of `LINES`."""
    grouped: dict[tuple[str, str], list[float]] = {}
    for take in takes:
        grouped.setdefault((take.line, take.side), []).append(take.mm)
    for (line, side), mms in grouped.items():
        least, most = min(mms), max(mms)
        if most - least > MOST_APART * statistics.fmean(mms):
            shown = f"{format_length(least, system=system)} and {format_length(most, system=system)}"
            of_side = f" of the {side}" if side else ""
            yield Fault(line, f"{shown} are far apart for takes{of_side}: measure once more.")


def _measure(mms: list[float], single_mm: float) -> BodyMeasure:
    if len(mms) == 1:
        return BodyMeasure(mm=mms[0], doubt_mm=single_mm)
    of_mean_mm = statistics.stdev(mms) / math.sqrt(len(mms))
    return BodyMeasure(
        mm=statistics.fmean(mms), doubt_mm=max(of_mean_mm, two_ended_reading_u(TAPE_DIVISION_MM))
    )


def _from_sides(line: str, measures: Mapping[str, BodyMeasure]) -> BodyMeasure | None:
    if "front" in measures and "back" in measures:
        front, back = measures["front"], measures["back"]
        return BodyMeasure(mm=front.mm + back.mm, doubt_mm=math.hypot(front.doubt_mm, back.doubt_mm))
    pair = [measures[side] for side in ("left", "right") if side in measures]
    if not pair:
        return None
    if LINES[line].kind == "girth":
        return max(pair, key=lambda one: one.mm)
    doubt_mm = math.hypot(*(one.doubt_mm for one in pair)) / len(pair)
    return BodyMeasure(mm=statistics.fmean(one.mm for one in pair), doubt_mm=doubt_mm)
