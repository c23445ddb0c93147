"""The days of a workroom for a calendar that anybody with its address can read.

It names outfits, garments and tasks as their makers do; a wearer's name and a length in such a name are
left out.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date

from catalogue.models import Workroom
from fitting.bridge.work import hours_a_week_of, plan_of, tasks_of
from fitting.calculation.discretion import without_measures, without_names
from fitting.exchange.calendar import CalendarDay
from fitting.models import Outfit, Task, Wearer


def calendar_days(workroom: Workroom, *, today: date) -> list[CalendarDay]:
    """Each occasion, and the day by which each open task must be done, of the outfits not finished."""
    outfits = list(Outfit.objects.of_workroom(workroom).unfinished().prefetch_related("garments"))
    names = list(Wearer.objects.of_workroom(workroom).values_list("name", flat=True))
    tasks: defaultdict[int, list[Task]] = defaultdict(list)
    for task in tasks_of(outfits):
        tasks[task.outfit_id].append(task)
    days = [day for one in outfits for day in _days_of(one, tasks[one.pk], names=names, today=today)]
    return sorted(days, key=lambda day: day.day)


def discreet(text: str, names: Iterable[str]) -> str:
    return without_names(without_measures(text), names)


def _days_of(outfit: Outfit, tasks: list[Task], *, names: list[str], today: date) -> Iterator[CalendarDay]:
    name = discreet(outfit.name, names)
    if outfit.occasion_on:
        yield CalendarDay(
            key=f"outfit-{outfit.pk}",
            day=outfit.occasion_on,
            name=name,
            text=discreet(outfit.occasion, names),
            changed_at=outfit.changed_at,
        )
    hours = hours_a_week_of(outfit)
    for row in plan_of(outfit, tasks, list(outfit.garments.all()), hours_a_week=hours, today=today).rows:
        if row.planned.must_be_done_by:
            yield CalendarDay(
                key=f"task-{row.task.pk}",
                day=row.planned.must_be_done_by,
                name=f"{discreet(str(row.task), names)}: to be done",
                text=name,
                changed_at=row.task.changed_at,
            )
