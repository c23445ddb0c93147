"""Work still to do, held against the days left: by the plan where there is one, else by the routes."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from fitting.comparing.calculation.routes import Route
from fitting.planning.calculation.plan import OpenTask


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkLeft:
    """`is_planned`: hours of the tasks still open; else those of the way to the patterns alone.

    `uncounted`: garments whose hours nobody can say yet, without a task or a route. `days_left`: negative
    past the day.
    """

    hours: float
    uncounted: int
    days_left: int | None
    hours_a_day: float
    is_planned: bool = False

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
        uncounted=chosen.count(None),
        days_left=days_left,
        hours_a_day=hours_a_day,
    )


def spread_over(left: Iterable[float], hours: float) -> list[float]:
    """Lay hours that name no task on the open tasks of their garment, each up to what is left of it.

    `left`: in the order of stages. What is more than all of them is nobody's.
    """
    shares = []
    for hours_left in left:
        shares.append(min(hours_left, hours))
        hours -= shares[-1]
    return shares


def planned_left(
    tasks: Iterable[OpenTask], *, uncounted: int, days_left: int | None, hours_a_day: float
) -> WorkLeft:
    """Add up what is left of each task. `uncounted`: unfinished garments that no task names."""
    return WorkLeft(
        hours=sum(task.hours_left() for task in tasks),
        uncounted=uncounted,
        days_left=days_left,
        hours_a_day=hours_a_day,
        is_planned=True,
    )
