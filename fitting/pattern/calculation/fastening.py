"""Bones, lacing, buttons, hooks and piping: how many, how far apart, how long."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.units import INCH_MM
from fitting.pattern.calculation.limits import check, counted, unfit

# Common practice, no source: a bone ends a quarter inch short of each end of its channel, so that it does not
# work through, and a channel is an eighth wider than its bone.
BONE_SHORTER_MM = INCH_MM / 2
CHANNEL_WIDER_MM = INCH_MM / 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Boning:
    """Bones for channels of given lengths, each twice where the sides are alike."""

    bones_mm: tuple[float, ...]
    channel_width_mm: float

    @property
    def count(self) -> int:
        return len(self.bones_mm)

    @property
    def total_mm(self) -> float:
        return sum(self.bones_mm)


def boning(channels_mm: Sequence[float], *, bone_width_mm: float, sides: int = 2) -> Boning:
    """One bone for each channel on each side. Raises Faults for a channel too short for a bone."""
    faults = [
        Fault(f"channels[{at}]", "This channel is too short to hold a bone.")
        for at, channel in enumerate(channels_mm)
        if not channel > BONE_SHORTER_MM
    ]
    faults += unfit({f"channels[{at}]": max(channel, 1) for at, channel in enumerate(channels_mm)})
    faults += unfit({"bone_width": bone_width_mm})
    if faults:
        raise Faults(faults)
    bones = tuple(channel - BONE_SHORTER_MM for channel in channels_mm for _ in range(sides))
    return Boning(bones_mm=bones, channel_width_mm=bone_width_mm + CHANNEL_WIDER_MM)


@dataclass(frozen=True, slots=True, kw_only=True)
class FastenerRow:
    """Holes, buttons or hooks in a row, from its start; `spacing_mm` as corrected to come out even."""

    places_mm: tuple[float, ...]
    spacing_mm: float

    @property
    def count(self) -> int:
        return len(self.places_mm)


def even_row(
    length_mm: float, *, spacing_mm: float, first_mm: float = 0.0, last_mm: float = 0.0
) -> FastenerRow:
    """The nearest whole number of spaces between the first, so far from the start, and the last from the end.

    Raises Faults where nothing is left between them.
    """
    check(
        {"length": length_mm, "spacing": spacing_mm, "first": first_mm, "last": last_mm},
        may_be_nothing=["first", "last"],
    )
    between_mm = length_mm - first_mm - last_mm
    if between_mm <= 0:
        raise Faults([Fault("length", "The ends leave no room between the first and the last.")])
    count = counted(between_mm / spacing_mm, where="spacing", what="of them")
    spaces = max(1, math.floor(count + 0.5))
    step_mm = between_mm / spaces
    return FastenerRow(
        places_mm=tuple(first_mm + step_mm * at for at in range(spaces + 1)), spacing_mm=step_mm
    )


def row_with_one_at(
    length_mm: float, *, spacing_mm: float, at_mm: float, first_mm: float = 0.0, last_mm: float = 0.0
) -> tuple[FastenerRow, FastenerRow]:
    """Two rows that share their place at `at_mm`, such as a button at the waist where the strain is."""
    above = even_row(at_mm, spacing_mm=spacing_mm, first_mm=first_mm)
    below = even_row(length_mm - at_mm, spacing_mm=spacing_mm, last_mm=last_mm)
    return above, FastenerRow(
        places_mm=tuple(at_mm + place for place in below.places_mm), spacing_mm=below.spacing_mm
    )


def between_holes_mm(*, gap_mm: float, from_edges_mm: Sequence[float] = ()) -> float:
    """How far apart the holes lie across: the edges `gap_mm` apart to get in, each hole in from its edge."""
    named = {f"from_edge_{at}": mm for at, mm in enumerate(from_edges_mm, start=1)}
    check({"gap": gap_mm, **named}, may_be_nothing=["gap", *named])
    return gap_mm + sum(from_edges_mm)


def crossed_lace_mm(row: FastenerRow, *, across_mm: float, ends_mm: float = 0.0) -> float:
    """A lace crossing from hole to hole, as long as it must be with the holes `across_mm` apart to get in.

    One bar straight across, then two crossings for each space; `ends_mm` to tie, at both ends.
    """
    check({"across": across_mm, "ends": ends_mm}, may_be_nothing=["across", "ends"])
    return across_mm + 2 * (row.count - 1) * math.hypot(across_mm, row.spacing_mm) + 2 * ends_mm


def spiral_lace_mm(row: FastenerRow, *, across_mm: float, ends_mm: float = 0.0) -> float:
    """One lace from side to side in holes set half a space apart, each higher than the last.

    As long as it must be with the holes `across_mm` apart to get in; `ends_mm` to tie, at both ends.
    """
    check({"across": across_mm, "ends": ends_mm}, may_be_nothing=["across", "ends"])
    crossings = 2 * row.count - 1
    return crossings * math.hypot(across_mm, row.spacing_mm / 2) + 2 * ends_mm


def piping_strip_mm(*, cord_mm: float, allowance_mm: float) -> float:
    """The width of a bias strip round a cord of that thickness, with an allowance on both sides."""
    check({"cord": cord_mm, "allowance": allowance_mm}, may_be_nothing=["allowance"])
    return math.pi * cord_mm + 2 * allowance_mm
