"""Inlay, the cloth left in a cut seam that can still be let out; and how near toiles come to their forecasts.

Two errors of a toile are kept apart: flat after sewing against the forecast is how the maker cuts and sews;
flat after fitting against it is how far plate, measures and ease were from the body.
"""

import statistics
from collections.abc import Iterable
from dataclasses import dataclass

from catalogue.lengths.calculation.units import INCH_MM

# The least a seam can be sewn with and still hold; common practice, no source.
LEAST_SEAM_MM = INCH_MM / 4
# A mean of fewer says more about one seam than about the maker.
ENOUGH_MEASURED = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class InlayLeft:
    """`left_mm` over all its edges together; negative where more was let out than there was."""

    edges: int
    cut_with_mm: float
    let_out_mm: float

    @property
    def left_mm(self) -> float:
        return self.edges * (self.cut_with_mm - LEAST_SEAM_MM) - self.let_out_mm

    @property
    def left_each_mm(self) -> float:
        """For each edge, where they share alike."""
        return self.left_mm / self.edges

    def is_enough_for(self, asked_mm: float) -> bool:
        """Whether `asked_mm`, in all, can be let out; else the piece is cut again, or pieced."""
        return asked_mm <= max(self.left_mm, 0.0) + 1e-6


def inlay_left(*, cut_with_mm: float, edges: int, let_out_mm: float = 0.0) -> InlayLeft:
    """A seam cut with an allowance at each of its edges, `let_out_mm` of it used up in all (less taken in).

    Two edges: 2 · (cut allowance − 1/4 in) can be let out. Raises ValueError for no edge.
    """
    if edges < 1:
        raise ValueError("A seam has at least one edge.")
    return InlayLeft(edges=edges, cut_with_mm=cut_with_mm, let_out_mm=let_out_mm)


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
