"""A skirt over hoops, pads or a bustle: its length all round, from heights taped over the support.

Heights are taped from waist to floor at places from centre front (0) to centre back (1) of one half.
Between them the length runs fair. Breadths are cut alike with a straight hem, and the difference is made at
the top; a train alone is shaped at the hem.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import cos, pi

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.fair_curve import FairCurve, fair_curve
from fitting.pattern.calculation.limits import unfit

FEWEST_HEIGHTS = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Train:
    """Cloth that lies on the floor behind: `length_mm` at centre back, fair to nothing at `from_place`."""

    length_mm: float
    from_place: float = 0.5

    def at(self, place: float) -> float:
        """Common practice, no source: level where it begins and at centre back, fullest there."""
        if place <= self.from_place or self.from_place >= 1:
            return 0.0
        part = (place - self.from_place) / (1 - self.from_place)
        return self.length_mm * (1 - cos(pi * part)) / 2


NO_TRAIN = Train(length_mm=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class SkirtLengths:
    """How long the skirt is at each place of the half, hem clear of the floor, train and all."""

    taped: FairCurve
    clearance_mm: float
    train: Train

    def at(self, place: float) -> float:
        return self._level(place) + self.at_hem(place)

    def at_hem(self, place: float) -> float:
        """What lies below the straight hem. Over a train the clearance fades: it lies on the floor."""
        trained = self.train.at(place)
        share = trained / self.train.length_mm if self.train.length_mm else 0.0
        return trained + share * self.clearance_mm

    def cut_away_at_top(self, place: float) -> float:
        """What is cut or turned down at the top, so that the hem of breadths cut alike comes out level."""
        return self._highest_mm - self._level(place)

    def _level(self, place: float) -> float:
        return self.taped.at(place) - self.clearance_mm

    @property
    def _highest_mm(self) -> float:
        return max(self._level(step / 200) for step in range(201))

    @property
    def longest_mm(self) -> float:
        """What breadths are cut as long as: from the highest top to the lowest hem."""
        return self._highest_mm + max(self.at_hem(step / 200) for step in range(201))


def skirt_lengths(
    heights: Iterable[tuple[float, float]], *, clearance_mm: float = 0.0, train: Train = NO_TRAIN
) -> SkirtLengths:
    """From (place, height in mm) pairs, centre front and centre back among them.

    Raises Faults for fewer than five, for places outside the half, and for a hem above the waist.
    """
    taped = sorted(heights)
    places = [place for place, _ in taped]
    lengths = {"clearance": clearance_mm, "train": train.length_mm}
    highest_mm = max((height for _, height in taped), default=None)
    faults = [*unfit(lengths, may_be_nothing=lengths), *unfit({"heights": highest_mm})]
    if len(set(places)) < FEWEST_HEIGHTS or len(set(places)) < len(places):
        faults.append(
            Fault("heights", f"Tape at least {FEWEST_HEIGHTS} heights, each at a place of its own.")
        )
    elif places[0] != 0 or places[-1] != 1:
        faults.append(
            Fault("heights", "Tape from centre front to centre back: places 0 and 1 are among them.")
        )
    if not all(height > clearance_mm for _, height in taped):
        faults.append(Fault("clearance", "The hem would come to lie above the waist."))
    if not 0 <= train.from_place < 1:
        faults.append(Fault("train", "A train begins between front and back."))
    if faults:
        raise Faults(faults)
    return SkirtLengths(taped=fair_curve(taped), clearance_mm=clearance_mm, train=train)
