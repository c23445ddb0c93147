"""The tasks of an outfit as a plan: what waits for what, when each must be done, and at what pace it goes."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from django.db.models import Q, Sum

from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LATELY, LogEntry
from fitting.outfits.models.outfit import Outfit
from fitting.planning.calculation.critical_path import GoesRound, without_detours
from fitting.planning.calculation.pace import Pace, pace_of
from fitting.planning.calculation.plan import DAYS_A_WEEK, OpenTask, Plan, PlannedTask, plan
from fitting.planning.calculation.waiting import StagedTask, Worn, task_waits
from fitting.planning.models import Task
from fitting.wearers.models import Maker


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskRow:
    """An open task in its place in the plan; `waits_for` names the last of what must be done before it."""

    task: Task
    planned: PlannedTask
    waits_for: tuple[Task, ...]

    @property
    def hours_left(self) -> float:
        return self.planned.task.hours_left()

    @property
    def is_over(self) -> bool:
        """Whether more was done than was estimated, so that nobody knows what is left."""
        return self.task.done_hours > self.task.estimate_hours > 0


@dataclass(frozen=True, slots=True, kw_only=True)
class OutfitPlan:
    """`plan` is None where the open tasks wait for one another: then `ring` names them."""

    rows: tuple[TaskRow, ...]
    plan: Plan | None
    ring: tuple[Task, ...] = ()

    @property
    def chain(self) -> tuple[Task, ...]:
        by_key = {row.planned.task.key: row.task for row in self.rows}
        return tuple(by_key[key] for key in self.plan.chain) if self.plan else ()


@dataclass(frozen=True, slots=True, kw_only=True)
class OutfitWork:
    """All that the page of tasks shows. `between`: earliest, likeliest and latest day by the maker's pace.

    `logged_a_week`: hours a week that the log of the last weeks tells of; `ready_as_logged`: the day at that.
    """

    planned: OutfitPlan
    finished: tuple[Task, ...]
    pace: Pace
    between: tuple[date, date, date] | None
    logged_a_week: float
    ready_as_logged: date | None


def work_on(outfit: Outfit, *, today: date) -> OutfitWork:
    tasks = tasks_of([outfit])
    garments = list(outfit.garments.all())
    planned = plan_of(outfit, tasks, garments, hours_a_week=hours_a_week_of(outfit), today=today)
    pace = pace_of(_finished_of(outfit))
    logged = _logged_a_week(outfit, today)
    found = planned.plan if planned.rows else None
    return OutfitWork(
        planned=planned,
        finished=tuple(task for task in tasks if task.done_on),
        pace=pace,
        between=found.ready_between(pace) if found else None,
        logged_a_week=logged,
        ready_as_logged=found.ready_on(hours_a_week=logged) if found and logged else None,
    )


def tasks_of(outfits: Iterable[Outfit]) -> list[Task]:
    """Tasks with their garments, hours done and what each waits for: two queries."""
    tasks = Task.objects.filter(outfit__in=list(outfits)).with_hours()
    return list(tasks.select_related("garment").prefetch_related("waits_for"))


def hours_a_week_of(outfit: Outfit) -> float:
    """What the outfit states, else what its maker gives a day on every day of the week.

    Select `maker__maker` where it is asked of several.
    """
    stated = getattr(outfit.maker, "maker", None) or Maker()
    return outfit.hours_a_week or stated.hours_a_day * DAYS_A_WEEK


def plan_of(
    outfit: Outfit, tasks: Iterable[Task], garments: Sequence[Garment], *, hours_a_week: float, today: date
) -> OutfitPlan:
    """Plan the open ones of an outfit's `tasks`, fetched by `tasks_of`."""
    is_open = {str(task.pk): task for task in tasks if task.done_on is None}
    still_open = list(is_open.values())
    waits = waits_between(still_open, garments, said=said_to_wait(still_open))
    open_tasks = [
        OpenTask(
            key=key,
            estimate_hours=task.estimate_hours,
            done_hours=task.done_hours,
            waits_for=tuple(waits[key]),
            due_on=task.due_on,
        )
        for key, task in is_open.items()
    ]
    try:
        told = without_detours(waits)
        found = plan(open_tasks, today=today, occasion_on=outfit.occasion_on, hours_a_week=hours_a_week)
    except GoesRound as fault:
        return OutfitPlan(rows=(), plan=None, ring=tuple(is_open[key] for key in fault.ring))
    rows = tuple(
        TaskRow(
            task=is_open[one.task.key],
            planned=one,
            waits_for=tuple(is_open[key] for key in told[one.task.key]),
        )
        for one in found.tasks
    )
    return OutfitPlan(rows=rows, plan=found)


def said_to_wait(tasks: Iterable[Task]) -> dict[str, list[str]]:
    """Return by key the keys of the tasks that each was said to wait for."""
    return {str(task.pk): [str(other.pk) for other in task.waits_for.all()] for task in tasks}


def waits_between(
    tasks: Sequence[Task], garments: Sequence[Garment], *, said: Mapping[str, Sequence[str]]
) -> dict[str, list[str]]:
    """Return by key what each open task waits for: what the order of dressing says, and what was `said`."""
    keys = [str(task.pk) for task in tasks]
    staged = [
        StagedTask(key=str(task.pk), garment=task.garment_id, leads_to=task.leads_to)
        for task in tasks
        if task.garment_id
    ]
    follows = task_waits(staged, worn_of(garments))
    return {
        key: list(dict.fromkeys([*follows.get(key, ()), *(one for one in said[key] if one in keys)]))
        for key in keys
    }


def worn_of(garments: Iterable[Garment]) -> list[Worn]:
    """The garments of an outfit as the order of dressing takes them, from the skin outward."""
    return [
        Worn(key=one.pk, order=one.order, name=one.name, stage=one.stage, is_boned=one.is_boned)
        for one in garments
    ]


def _finished_of(outfit: Outfit) -> list[tuple[float, float]]:
    """Hours estimated and done of this outfit's maker's finished tasks, in any outfit of the workroom."""
    mine = Q(outfit__maker=outfit.maker_id) if outfit.maker_id else Q(outfit=outfit)
    finished = Task.objects.of_workroom(outfit.workroom).filter(mine, done_on__isnull=False)
    return list(finished.with_hours().values_list("estimate_hours", "done_hours"))


def _logged_a_week(outfit: Outfit, today: date) -> float:
    logged = LogEntry.objects.filter(outfit=outfit).lately(today).aggregate(hours=Sum("hours"))["hours"]
    return (logged or 0.0) / (LATELY.days / DAYS_A_WEEK)
