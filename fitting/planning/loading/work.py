"""The tasks of an outfit as a plan: what waits for what, when each must be done, and at what pace it goes."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType

from django.db.models import Q, Sum, prefetch_related_objects
from django.utils import timezone

from fitting.fittings.models.session import Fitting
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LATELY, LogEntry
from fitting.outfits.models.outfit import Outfit
from fitting.planning.calculation.critical_path import GoesRound, without_detours
from fitting.planning.calculation.pace import Pace, pace_of
from fitting.planning.calculation.plan import DAYS_A_WEEK, OpenTask, Plan, PlannedTask, plan
from fitting.planning.calculation.waiting import STAGES, StagedTask, WornGarment, task_waits
from fitting.planning.calculation.work_left import spread_over
from fitting.planning.models import Task
from fitting.wearers.models import Maker

FITTED = Garment.Stage.FITTED


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

    `fittings` are those not closed yet, the next one first; one whose day has passed stands among them.
    `logged_a_week`: hours a week that the log of the last weeks tells of; `ready_as_logged`: the day at that.
    """

    planned: OutfitPlan
    finished: tuple[Task, ...]
    fittings: tuple[Fitting, ...]
    pace: Pace
    between: tuple[date, date, date] | None
    logged_a_week: float
    ready_as_logged: date | None


def work_on(outfit: Outfit, *, today: date) -> OutfitWork:
    tasks = tasks_of([outfit])
    garments = list(outfit.garments.all())
    fittings = tuple(Fitting.objects.open_in(outfit.workroom).filter(outfit=outfit).for_list_page())
    planned = plan_of(
        outfit,
        tasks,
        garments,
        hours_a_week=hours_a_week_of(outfit),
        today=today,
        fitted_on=fitting_days(fittings, today=today),
    )
    pace = pace_of(_finished_of(outfit))
    logged = _logged_a_week(outfit, today)
    found = planned.plan if planned.rows else None
    return OutfitWork(
        planned=planned,
        finished=tuple(task for task in tasks if task.done_on),
        fittings=fittings,
        pace=pace,
        between=found.ready_between(pace) if found else None,
        logged_a_week=logged,
        ready_as_logged=found.ready_on(hours_a_week=logged) if found and logged else None,
    )


def tasks_of(outfits: Iterable[Outfit]) -> list[Task]:
    """Tasks with their garments, hours done and what each waits for: three queries."""
    tasks = tasks_with_hours(outfits)
    prefetch_related_objects(tasks, "waits_for")
    return tasks


def tasks_with_hours(outfits: Iterable[Outfit]) -> list[Task]:
    """Tasks with their garments and the hours done: two queries.

    Hours that the log tells of a garment without naming a task, after the last that is done, come off its
    open tasks: `untold_hours` of `done_hours`.
    """
    outfits = list(outfits)
    found = Task.objects.filter(outfit__in=outfits).with_hours()
    tasks = list(found.select_related("garment"))
    by_garment: defaultdict[int, list[Task]] = defaultdict(list)
    for task in tasks:
        task.untold_hours = 0.0
        by_garment[task.garment_id].append(task)
    untold = LogEntry.objects.filter(outfit__in=outfits, task=None, garment__isnull=False, hours__gt=0)
    logged: defaultdict[int, list[tuple[date, float]]] = defaultdict(list)
    for garment, day, hours in untold.values_list("garment", "day", "hours"):
        logged[garment].append((day, hours))
    for garment, entries in logged.items():
        _count_untold(by_garment[garment], entries)
    return tasks


def _count_untold(tasks: Iterable[Task], entries: Iterable[tuple[date, float]]) -> None:
    tasks = list(tasks)
    last_done = max((task.done_on for task in tasks if task.done_on), default=date.min)
    hours = sum(hours for day, hours in entries if day > last_done)
    still_open = sorted((one for one in tasks if one.done_on is None and one.leads_to), key=_stage_of)
    left = [max(task.estimate_hours - task.done_hours, 0.0) for task in still_open]
    for task, share in zip(still_open, spread_over(left, hours), strict=True):
        task.untold_hours = share
        task.done_hours += share


def _stage_of(task: Task) -> tuple[int, int]:
    return STAGES.index(task.leads_to), task.pk


def hours_a_week_of(outfit: Outfit) -> float:
    """What the outfit states, else what its maker gives a day on every day of the week.

    Select `maker__maker` where it is asked of several.
    """
    stated = getattr(outfit.maker, "maker", None) or Maker()
    return outfit.hours_a_week or stated.hours_a_day * DAYS_A_WEEK


def fitting_days(fittings: Iterable[Fitting], *, today: date) -> dict[int, date]:
    """By garment, the next day on which it is to be fitted. Prefetch `garments`."""
    days: dict[int, date] = {}
    for fitting in fittings:
        day = timezone.localdate(fitting.planned_for)
        for garment in fitting.garments.all() if day >= today else ():
            days[garment.pk] = min(day, days.get(garment.pk, day))
    return days


def plan_of(
    outfit: Outfit,
    tasks: Iterable[Task],
    garments: Sequence[Garment],
    *,
    hours_a_week: float,
    today: date,
    fitted_on: Mapping[int, date] = MappingProxyType({}),
) -> OutfitPlan:
    """Plan the open ones of an outfit's `tasks`, fetched by `tasks_of`.

    A task without a day of its own that leads to a fitting must be done by its day, `fitted_on` by garment.
    """
    is_open = {str(task.pk): task for task in tasks if task.done_on is None}
    still_open = list(is_open.values())
    waits = waits_between(still_open, garments, said=said_to_wait(still_open))
    open_tasks = [
        OpenTask(
            key=key,
            estimate_hours=task.estimate_hours,
            done_hours=task.done_hours,
            waits_for=tuple(waits[key]),
            due_on=task.due_on or (fitted_on.get(task.garment_id) if task.leads_to == FITTED else None),
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


def worn_of(garments: Iterable[Garment]) -> list[WornGarment]:
    """The garments of an outfit as the order of dressing takes them, from the skin outward."""
    return [
        WornGarment(key=one.pk, order=one.order, name=one.name, stage=one.stage, is_boned=one.is_boned)
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
