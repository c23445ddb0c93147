"""How far each height of a piece is shifted, so that lengths come to the wearer's and seams still meet.

All is counted from a datum that pieces of a group share: the waist of what is worn on the trunk, the upper
arm (or thigh) of what is worn on a limb. Between the datum and the highest level line, and below the datum
where a piece has no length of its own, pieces move alike, so that side seams keep their match. Above that
line each piece takes what its own length still wants.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from fitting.pattern.calculation.grading.frame import Amount, Frame

DATUMS = ("waist", "upper arm", "thigh", "hip", "knee")
_ENDS_NEAR_MM = 25.0


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnLength:
    """A length drawn down a piece, by its distances from the datum (above is negative)."""

    line: str
    piece: int
    start: float
    end: float
    drawn_mm: float

    @property
    def is_above(self) -> bool:
        return self.end <= _ENDS_NEAR_MM

    @property
    def is_below(self) -> bool:
        return self.start >= -_ENDS_NEAR_MM


@dataclass(frozen=True, kw_only=True)
class Heights:
    """The shifts of a group of pieces. `change_mm`: what each length wants, as in `lengths`.

    `cap_mm` is what a sleeve gains above the upper arm, to go with the armhole.
    """

    frames: Mapping[int, Frame]
    lengths: tuple[DrawnLength, ...]
    change_mm: tuple[float, ...] = ()
    cap_mm: float = 0.0
    is_limb: bool = False
    datum: Mapping[int, float] = field(default_factory=dict)

    @classmethod
    def of(cls, frames: Mapping[int, Frame], *, is_limb: bool, wanted: Mapping[str, float]) -> "Heights":
        group = {index: frame for index, frame in frames.items() if frame.is_limb is is_limb}
        datum = {index: _datum(frame) for index, frame in group.items()}
        lengths = tuple(
            found
            for index, frame in group.items()
            for found in _drawn_lengths(index, frame, datum[index])
            if found.line in wanted
        )
        return cls(
            frames=group, lengths=lengths, change_mm=(0.0,) * len(lengths), is_limb=is_limb, datum=datum
        )

    def adding(self, more_mm: Sequence[float], cap_mm: float = 0.0) -> "Heights":
        changed = tuple(a + b for a, b in zip(self.change_mm, more_mm, strict=True))
        return replace(self, change_mm=changed, cap_mm=self.cap_mm + cap_mm)

    def shift_of(self, index: int) -> Amount:
        """How far each height of a piece goes down."""
        has_own = any(one.piece == index for one in self.lengths)
        if not has_own and not set(DATUMS) & set(self.frames[index].heights):
            return lambda y: 0.0  # A collar, say: no datum ties it to the lengths of the others.
        datum = self.datum[index]
        above = self._cap() if self.is_limb else self._above(index)
        below = self._below(index, gained_above=-above[0][1])
        knots = sorted({**dict(below), **dict(above), 0.0: 0.0}.items())
        places, shifts = [datum + place for place, _ in knots], [shift for _, shift in knots]
        return lambda y: float(np.interp(y, places, shifts))

    def _cap(self) -> list[tuple[float, float]]:
        tops = [frame.bounds[0] - self.datum[index] for index, frame in self.frames.items()]
        return [(min(tops), -self.cap_mm)]

    def _above(self, index: int) -> list[tuple[float, float]]:
        """Above the datum: alike up to the highest level line, then by the piece's own length."""
        changes = list(zip(self.lengths, self.change_mm, strict=True))
        uppers = [(one, change) for one, change in changes if one.is_above] or [
            # A length from above to below, as from nape to hem, is made in proportion.
            (replace(one, end=0.0), change * one.start / (one.start - one.end))
            for one, change in changes
            if not one.is_below
        ]
        if not uppers:
            return [(-1.0, 0.0)]
        lines = (
            height - self.datum[i] for i, frame in self.frames.items() for height in frame.heights.values()
        )
        shared = min(*lines, -1.0)
        alike = [pair for pair in uppers if pair[0].start >= shared - _ENDS_NEAR_MM]
        ratio = _mean_ratio(alike or uppers)
        own = [pair for pair in uppers if pair[0].piece == index and pair not in alike]
        tops = own or [pair for pair in uppers if pair not in alike] or alike
        start = sum(one.start for one, _ in tops) / len(tops)
        change = sum(change for _, change in tops) / len(tops)
        at_line = (shared, ratio * shared)
        return [(start, -change), at_line] if start < shared else [at_line]

    def _below(self, index: int, *, gained_above: float) -> list[tuple[float, float]]:
        lowers = [
            (one, change if one.is_below else change - gained_above)
            for one, change in zip(self.lengths, self.change_mm, strict=True)
            if not one.is_above
        ]
        own = [pair for pair in lowers if pair[0].piece == index]
        return [(one.end, change) for one, change in own or lowers]


def _mean_ratio(pairs: Sequence[tuple[DrawnLength, float]]) -> float:
    return sum(change for _, change in pairs) / sum(one.end - one.start for one, _ in pairs)


def _datum(frame: Frame) -> float:
    named = next((frame.heights[line] for line in DATUMS if line in frame.heights), None)
    return named if named is not None else min(frame.heights.values())


def _drawn_lengths(index: int, frame: Frame, datum: float) -> list[DrawnLength]:
    found = []
    lengths = frame.piece.shape.lengths_mm()
    for mark in frame.piece.shape.marks:
        ends = [frame.local(point) for point in (mark.points[0], mark.points[-1])]
        if mark.kind == "length" and mark.line and goes_down(*ends):
            start, end = sorted(at.imag - datum for at in ends)
            found.append(
                DrawnLength(line=mark.line, piece=index, start=start, end=end, drawn_mm=lengths[mark.line])
            )
    return found


def goes_down(start: complex, end: complex) -> bool:
    return abs((end - start).imag) >= abs((end - start).real)
