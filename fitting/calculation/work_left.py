"""Pattern work still to do, held against the days that are left."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from fitting.calculation.route import Route


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkLeft:
    """Hours on the way to the patterns; cutting and sewing are not in them.

    `without_route`: garments whose hours nobody can say yet. `days_left`: negative past the day.
    """

    hours: float
    without_route: int
    days_left: int | None
    hours_a_day: float

    @property
    def days_needed(self) -> float:
        return self.hours / self.hours_a_day

    @property
    def hours_at_hand(self) -> float | None:
        """What the days left give, at so many hours a day."""
        return None if self.days_left is None else max(self.days_left, 0) * self.hours_a_day

    @property
    def is_too_much(self) -> bool:
        return self.hours_at_hand is not None and self.hours > self.hours_at_hand


def work_left(
    routes: Iterable[Route | None],
    *,
    hours: Mapping[Route, float],
    days_left: int | None,
    hours_a_day: float,
) -> WorkLeft:
    """Add up the garments that have no pattern yet. `routes`: the way chosen for each, None where none is."""
    chosen = list(routes)
    return WorkLeft(
        hours=sum(hours[route] for route in chosen if route is not None),
        without_route=chosen.count(None),
        days_left=days_left,
        hours_a_day=hours_a_day,
    )
