"""The usual tasks of a garment, laid out at once; the secret address of a calendar, given and taken back."""

import secrets
from collections import defaultdict
from collections.abc import Mapping
from datetime import date, datetime
from statistics import median

from django.db import transaction

from catalogue.workroom.models import User, Workroom
from catalogue.workroom.models.one_time import digest_of
from fitting.comparing.calculation.routes import Route
from fitting.outfits.actions import set_stage, stage_further_on
from fitting.outfits.calculation.garment import Purpose
from fitting.outfits.loading.layers import kind_of
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.planning.calculation.pace import ENOUGH_DONE
from fitting.planning.calculation.waiting import STAGES
from fitting.planning.models import CalendarAddress, Task

_Stage = Garment.Stage
# What is usually to be done to bring a garment to a stage, and its hours; our guesses. A pattern without
# hours takes what its route takes.
FITTED = (
    (_Stage.PATTERNED, "pattern", None),
    (_Stage.TOILE, "toile", 3.0),
    (_Stage.FITTED, "fit the toile", 2.0),
    (_Stage.CUT, "cut out", 2.0),
    (_Stage.SEWN, "sew", 12.0),
    (_Stage.FINISHED, "finish by hand", 4.0),
)
_LOOSE = ((_Stage.CUT, "cut out", 1.0), (_Stage.SEWN, "sew", 7.0), (_Stage.FINISHED, "finish by hand", 2.0))
LOOSE = ((_Stage.PATTERNED, "pattern", None), *_LOOSE)
STRAIGHT = ((_Stage.PATTERNED, "measure out the breadths", 1.0), *_LOOSE)
SMALL = ((_Stage.CUT, "cut out", 0.5), (_Stage.FINISHED, "sew and hem", 2.5))
# Kinds that no toile is fitted of; every other kind is FITTED.
USUAL = {
    "shift or shirt": LOOSE,
    "drawers": LOOSE,
    "hoop or bustle": LOOSE,
    "petticoat": STRAIGHT,
    "skirt": STRAIGHT,
    "apron": SMALL,
    "kerchief": SMALL,
    "neckcloth": SMALL,
    "pad or bum roll": SMALL,
}
# Before a route is chosen: the middle of what the routes are guessed to take.
PATTERN_HOURS = 6.0
_SECRET_BYTES = 32


@transaction.atomic
def lay_out_usual_tasks(outfit: Outfit, *, hours: Mapping[Route, float]) -> list[Task]:
    """Give every garment that is not finished the usual tasks of its kind for the stages that have none yet.

    `hours` of the maker for each route. What the maker's tasks of that kind took comes before our guesses.
    """
    there = set(outfit.tasks.values_list("garment", "leads_to"))
    garments = outfit.garments.exclude(purpose=Purpose.STUDY).select_related("plate__reference")
    took = _hours_taken(outfit)
    tasks = [
        Task(
            outfit=outfit,
            garment=garment,
            name=name,
            leads_to=stage,
            estimate_hours=took.get((_kind(garment), stage))
            or (_pattern_hours(garment, hours) if usual is None else usual),
        )
        for garment in garments.prefetch_related("route_choices")
        for stage, name, usual in USUAL.get(_kind(garment), FITTED)
        if STAGES.index(stage) > STAGES.index(garment.stage) and (garment.pk, stage) not in there
    ]
    return Task.objects.bulk_create(tasks)


def _kind(garment: Garment) -> str:
    kind = kind_of(garment)
    return kind.key if kind else ""


def _hours_taken(outfit: Outfit) -> dict[tuple[str, str], float]:
    """By kind of garment and stage, the median of what the maker's tasks took, of enough of one sort."""
    done = Task.objects.of_workroom(outfit.workroom).exclude(done_on=None).exclude(leads_to="")
    mine = done.filter(outfit__maker=outfit.maker_id) if outfit.maker_id else done.filter(outfit=outfit)
    taken: defaultdict[tuple[str, str], list[float]] = defaultdict(list)
    for task in mine.with_hours().select_related("garment__plate__reference"):
        if task.garment and task.done_hours > 0:
            taken[_kind(task.garment), task.leads_to].append(task.done_hours)
    return {sort: median(hours) for sort, hours in taken.items() if len(hours) >= ENOUGH_DONE}


@transaction.atomic
def finish_task(task: Task, *, on: date | None) -> Task:
    """Note that it is done, and bring its garment to the stage that this reaches; None: it is open again."""
    task.done_on = on
    task.save(update_fields=["done_on", "changed_at"])
    garment, stages = task.garment, Garment.Stage.values
    if garment is None or not task.leads_to:
        return task
    if on:
        if stage := stage_further_on(garment):
            set_stage(garment, stage, on=on)
    elif garment.stage == task.leads_to:
        garment.stage = stages[stages.index(garment.stage) - 1]
        garment.save(update_fields=["stage", "changed_at"])
    return task


def _pattern_hours(garment: Garment, hours: Mapping[Route, float]) -> float:
    choice = next(iter(garment.route_choices.all()), None)
    return hours[Route(choice.route)] if choice else PATTERN_HOURS


@transaction.atomic
def give_address(workroom: Workroom, *, user: User) -> str:
    """Return the secret part of a new address; the one before it leads nowhere from now on."""
    withdraw_address(workroom, user=user)
    secret = secrets.token_urlsafe(_SECRET_BYTES)
    CalendarAddress.objects.create(workroom=workroom, user=user, digest=digest_of(secret))
    return secret


def withdraw_address(workroom: Workroom, *, user: User) -> None:
    CalendarAddress.objects.filter(workroom=workroom, user=user).delete()


def workroom_at(secret: str, *, at: datetime) -> Workroom | None:
    """The workroom whose days are read there; None once the address is withdrawn or its person has left."""
    address = (
        CalendarAddress.objects.filter(digest=digest_of(secret), user__is_active=True)
        .select_related("workroom")
        .first()
    )
    if address is None or not address.workroom.members.filter(user=address.user_id).exists():
        return None
    CalendarAddress.objects.filter(pk=address.pk).update(read_at=at)
    return address.workroom
