"""The work left on an outfit, laid on the days between now and the occasion.

One maker has one pair of hands: tasks are done one after the other, so many hours a week. Forward from today
that says when each is done at this pace; backward from the occasion, when each must be done. The critical
chain is what more hands would not shorten.

An hour of work lies on a line that begins this morning; day n gives the hours from n to n + 1 days' worth.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from fitting.planning.calculation.critical_path import SMALLEST, Times, critical_chain, in_order, task_times
from fitting.planning.calculation.pace import Pace

DAYS_A_WEEK = 7
# Beyond it a date says no more than "not at this pace", and a calendar ends in the year 9999.
FARTHEST_DAYS = 20 * 365


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenTask:
    """A task not done yet. `waits_for`: keys of other open tasks. `due_on`: its own last day."""

    key: str
    estimate_hours: float
    done_hours: float = 0.0
    waits_for: tuple[str, ...] = ()
    due_on: date | None = None

    def hours_left(self, factor: float = 1.0) -> float:
        """What is left where the work takes `factor` times its estimate."""
        return max(self.estimate_hours * factor - self.done_hours, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedTask:
    """`must_be_done_by` is None where neither the occasion nor a due date asks for it.

    `can_wait_hours`: how much other work may come before it without making the longest chain longer.
    """

    task: OpenTask
    begins_on: date
    done_on: date
    must_be_done_by: date | None
    can_wait_hours: float
    is_critical: bool

    @property
    def slack_days(self) -> int | None:
        return None if self.must_be_done_by is None else (self.must_be_done_by - self.done_on).days


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """`tasks` in the order to do them; `chain`: keys of the critical chain."""

    tasks: tuple[PlannedTask, ...]
    chain: tuple[str, ...]
    today: date
    occasion_on: date | None
    hours_a_week: float

    @property
    def hours_left(self) -> float:
        return sum(planned.task.hours_left() for planned in self.tasks)

    @property
    def chain_hours(self) -> float:
        return sum(planned.task.hours_left() for planned in self.tasks if planned.task.key in self.chain)

    @property
    def last_evening(self) -> date | None:
        """All is to be done on the day before the occasion."""
        return None if self.occasion_on is None else self.occasion_on - timedelta(days=1)

    @property
    def slack_days(self) -> int | None:
        """Days from the one on which all is ready to the last evening; negative where it will be missed."""
        return None if self.last_evening is None else (self.last_evening - self.ready_on()).days

    @property
    def days_late(self) -> int:
        return max(-(self.slack_days or 0), 0)

    @property
    def late(self) -> tuple[PlannedTask, ...]:
        """Tasks that come after the day by which they must be done."""
        return tuple(one for one in self.tasks if one.slack_days is not None and one.slack_days < 0)

    def ready_on(self, factor: float = 1.0, *, hours_a_week: float | None = None) -> date:
        """The day on which the last task is done where each takes `factor` times its estimate."""
        hours = sum(planned.task.hours_left(factor) for planned in self.tasks)
        return _day_of(hours, self.today, (hours_a_week or self.hours_a_week) / DAYS_A_WEEK)

    def ready_between(self, pace: Pace) -> tuple[date, date, date]:
        """The earliest, likeliest and latest day by what the maker's tasks have taken before."""
        return self.ready_on(pace.low), self.ready_on(pace.middle), self.ready_on(pace.high)


def plan(tasks: Sequence[OpenTask], *, today: date, occasion_on: date | None, hours_a_week: float) -> Plan:
    """Lay the open tasks on the days. Raises GoesRound where tasks wait for one another.

    `hours_a_week` is more than nothing. Everything is to be done on the day before the occasion.
    """
    by_key = {task.key: task for task in tasks}
    hours = {task.key: task.hours_left() for task in tasks}
    waits_for = {task.key: task.waits_for for task in tasks}
    times = task_times(hours, waits_for)
    a_day = hours_a_week / DAYS_A_WEEK
    limits = _limits(by_key, waits_for, today=today, occasion_on=occasion_on, a_day=a_day)
    order = _order(by_key, times, limits)
    starts = _starts(order, hours)
    latest = _latest(order, hours, limits)
    return Plan(
        tasks=tuple(
            PlannedTask(
                task=by_key[key],
                begins_on=_first_day(starts[key], hours[key], today, a_day),
                done_on=_day_of(starts[key] + hours[key], today, a_day),
                must_be_done_by=_last_day(latest[key], today, a_day),
                can_wait_hours=times[key].slack,
                is_critical=times[key].is_critical,
            )
            for key in order
        ),
        chain=tuple(critical_chain(hours, waits_for)),
        today=today,
        occasion_on=occasion_on,
        hours_a_week=hours_a_week,
    )


def _limits(
    tasks: Mapping[str, OpenTask],
    waits_for: Mapping[str, Sequence[str]],
    *,
    today: date,
    occasion_on: date | None,
    a_day: float,
) -> dict[str, float]:
    """By which hour each must be done: its own day, the occasion, or in time for what waits for it."""
    end = math.inf if occasion_on is None else (occasion_on - today).days * a_day
    limit = {
        key: min(end, math.inf if task.due_on is None else ((task.due_on - today).days + 1) * a_day)
        for key, task in tasks.items()
    }
    followers: dict[str, list[str]] = {key: [] for key in tasks}
    for key, others in waits_for.items():
        for other in others:
            followers[other].append(key)
    for key in reversed(in_order(waits_for)):
        for follower in followers[key]:
            limit[key] = min(limit[key], limit[follower] - tasks[follower].hours_left())
    return limit


def _order(
    tasks: Mapping[str, OpenTask], times: Mapping[str, Times], limits: Mapping[str, float]
) -> list[str]:
    """One after the other: of those that can begin, the one needed first, then the longest way to the end."""
    left, order = dict(tasks), []
    while left:
        ready = [key for key, task in left.items() if not any(other in left for other in task.waits_for)]
        key = min(ready, key=lambda one: (limits[one], -times[one].tail))
        order.append(key)
        del left[key]
    return order


def _starts(order: Iterable[str], hours: Mapping[str, float]) -> dict[str, float]:
    starts, at = {}, 0.0
    for key in order:
        starts[key] = at
        at += hours[key]
    return starts


def _latest(
    order: Sequence[str], hours: Mapping[str, float], limits: Mapping[str, float]
) -> dict[str, float]:
    """The hour by which each must be done so that all that comes after it in the order still is in time."""
    latest, at = {}, math.inf
    for key in reversed(order):
        latest[key] = min(limits[key], at)
        at = latest[key] - hours[key]
    return latest


def _first_day(hour: float, hours: float, today: date, a_day: float) -> date:
    """The day that work begins on; a task with nothing left to do begins and ends with the one before it."""
    begins = today + timedelta(days=math.floor(min(hour / a_day + SMALLEST, FARTHEST_DAYS)))
    return min(begins, _day_of(hour + hours, today, a_day))


def _day_of(hour: float, today: date, a_day: float) -> date:
    """The day on whose evening so many hours are done; not before today, and not after a lifetime."""
    days = math.ceil(min(hour / a_day - SMALLEST, FARTHEST_DAYS)) - 1
    return today + timedelta(days=max(days, 0))


def _last_day(hour: float, today: date, a_day: float) -> date | None:
    """The day in which that hour lies; None where nothing presses.

    What is late by less than a day hides in it; the task whose own day is then missed does not.
    """
    if math.isinf(hour):
        return None
    return today + timedelta(days=max(math.ceil(hour / a_day - SMALLEST) - 1, -FARTHEST_DAYS))
