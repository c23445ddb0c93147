"""The figures that an outfit stood at when a dossier was printed: what the next one is held against.

Plain values, so that they can be kept with the dossier as JSON; rows are named by their keys. `changes` tells
two of them apart in words.
"""

from collections.abc import Sequence
from datetime import datetime
from typing import TypedDict

from django.db.models import Sum, prefetch_related_objects
from django.utils import timezone

from catalogue.workroom.models import User
from fitting.comparing.exchange.answer import answer_from_json
from fitting.comparing.models import Comparison
from fitting.comparing.showing.standing import GarmentStanding, garments_as_they_stand
from fitting.fittings.loading.making import ALTERED
from fitting.fittings.models.alteration import Alteration
from fitting.fittings.models.session import Fitting
from fitting.fittings.models.trial import Trial
from fitting.outfits.models.outfit import Outfit
from fitting.wearers.loading import taken_of


class GarmentSnapshot(TypedDict):
    name: str
    stage: str
    route: str
    comparison: str | None
    verdicts: dict[str, str]


class MeasuresSnapshot(TypedDict):
    """The newest set in one state of dress: what each line came to."""

    key: str
    taken_on: str
    mm: dict[str, float]


class AlterationSnapshot(TypedDict):
    garment: str
    what: str
    ticked: list[str]
    is_confirmed: bool


class FittingSnapshot(TypedDict):
    on: str
    is_closed: bool


class Snapshot(TypedDict):
    """By the keys of the rows, as text; `measures` by state of dress; `spent` as decimal digits."""

    garments: dict[str, GarmentSnapshot]
    measures: dict[str, MeasuresSnapshot]
    alterations: dict[str, AlterationSnapshot]
    fittings: dict[str, FittingSnapshot]
    trials: dict[str, str]
    done: dict[str, str]
    hours: float
    spent: str


def snapshot_now(outfit: Outfit, *, by: User | None, at: datetime) -> Snapshot:
    standings = garments_as_they_stand(outfit, by=by, at=at)
    prefetch_related_objects([one.garment for one in standings], *ALTERED)
    return snapshot_of(outfit, standings)


def snapshot_of(outfit: Outfit, standings: Sequence[GarmentStanding]) -> Snapshot:
    """The figures of the outfit today. `standings`: of its garments, with their alterations prefetched."""
    alterations = [row for standing in standings for row in standing.garment.alterations.all()]
    logged = outfit.log.aggregate(hours=Sum("hours"), spent=Sum("cost"))
    paid = outfit.materials.aggregate(paid=Sum("cost"))["paid"]
    done = outfit.tasks.filter(done_on__isnull=False).select_related("garment")
    trials = Trial.objects.filter(garment__outfit=outfit).select_related("garment")
    return Snapshot(
        garments={str(one.garment.key): _garment(one) for one in standings},
        measures=_measures(outfit),
        alterations={str(row.key): _alteration(row) for row in alterations},
        fittings={str(row.key): _fitting(row) for row in outfit.fittings.order_by("planned_for", "pk")},
        trials={str(row.key): str(row) for row in trials.order_by("made_on", "pk")},
        done={str(task.key): str(task) for task in done.order_by("done_on", "pk")},
        hours=logged["hours"] or 0.0,
        spent=str((logged["spent"] or 0) + (paid or 0)),
    )


def _garment(standing: GarmentStanding) -> GarmentSnapshot:
    garment, newest = standing.garment, standing.newest
    return GarmentSnapshot(
        name=garment.name,
        stage=garment.stage,
        route=standing.choice.route if standing.choice else "",
        comparison=str(newest.key) if newest else None,
        verdicts=_verdicts(newest) if newest else {},
    )


def _verdicts(comparison: Comparison) -> dict[str, str]:
    lines = answer_from_json(comparison.results).lines
    return {line: answer.verdict for line, answer in lines.items()}


def _measures(outfit: Outfit) -> dict[str, MeasuresSnapshot]:
    if outfit.wearer is None:
        return {}
    newest = {one.state: one for one in reversed(outfit.wearer.measures.for_comparison())}
    return {
        state: MeasuresSnapshot(
            key=str(one.key),
            taken_on=one.taken_on.isoformat(),
            mm={line: taken.measure.mm for line, taken in taken_of(one).items()},
        )
        for state, one in sorted(newest.items())
    }


def _alteration(row: Alteration) -> AlterationSnapshot:
    return AlterationSnapshot(
        garment=row.garment.name,
        what=f"{row.edge}, {row.get_what_display()}",
        ticked=[part.part for part in row.parts.all() if part.done_on],
        is_confirmed=row.confirmed_in_id is not None,
    )


def _fitting(row: Fitting) -> FittingSnapshot:
    on = timezone.localdate(row.planned_for)
    return FittingSnapshot(on=on.isoformat(), is_closed=row.closed_at is not None)
