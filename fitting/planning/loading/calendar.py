"""The days of a workroom for a calendar that anybody with its address can read.

It names outfits, garments and tasks as their makers do, without any wearer's name or measure in them. Of a
fitting it says when, and for which garments: where it is may be somebody's home.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from datetime import date

from django.utils import timezone

from catalogue.workroom.models import Workroom
from fitting.fittings.models.session import Fitting
from fitting.outfits.calculation.discretion import words_for_anybody
from fitting.outfits.models.outfit import Outfit
from fitting.planning.exchange import CalendarEvent
from fitting.planning.loading.work import hours_a_week_of, plan_of, tasks_of
from fitting.planning.models import Task
from fitting.wearers.models import Wearer


def calendar_events(workroom: Workroom, *, today: date) -> list[CalendarEvent]:
    """Occasions, days by which open tasks must be done, and fittings to come, of the outfits not finished."""
    outfits = list(
        Outfit.objects.of_workroom(workroom)
        .unfinished()
        .select_related("maker__maker")
        .prefetch_related("garments")
    )
    names = [name for wearer in Wearer.objects.of_workroom(workroom) for name in wearer.names]
    tasks: defaultdict[int, list[Task]] = defaultdict(list)
    for task in tasks_of(outfits):
        tasks[task.outfit_id].append(task)
    fittings = Fitting.objects.open_in(workroom).for_list_page()
    events = [
        *(
            _of_fitting(fitting, names)
            for fitting in fittings
            if timezone.localdate(fitting.planned_for) >= today
        ),
        *(event for one in outfits for event in _of_outfit(one, tasks[one.pk], names, today)),
    ]
    return sorted(events, key=lambda event: event.day)


def _of_fitting(fitting: Fitting, names: Sequence[str]) -> CalendarEvent:
    garments = ", ".join(garment.name for garment in fitting.garments.all())
    return CalendarEvent(
        key=f"fitting-{fitting.pk}",
        at=timezone.localtime(fitting.planned_for),
        name=f"Fitting: {words_for_anybody(garments or fitting.outfit.name, names)}",
        text=words_for_anybody(fitting.outfit.name, names),
        changed_at=fitting.changed_at,
    )


def _of_outfit(
    outfit: Outfit, tasks: list[Task], names: Sequence[str], today: date
) -> Iterator[CalendarEvent]:
    name = words_for_anybody(outfit.name, names)
    if outfit.occasion_on:
        yield CalendarEvent(
            key=f"outfit-{outfit.pk}",
            at=outfit.occasion_on,
            name=name,
            text=words_for_anybody(outfit.occasion, names),
            changed_at=outfit.changed_at,
        )
    hours = hours_a_week_of(outfit)
    for row in plan_of(outfit, tasks, list(outfit.garments.all()), hours_a_week=hours, today=today).rows:
        if row.planned.must_be_done_by:
            yield CalendarEvent(
                key=f"task-{row.task.pk}",
                at=row.planned.must_be_done_by,
                name=f"{words_for_anybody(str(row.task), names)}: to be done",
                text=name,
                changed_at=row.task.changed_at,
            )
