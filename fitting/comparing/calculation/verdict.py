"""How likely a garment is too small, to add to, fitting, to take off or too large, and what to call it.

The doubt of a difference D is spread over five regions by the normal distribution: conformance probabilities,
after JCGM 106:2012, 7. Nothing is rounded on the way to a verdict.
"""

from dataclasses import dataclass
from enum import StrEnum
from statistics import NormalDist
from typing import Literal

from fitting.comparing.calculation.limits import Bounds

# A verdict is given where its chance is at least this; common practice, no source.
SURE_ENOUGH = 0.75
# Two lengths that should be equal may differ by this much from reckoning in binary; no rule shows it.
HAIR_MM = 1e-6

Kind = Literal["girth", "length"]


class Verdict(StrEnum):
    """What a comparison comes to: what is to be done to the pattern, and whether it can be.

    Of a region the word is that of its verdict, here and on every page, chart and file; `region` says where a
    verdict says more. A girth is added to or taken off, a length lengthened or shortened.
    """

    TOO_SMALL = "too small"
    ADD = "add"
    LENGTHEN = "lengthen"
    FITS_AS_DRAWN = "fits as drawn"
    TAKE_OFF = "take off"
    SHORTEN = "shorten"
    TOO_LARGE = "too large"
    WITHIN_ALTERING = "within altering"
    TOO_CLOSE_TO_CALL = "too close to call"
    GATHERED = "gathered"

    @property
    def region(self) -> str:
        return "fits" if self is Verdict.FITS_AS_DRAWN else self.value


@dataclass(frozen=True, slots=True, kw_only=True)
class Chances:
    """How likely the true difference lies in each region; together 1.

    Of a length `add` is to lengthen and `take_off` to shorten.
    """

    too_small: float
    add: float
    fits: float
    take_off: float
    too_large: float

    @property
    def alterable(self) -> float:
        return self.add + self.fits + self.take_off

    @staticmethod
    def verdicts(kind: Kind) -> tuple[Verdict, ...]:
        """The verdict that each region gives, smallest garment first."""
        add, take_off = (
            (Verdict.ADD, Verdict.TAKE_OFF) if kind == "girth" else (Verdict.LENGTHEN, Verdict.SHORTEN)
        )
        return Verdict.TOO_SMALL, add, Verdict.FITS_AS_DRAWN, take_off, Verdict.TOO_LARGE

    def by_verdict(self, kind: Kind) -> dict[Verdict, float]:
        """Each region's chance under the verdict that it would give, smallest garment first."""
        chances = (self.too_small, self.add, self.fits, self.take_off, self.too_large)
        return dict(zip(self.verdicts(kind), chances, strict=True))


def chances_of(difference_mm: float, u_mm: float, bounds: Bounds, *, is_loose: bool = False) -> Chances:
    """The five chances. Without doubt each is 0 or 1; a loose line cannot be too large, it fits."""
    short, tight = -bounds.add_mm, -bounds.fits_mm
    roomy, wide = bounds.fits_mm, bounds.take_off_mm
    if u_mm > 0:
        below = [NormalDist(difference_mm, u_mm).cdf(edge) for edge in (short, tight, roomy, wide)]
    else:
        # An edge itself belongs to the region nearer to fitting.
        below = [float(difference_mm < edge - HAIR_MM) for edge in (short, tight)]
        below += [float(difference_mm <= edge + HAIR_MM) for edge in (roomy, wide)]
    if is_loose:
        below[2:] = 1.0, 1.0
    return Chances(
        too_small=below[0],
        add=below[1] - below[0],
        fits=below[2] - below[1],
        take_off=below[3] - below[2],
        too_large=1.0 - below[3],
    )


def verdict_of(chances: Chances, kind: Kind) -> Verdict:
    """The region that is likely enough; else whether it can be altered at all; else too close to call."""
    for verdict, chance in chances.by_verdict(kind).items():
        if chance >= SURE_ENOUGH:
            return verdict
    if chances.alterable >= SURE_ENOUGH:
        return Verdict.WITHIN_ALTERING
    return Verdict.TOO_CLOSE_TO_CALL
