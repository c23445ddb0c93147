"""The lengths that a calibration was made from, and how far its map misses each."""

from dataclasses import dataclass

from catalogue.lengths.calculation.errors import NotUnderstood
from catalogue.lengths.models import TypedLength
from catalogue.tracing.calculation.known_lengths import KnownLength, Misfit, is_doubt_known, misfits
from catalogue.tracing.models import Calibration


@dataclass(frozen=True, slots=True, kw_only=True)
class GivenLength:
    """`name` as the maker calls it, or its number; `typed` its length as typed."""

    name: str
    typed: TypedLength
    misfit: Misfit


def known_lengths_of(calibration: Calibration) -> list[GivenLength]:
    """The lengths that a calibration was made from. Empty where it was made in another way, or where an
    archive brought it without them.
    """
    if calibration.way != Calibration.Way.LENGTHS:
        return []
    ends = [complex(x, y) for x, y in calibration.given["points"]]
    texts, names = calibration.given["lengths"], calibration.given.get("names", {})
    numbers = [str(number) for number in range(1, len(ends) // 2 + 1)]
    try:
        typed = [TypedLength.read(texts[number]) for number in numbers]
        found = misfits(
            [
                KnownLength(start=start, end=end, mm=one.mm)
                for start, end, one in zip(ends[::2], ends[1::2], typed, strict=True)
            ]
        )
    except (KeyError, ValueError, ZeroDivisionError, NotUnderstood):
        return []
    return [
        GivenLength(name=names.get(number) or f"length {number}", typed=one, misfit=misfit)
        for number, one, misfit in zip(numbers, typed, found, strict=True)
    ]


def lacks_doubt(calibration: Calibration) -> bool:
    """Whether it was made from so few lengths that nobody can say how far off it is."""
    count = len(calibration.given.get("lengths", {}))
    of_lengths = calibration.way in (Calibration.Way.AXES, Calibration.Way.LENGTHS)
    return of_lengths and not is_doubt_known(count)
