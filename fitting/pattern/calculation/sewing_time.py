"""How long the sewing takes: stitches to make ÷ stitches a minute, timed on one seam that was sewn to try."""

from collections.abc import Iterable
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.units import INCH_MM
from fitting.pattern.calculation.limits import FARTHEST_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class Stitch:
    """A stitch as one maker sews it: how close, how fast."""

    stitches_per_inch: float
    stitches_per_minute: float

    def minutes(self, seam_mm: float) -> float:
        return seam_mm / INCH_MM * self.stitches_per_inch / self.stitches_per_minute

    def hours(self, seams_mm: Iterable[float]) -> float:
        """For all of them; a seam sewn twice, as a felled one is, comes twice."""
        return sum(self.minutes(seam_mm) for seam_mm in seams_mm) / 60


def timed(*, sample_mm: float, minutes: float, stitches_per_inch: float) -> Stitch:
    """From a seam sewn and timed. Raises Faults where one of the three is not more than nothing."""
    given = (sample_mm, minutes, stitches_per_inch)
    if not all(0 < one <= FARTHEST_MM for one in given):
        raise Faults([Fault("sample", "Length, time and stitches to the inch are more than nothing.")])
    return Stitch(
        stitches_per_inch=stitches_per_inch,
        stitches_per_minute=sample_mm / INCH_MM * stitches_per_inch / minutes,
    )
