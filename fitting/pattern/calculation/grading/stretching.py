"""How much each height of a piece is stretched across, from what its levels and cross lengths want."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.tracing import TracedShape
from fitting.pattern.calculation.fair_curve import fair_curve
from fitting.pattern.calculation.grading.frame import Amount, Frame
from fitting.pattern.calculation.grading.heights import goes_down

# Above the bust a piece widens by less: neck, shoulder and armhole by half the bust's part of their own
# width, unless the wearer's own shoulder or width across is known. Common practice, no source.
SHARE_AT_THE_TOP = 0.5
BUST_LEVELS = frozenset({"bust", "high bust", "under bust"})
_APART_MM = 2.0


@dataclass(frozen=True, kw_only=True)
class Stretching:
    """`at_level` and `at_length` are parts of the width there: 0.05 makes 100 mm 105."""

    frame: Frame
    at_level: Mapping[str, float]
    at_length: Mapping[str, float]

    @classmethod
    def of(cls, frame: Frame, *, levels: Sequence[str], lengths: Mapping[str, float]) -> "Stretching":
        across = cross_lengths(frame.piece.shape, frame.local)
        return cls(
            frame=frame,
            at_level={level: 0.0 for level in levels if level in frame.heights},
            at_length={line: 0.0 for line in across if line in lengths},
        )

    def by(self, *, levels: Mapping[str, float], lengths: Mapping[str, float]) -> "Stretching":
        """Stretched further, each by a factor of what it has come to."""
        return replace(
            self,
            at_level={line: (1 + part) * levels.get(line, 1.0) - 1 for line, part in self.at_level.items()},
            at_length={
                line: (1 + part) * lengths.get(line, 1.0) - 1 for line, part in self.at_length.items()
            },
        )

    @property
    def amount(self) -> Amount:
        """The stretch at each height of the piece."""
        knots = {self.frame.heights[line]: part for line, part in self.at_level.items()}
        if not knots:
            return lambda y: 0.0
        top, bottom = min(knots), max(knots)
        highest = min(self.at_level, key=lambda line: self.frame.heights[line])
        lowest = max(self.at_level, key=lambda line: self.frame.heights[line])
        wanted = {**knots, **self._cross_knots()}
        if not self.at_length and highest in BUST_LEVELS:
            wanted[self.frame.bounds[0]] = SHARE_AT_THE_TOP * knots[top]
        width_mm, foot_mm = self.frame.widths[lowest].width_mm, self.frame.bottom_width(bottom)
        if foot_mm > width_mm and not self.frame.is_limb:
            # Past the last level a wider hem gains the same millimetres, not the same part of its width.
            wanted[self.frame.bounds[1]] = knots[bottom] * width_mm / foot_mm
        return fair_curve(_apart(wanted)).at

    def _cross_knots(self) -> dict[float, float]:
        across = cross_lengths(self.frame.piece.shape, self.frame.local)
        return {(across[line][0].imag + across[line][1].imag) / 2: part
                for line, part in self.at_length.items()}  # fmt: skip


def cross_lengths(shape: TracedShape, local: Callable[[Point], Point]) -> dict[str, tuple[Point, Point]]:
    """The lengths that run across a piece, as the shoulder does: both ends, in its frame."""
    found = {}
    for mark in shape.marks:
        ends = (local(mark.points[0]), local(mark.points[-1]))
        if mark.kind == "length" and mark.line and not goes_down(*ends):
            found[mark.line] = ends
    return found


def _apart(knots: Mapping[float, float]) -> list[tuple[float, float]]:
    """Places that all but coincide, taken once; the first named counts."""
    kept: dict[float, float] = {}
    for place in reversed(knots):
        for near in [one for one in kept if abs(one - place) < _APART_MM]:
            del kept[near]
        kept[place] = knots[place]
    return list(kept.items())
