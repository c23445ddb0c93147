"""How near a maker's toiles come to their forecast, and what that says of the next.

Two errors are kept apart: flat after sewing against the forecast is how the maker cuts and sews; flat after
fitting against the forecast is how far plate, measures and ease were from the body.
"""

import statistics
from collections.abc import Iterable
from dataclasses import dataclass

# A mean of fewer says more about one seam than about the maker.
ENOUGH_MEASURED = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class MeanError:
    """`mean_mm` is measured minus forecast; `spread_mm` is its standard deviation, None for a single one."""

    mean_mm: float
    spread_mm: float | None
    count: int

    @property
    def is_enough(self) -> bool:
        return self.count >= ENOUGH_MEASURED

    def corrects(self, forecast_mm: float) -> float:
        """What a forecast is likely to measure; the forecast itself while too little was measured."""
        return forecast_mm + self.mean_mm if self.is_enough else forecast_mm


def mean_error(pairs: Iterable[tuple[float, float]]) -> MeanError | None:
    """Return the mean error of (forecast, measured) pairs of one kind, in mm; None where there are none."""
    errors = [measured - forecast for forecast, measured in pairs]
    if not errors:
        return None
    return MeanError(
        mean_mm=statistics.fmean(errors),
        spread_mm=statistics.stdev(errors) if len(errors) > 1 else None,
        count=len(errors),
    )
