"""How long a maker's tasks take beside what they estimated."""

import statistics
from collections.abc import Iterable
from dataclasses import dataclass

# Quartiles of fewer say more about one task than about the maker.
ENOUGH_DONE = 3
# Until then: work takes as long as estimated at best, half as long again at worst. Our guess.
GUESSED = (1.0, 1.25, 1.5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """Hours done for each hour estimated: the middle half of the tasks finished, and their median.

    `tasks`: how many are counted; `is_guessed`: too few of them, so that the figures are ours.
    """

    low: float
    middle: float
    high: float
    tasks: int
    is_guessed: bool


def pace_of(finished: Iterable[tuple[float, float]]) -> Pace:
    """Return the pace from (hours estimated, hours done) of finished tasks; one without says nothing."""
    ratios = [done / estimate for estimate, done in finished if estimate > 0 and done > 0]
    if len(ratios) < ENOUGH_DONE:
        low, middle, high = GUESSED
    else:
        low, middle, high = statistics.quantiles(ratios, n=4, method="inclusive")
    return Pace(low=low, middle=middle, high=high, tasks=len(ratios), is_guessed=len(ratios) < ENOUGH_DONE)
