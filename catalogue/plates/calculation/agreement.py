"""Does the plate agree with itself, and with what its keeper published?

Edges that are sewn together should match, and a published girth or length should be the one reckoned, each
within twice its standard uncertainty (some 95 %: JCGM 100:2008, 6.3.3). Otherwise something was misread, or
the plate is at fault.
"""

import math
from dataclasses import dataclass

from catalogue.lengths.calculation.doubt import Doubtful, doubtful, u_of, value_of
from catalogue.lengths.calculation.lengths import System
from catalogue.plates.calculation.girth import FullSize, Reckoning
from catalogue.plates.calculation.sums import full_size_text

COVERAGE = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SewnEdges:
    """Two edges of one seam, as read along them on the page."""

    name_a: str
    page_a_mm: float
    name_b: str
    page_b_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreement:
    """Two lengths that should be one: the first less the second at full size, with its doubt."""

    what: str
    against: str
    difference_mm: float
    u_mm: float

    @property
    def agrees(self) -> bool:
        return abs(self.difference_mm) <= COVERAGE * self.u_mm + 1e-6

    def sentence(self, system: System = "in") -> str:
        """What to make of it, in one sentence."""
        difference = full_size_text(abs(self.difference_mm), system)
        if self.agrees:
            return f"{self.what} agrees with {self.against}, within {difference}."
        way = "longer" if self.difference_mm > 0 else "shorter"
        explained = full_size_text(COVERAGE * self.u_mm, system)
        return (
            f"{self.what} is {difference} {way} than {self.against}, and doubt explains no more than "
            f"{explained}: read both again; if they stand, one is eased on, or the plate is at fault."
        )


def edges_agreement(reckoning: Reckoning, seam: SewnEdges) -> Agreement:
    """Whether two edges sewn together match at full size. The scale enlarges both: it hardly adds doubt."""
    first = reckoning.edge(seam.page_a_mm, seam.name_a)
    second = reckoning.edge(seam.page_b_mm, seam.name_b)
    return _agreement(seam.name_a, seam.name_b, first - second)


def published_agreement(full_size: FullSize, published_mm: float, *, division_mm: float) -> Agreement:
    """Whether a reckoned girth or length is the published one, which was stated to the nearest division.

    A value rounded to a division d has d/√12 (JCGM 100:2008, F.2.2.1).
    """
    published = doubtful(published_mm, division_mm / math.sqrt(12), "published")
    return _agreement(f"The {full_size.line} reckoned", "the one published", full_size.value - published)


def _agreement(what: str, against: str, difference: Doubtful) -> Agreement:
    return Agreement(what=what, against=against, difference_mm=value_of(difference), u_mm=u_of(difference))
