"""What a workroom should look at next: the outfits that are not finished, and what stands in their way."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from django.db.models import OuterRef, Subquery
from django.urls import reverse

from catalogue.workroom.models import User, Workroom
from fitting.comparing.calculation.routes import Route
from fitting.comparing.loading.case import OutfitRows, rows_of_outfits
from fitting.comparing.models import Comparison
from fitting.comparing.showing.standing import GarmentStanding, standings_of
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit
from fitting.planning.calculation.plan import DAYS_A_WEEK, OpenTask
from fitting.planning.calculation.work_left import WorkLeft, planned_left, work_left
from fitting.planning.loading.work import tasks_with_hours
from fitting.planning.models import Task
from fitting.wearers.models import Measures

# Home is looked at each morning: what comes after the next few outfits can wait on the list of outfits.
OUTFITS_AT_HOME = 8
WITHOUT_PATTERN = (Garment.Stage.STUDIED, Garment.Stage.ROUTE_CHOSEN)
# Once the cloth is cut a new comparison no longer changes the pattern.
NOT_CUT = (*WITHOUT_PATTERN, Garment.Stage.PATTERNED, Garment.Stage.TOILE, Garment.Stage.FITTED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Call:
    """One thing to look at: a word for it, the page to do it on, and why."""

    word: str
    name: str
    address: str
    why: str


def on_the_table(workroom: Workroom, *, by: User, at: datetime) -> list[OutfitRows]:
    """The unfinished outfits whose day comes first, with their rows: as many queries for one as for eight."""
    last = Comparison.objects.filter(garment__outfit=OuterRef("pk")).values("made_by")[:1]
    outfits = list(
        Outfit.objects.of_workroom(workroom)
        .unfinished()
        .annotate(compared_by=Subquery(last))[:OUTFITS_AT_HOME]
    )
    people = User.objects.in_bulk({outfit.compared_by for outfit in outfits if outfit.compared_by})
    return rows_of_outfits(
        outfits, by={outfit.pk: people.get(outfit.compared_by, by) for outfit in outfits}, at=at
    )


def work_on_the_table(table: Iterable[OutfitRows]) -> list[tuple[OutfitRows, WorkLeft]]:
    """What is left on each outfit: two queries for all."""
    table = list(table)
    tasks: dict[int, list[Task]] = {}
    for task in tasks_with_hours(rows.outfit for rows in table):
        tasks.setdefault(task.outfit_id, []).append(task)
    return [(rows, _work_of(rows, tasks.get(rows.outfit.pk, []))) for rows in table]


def _work_of(rows: OutfitRows, tasks: list[Task]) -> WorkLeft:
    """By its plan, as soon as one task was laid out; until then at its maker's own hours for the routes."""
    outfit, day = rows.outfit, rows.outfit.occasion_on
    time: dict[str, Any] = {
        "days_left": (day - rows.today).days if day else None,
        "hours_a_day": (outfit.hours_a_week or rows.maker.hours_a_day * DAYS_A_WEEK) / DAYS_A_WEEK,
    }
    if tasks:
        named = {task.garment_id for task in tasks}
        left = [one for one in rows.garments if one.stage != Garment.Stage.FINISHED and one.pk not in named]
        still_open = (
            OpenTask(key=str(one.pk), estimate_hours=one.estimate_hours, done_hours=one.done_hours)
            for one in tasks
            if one.done_on is None
        )
        return planned_left(still_open, uncounted=len(left), **time)
    to_pattern = [garment for garment in rows.garments if garment.stage in WITHOUT_PATTERN]
    choices = [next(iter(garment.route_choices.all()), None) for garment in to_pattern]
    routes = [Route(choice.route) if choice else None for choice in choices]
    return work_left(routes, hours=rows.maker.hours, **time)


def calls_of(table: Iterable[OutfitRows]) -> list[Call]:
    """Days gone by, stale measures, then garment by garment. For those who may see measures."""
    table = list(table)
    standings = [standing for rows in table for standing in standings_of(rows)]
    garments = [call for standing in standings if (call := _call_of(standing))]
    return [*_days_gone_by(table), *_stale(standings), *garments]


def _days_gone_by(table: list[OutfitRows]) -> Iterator[Call]:
    for rows in table:
        if rows.outfit.occasion_on and rows.outfit.occasion_on < rows.today:
            yield Call(
                word="day gone by",
                name=rows.outfit.name,
                address=rows.outfit.get_absolute_url(),
                why=f"Its day was {_day(rows.outfit.occasion_on)}; finish it, or give it another day.",
            )


def _stale(standings: list[GarmentStanding]) -> Iterator[Call]:
    in_use: dict[Measures, list[GarmentStanding]] = {}
    for standing in standings:
        if standing.used and standing.used.stale and standing.garment.stage in NOT_CUT:
            in_use.setdefault(standing.used.measures, []).append(standing)
    for measures, users in in_use.items():
        reasons = " and ".join(dict.fromkeys(standing.used.stale for standing in users))
        yield Call(
            word="stale",
            name=f"Measures of {measures}",
            address=measures.get_absolute_url(),
            why=f"{reasons[0].upper()}{reasons[1:]}; used for {_listed(one.garment.name for one in users)}.",
        )


def _call_of(standing: GarmentStanding) -> Call | None:
    """The first thing to do for a garment that is not cut yet; None where nothing is."""
    garment, chosen = standing.garment, standing.choice is not None
    if garment.stage not in NOT_CUT:
        return None
    if standing.newest and standing.is_out_of_date and not standing.missing:
        return _garment_call("out of date", garment, standing.why_out_of_date)
    if chosen or garment.stage not in WITHOUT_PATTERN:
        return None
    if standing.missing:
        return _garment_call("waiting", garment, standing.missing[0].sentence, standing.missing[0].address)
    if standing.newest is None:
        return _garment_call("not compared", garment, "Ready: its plate and its measures are there.")
    where = reverse("route-choose", args=[garment.pk])
    return _garment_call("no route", garment, "Compared, and no way to its pattern chosen yet.", where)


def _garment_call(word: str, garment: Garment, why: str, address: str = "") -> Call:
    return Call(
        word=word,
        name=f"{garment.name}, {garment.outfit}",
        address=address or garment.get_absolute_url(),
        why=why,
    )


def _day(day: date) -> str:
    return f"{day:%-d %B %Y}"


def _listed(names: Iterable[str]) -> str:
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last
