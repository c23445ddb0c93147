"""The critical path method: how early and how late each task can be done when some wait for others.

A forward pass gives the earliest times, a backward pass the latest that leave the end where it is; a task
without slack between them lies on the critical chain (J. E. Kelley and M. R. Walker, "Critical-path planning
and scheduling", Eastern Joint Computer Conference, 1959, from memory).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter

# Hours are typed in quarters and added up as floats: less than this between two times is no slack.
SMALLEST = 1e-6


class GoesRound(ValueError):
    """Tasks that wait for one another in a ring, so that none can begin; `ring` names them in order."""

    def __init__(self, ring: Sequence[str]) -> None:
        self.ring = tuple(ring)
        super().__init__(" waits for ".join((*self.ring, self.ring[0])))


@dataclass(frozen=True, slots=True, kw_only=True)
class Times:
    """When a task can begin and end, from the start of the work, in the unit of its duration.

    `tail` is the longest way from its beginning to the end of the work, its own duration included.
    """

    earliest_start: float
    earliest_finish: float
    latest_start: float
    latest_finish: float
    tail: float

    @property
    def slack(self) -> float:
        return self.latest_start - self.earliest_start

    @property
    def is_critical(self) -> bool:
        return self.slack < SMALLEST


def in_order(waits_for: Mapping[str, Sequence[str]]) -> list[str]:
    """Return every task after all that it waits for. Raises GoesRound."""
    try:
        return list(TopologicalSorter(waits_for).static_order())
    except CycleError as ring:
        # graphlib names the ring from what is waited for to what waits, its first task again at the end.
        raise GoesRound(list(reversed(ring.args[1][1:]))) from ring


def task_times(durations: Mapping[str, float], waits_for: Mapping[str, Sequence[str]]) -> dict[str, Times]:
    """Return the times of each task, however many hands there are. Raises GoesRound.

    `waits_for` names, for each task of `durations`, others of `durations`.
    """
    order = in_order({task: waits_for.get(task, ()) for task in durations})
    finish: dict[str, float] = {}
    for task in order:
        finish[task] = durations[task] + max((finish[one] for one in waits_for.get(task, ())), default=0.0)
    tail = dict(durations)
    for task in reversed(order):
        for one in waits_for.get(task, ()):
            tail[one] = max(tail[one], durations[one] + tail[task])
    end = max(finish.values(), default=0.0)
    return {
        task: Times(
            earliest_start=finish[task] - durations[task],
            earliest_finish=finish[task],
            latest_start=end - tail[task],
            latest_finish=end - tail[task] + durations[task],
            tail=tail[task],
        )
        for task in durations
    }


def without_detours(waits_for: Mapping[str, Sequence[str]]) -> dict[str, list[str]]:
    """Return the same order with nothing said twice: no task waits for one that another of its own waits for.

    Raises GoesRound.
    """
    before: dict[str, set[str]] = {}
    for task in in_order(waits_for):
        mine = set(waits_for.get(task, ()))
        before[task] = mine.union(*(before[other] for other in mine))
    return {
        task: [one for one in others if not any(one in before[other] for other in others)]
        for task, others in waits_for.items()
    }


def critical_chain(durations: Mapping[str, float], waits_for: Mapping[str, Sequence[str]]) -> list[str]:
    """Return one longest chain from first to last task; nothing where there is no task. Raises GoesRound."""
    times = task_times(durations, waits_for)
    chain: list[str] = []
    at = max(times, key=lambda task: times[task].earliest_finish, default=None)
    while at is not None:
        chain.append(at)
        at = max(waits_for.get(at, ()), key=lambda task: times[task].earliest_finish, default=None)
    return chain[::-1]
