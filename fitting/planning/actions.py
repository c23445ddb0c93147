"""The usual tasks of a garment, laid out at once; the secret address of a calendar, given and taken back."""

import secrets
from collections.abc import Mapping
from datetime import datetime

from django.db import transaction

from catalogue.workroom.models import User, Workroom
from catalogue.workroom.models.one_time import digest_of
from fitting.comparing.calculation.routes import Route
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.planning.calculation.waiting import STAGES
from fitting.planning.models import CalendarAddress, Task

# What is usually to be done to bring a garment to a stage, and its hours; our guesses. The pattern takes what
# its route takes.
USUAL = (
    (Garment.Stage.PATTERNED, "pattern", None),
    (Garment.Stage.TOILE, "toile", 3.0),
    (Garment.Stage.FITTED, "fit the toile", 2.0),
    (Garment.Stage.CUT, "cut out", 2.0),
    (Garment.Stage.SEWN, "sew", 12.0),
    (Garment.Stage.FINISHED, "finish by hand", 4.0),
)
# Before a route is chosen: the middle of what the routes are guessed to take.
PATTERN_HOURS = 6.0
_SECRET_BYTES = 32


@transaction.atomic
def lay_out_usual_tasks(outfit: Outfit, *, hours: Mapping[Route, float]) -> list[Task]:
    """Give every garment that is not finished the usual tasks for the stages to come that have none yet.

    `hours` of the maker for each route.
    """
    there = set(outfit.tasks.values_list("garment", "leads_to"))
    garments = outfit.garments.exclude(purpose=Garment.Purpose.STUDY).prefetch_related("route_choices")
    tasks = [
        Task(
            outfit=outfit,
            garment=garment,
            name=name,
            leads_to=stage,
            estimate_hours=_pattern_hours(garment, hours) if usual is None else usual,
        )
        for garment in garments
        for stage, name, usual in USUAL
        if STAGES.index(stage) > STAGES.index(garment.stage) and (garment.pk, stage) not in there
    ]
    return Task.objects.bulk_create(tasks)


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
