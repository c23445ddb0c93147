"""A wearer's rows as values: what each set of measures comes to, whether it still holds, all over time."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from catalogue.lengths.calculation.levels import LINES, Line
from catalogue.workroom.models import User
from fitting.wearers.calculation.lacing import Lacing
from fitting.wearers.calculation.staleness import Event, stale_because
from fitting.wearers.calculation.takes import LineTakes, Taking, taken_by_line
from fitting.wearers.models import Maker, Measures, Wearer

_WITHOUT_STAYS = (Measures.State.UNDRESSED, Measures.State.OVER_SHIFT)


def take_values(measures: Measures) -> list[Taking]:
    """Prefetch `takes`."""
    return [Taking(line=one.line, side=one.side, mm=one.value.mm) for one in measures.takes.all()]


def taken_of(measures: Measures) -> dict[str, LineTakes]:
    """Return each line of the set as one measure with its doubt. Prefetch `takes`."""
    return taken_by_line(take_values(measures), is_sent_in=measures.is_sent_in)


def as_typed(measures: Measures, line: str) -> list[str]:
    """Return the takes of a line as they were typed, each with its side. Prefetch `takes`."""
    return [f"{one.side} {one.value_text}".strip() for one in measures.takes.all() if one.line == line]


def stale_days_of(user: User) -> int:
    """After how many days this maker no longer trusts a measure; the default where they never said."""
    return (Maker.objects.filter(user=user).first() or Maker()).stale_days


def why_stale(measures: Measures, *, stale_days: int, today: date) -> str:
    """Return why the set is stale, empty where it is good. Prefetch `worn`."""
    return stale_because(
        checked=checked(measures),
        today=today,
        stale_days=stale_days,
        worn_made=made(measures.worn.all()),
    )


def checked(measures: Measures) -> Event:
    """When the set was last known to be good: taken, or looked at again."""
    if measures.still_good_on and measures.still_good_on >= measures.taken_on:
        return Event(on=measures.still_good_on, said_at=measures.still_good_at)
    return Event(on=measures.taken_on, said_at=measures.created_at)


def made(garments: Iterable[Any]) -> dict[str, Event]:
    """When each garment was made or last changed, by its name."""
    return {one.name: Event(on=one.made_on, said_at=one.made_said_at) for one in garments if one.made_on}


def newest_standing(wearer: Wearer, *, stale_days: int, today: date) -> tuple[Measures | None, str]:
    """Return the newest set and why it is stale. Prefetch `measures__worn`."""
    newest = next(iter(wearer.measures.all()), None)
    return newest, why_stale(newest, stale_days=stale_days, today=today) if newest else ""


def lacing_of(measures: Measures, of_wearer: Iterable[Measures]) -> Lacing | None:
    """Return how far the waist is laced in, against the newest set without stays; None if not known.

    `of_wearer`: all sets of the same person, newest first, with their takes.
    """
    if measures.state != Measures.State.OVER_STAYS:
        return None
    natural = next(
        (one for one in map(_waist_mm, (s for s in of_wearer if s.state in _WITHOUT_STAYS)) if one), None
    )
    laced = _waist_mm(measures)
    if natural is None or laced is None:
        return None
    return Lacing.over_stays(
        natural_mm=natural, outside_mm=laced, is_newcomer=measures.wearer.is_new_to_lacing
    )


def _waist_mm(measures: Measures) -> float | None:
    waist = taken_of(measures).get("waist")
    return waist.measure.mm if waist else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One set of measures in the table. `why_stale` is empty too where a newer set over the same exists."""

    measures: Measures
    taken: dict[str, LineTakes]
    why_stale: str
    lacing: Lacing | None


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuresOverTime:
    """Lines × sets, newest first; a cell is None where a line was not measured."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[Line, tuple[LineTakes | None, ...]], ...]


def measures_over_time(wearer: Wearer, *, stale_days: int, today: date) -> MeasuresOverTime:
    """Prefetch `measures__takes` and `measures__worn`."""
    sets = list(wearer.measures.all())
    newest = {one.state: one.pk for one in reversed(sets)}
    columns = tuple(
        Column(
            measures=one,
            taken=taken_of(one),
            why_stale=why_stale(one, stale_days=stale_days, today=today)
            if newest[one.state] == one.pk
            else "",
            lacing=lacing_of(one, sets),
        )
        for one in sets
    )
    rows = tuple(
        (line, tuple(column.taken.get(key) for column in columns))
        for key, line in LINES.items()
        if any(key in column.taken for column in columns)
    )
    return MeasuresOverTime(columns=columns, rows=rows)
