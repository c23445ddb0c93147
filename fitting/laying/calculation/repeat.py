"""The repeat of a printed or woven pattern, and the places on the cloth at which pieces match.

Every piece has a matching point. Where all of these lie at one place of the repeat, what is sewn to what
meets. The first piece says which place that is: the shop cuts anywhere in a repeat. Turned end for end a
piece would match only where that place is the middle of a motif: on cloth that repeats along, none is turned.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from catalogue.lengths.calculation.errors import Fault
from fitting.laying.calculation.strip import Strip, TurnedShape

MOST_REPEATS = 1000  # across a cloth: finer than a thread
MOST_PLACES = 8  # across and along, tried as the one where all match
_SLIP_MM = 5e-10  # a place this little below an edge rests on it
_NEAR_MM = 1e-6  # and one this little beside the cloth is at its edge


@dataclass(frozen=True, slots=True, kw_only=True)
class Repeat:
    """Millimetres; 0 is none. In each repeat across, the pattern stands `drop_mm` further along.

    `one_more`: one repeat is bought beyond the lay, since the shop cuts anywhere in it.
    """

    along_mm: float = 0.0
    across_mm: float = 0.0
    drop_mm: float = 0.0
    one_more: bool = False

    @property
    def is_there(self) -> bool:
        return self.along_mm > 0 or self.across_mm > 0

    def shrunk(self, *, length: float, width: float) -> "Repeat":
        """As it lies on the table, parts of length and width lost."""
        return replace(
            self,
            along_mm=self.along_mm * (1 - length),
            across_mm=self.across_mm * (1 - width),
            drop_mm=self.drop_mm * (1 - length),
        )

    def faults(self, width_mm: float) -> Iterator[Fault]:
        """What no repeat on a cloth so wide can be, by the name of the value."""
        if self.drop_mm and not (self.along_mm and self.across_mm):
            yield Fault("drop", "A drop is a part of a repeat along, in each repeat across: give both.")
        elif self.drop_mm and self.drop_mm >= self.along_mm:
            yield Fault("drop", "A drop is less than the repeat along: half of it for a half drop.")
        for name, mm in (("along", self.along_mm), ("across", self.across_mm)):
            if 0 < mm * MOST_REPEATS < width_mm:
                yield Fault(name, f"This goes more than {MOST_REPEATS} times into the width of the cloth.")


@dataclass(frozen=True, slots=True)
class Lattice:
    """Where matching points may lie: at (x, y), and at every repeat from there."""

    repeat: Repeat
    x: float = 0.0
    y: float = 0.0

    @property
    def holds_y(self) -> bool:
        return self.repeat.along_mm > 0

    def columns(self, one: TurnedShape, x: float, width: float) -> list[float]:
        """Where on the cloth a piece matches across, next to x on both sides; x itself where it repeats along
        only, none where the cloth leaves no room for it there.
        """
        across, least = self.repeat.across_mm, -one.left
        if not across:
            return [x]
        most = least if one.shape.at_fold else max(least, width - one.right)
        number = math.floor((x + one.match[0] - self.x + _NEAR_MM) / across)
        found = (self.x + across * at - one.match[0] for at in (number, number + 1))
        return [place for place in found if least - _NEAR_MM <= place <= most + _NEAR_MM]

    def matches(self, one: TurnedShape, width: float) -> bool:
        """Whether there is a place for it across."""
        return bool(self.columns(one, -one.left, width))

    def lowest(self, one: TurnedShape, x: float, least: float) -> float:
        """The first place along, from `least` on, where a piece matches."""
        along = self.repeat.along_mm
        if not along:
            return least
        base = self.y - one.match[1]
        if self.repeat.drop_mm:
            base += self.repeat.drop_mm * round((x + one.match[0] - self.x) / self.repeat.across_mm)
        return base + along * math.ceil((least - base - _SLIP_MM) / along)

    def unmatched(self, strip: Strip) -> tuple[str, ...]:
        """The names of what matches nowhere across: those are matched along only."""
        if not self.repeat.across_mm:
            return ()
        names = (
            turns[0].shape.name
            for turns in strip.shapes
            if not any(self.matches(one, strip.width) for one in turns)
        )
        return tuple(dict.fromkeys(names))

    def count_of_lines(self, length: float, width: float) -> float:
        """About how many lines it takes to draw the repeat on so much cloth."""
        rows = length / self.repeat.along_mm if self.holds_y else 0.0
        columns = width / self.repeat.across_mm if self.repeat.across_mm else 0.0
        return columns + rows * (max(1.0, columns) if self.repeat.drop_mm else 1.0)

    def begins_across(self, width: float) -> list[float]:
        """Where on the cloth the repeat begins anew across."""
        return _steps(self.x, self.repeat.across_mm, 0.0, width)

    def begins_along(self, start: float, end: float, width: float) -> list[tuple[float, float, float]]:
        """Where it begins anew along, each with the stretch of the width in which it does, left and right."""
        columns = [(0.0, width, 0.0)]
        if self.repeat.drop_mm:
            across = self.repeat.across_mm
            middles = _steps(self.x, across, -across / 2, width + across / 2)
            numbers = (round((middle - self.x) / across) for middle in middles)
            columns = [
                (max(0.0, middle - across / 2), min(width, middle + across / 2), number * self.repeat.drop_mm)
                for middle, number in zip(middles, numbers, strict=True)
            ]
        return [
            (y, left, right)
            for left, right, drop in columns
            for y in _steps(self.y + drop, self.repeat.along_mm, start, end)
        ]


def _steps(at: float, step: float, start: float, end: float) -> list[float]:
    if not step:
        return []
    first, last = math.ceil((start - at) / step), math.floor((end - at) / step)
    return [at + number * step for number in range(first, last + 1)]


def lattices(strip: Strip, repeat: Repeat) -> list[Lattice]:
    """The places to try as the one where all match: each lets some piece lie at an edge of the cloth.

    Only those at which the fewest pieces go unmatched.
    """
    if not repeat.is_there:
        return [Lattice(repeat)]
    ways = [one for turns in strip.shapes for one in turns]
    xs = _distinct(
        (x for one in ways for x in (one.match[0] - one.left, strip.width - one.right + one.match[0])),
        repeat.across_mm,
    )
    ys = _distinct((one.match[1] - one.low for one in ways), repeat.along_mm)
    missing = {x: len(Lattice(repeat, x).unmatched(strip)) for x in xs}
    matched = [x for x in xs if missing[x] == min(missing.values())]
    return [Lattice(repeat, x, y) for x in matched[:MOST_PLACES] for y in ys[:MOST_PLACES]]


def _distinct(values: Iterator[float], repeat_mm: float) -> list[float]:
    if not repeat_mm:
        return [0.0]
    return list({round(value % repeat_mm, 4) % repeat_mm: value for value in values}.values())
