"""What each figure dates from: for every garment, its readings, its ease, its measures and its comparison."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from fitting.comparing.showing.standing import GarmentStanding
from fitting.dossier.garment_sheet import last_read_on
from fitting.outfits.models.garment import Ease, Garment


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureDates:
    garment: Garment
    read_on: date | None
    taken_on: date | None
    confirmed_on: date | None
    made_on: date | None
    compared_at: datetime | None
    rule_version: str
    chosen_at: datetime | None
    eases: tuple[Ease, ...]


def figure_dates(standings: Sequence[GarmentStanding]) -> tuple[FigureDates, ...]:
    return tuple(_of(standing) for standing in standings)


def _of(standing: GarmentStanding) -> FigureDates:
    measures = standing.used.measures if standing.used and standing.garment.plate else None
    return FigureDates(
        garment=standing.garment,
        read_on=last_read_on(standing.garment),
        taken_on=measures.taken_on if measures else None,
        confirmed_on=measures.still_good_on if measures else None,
        made_on=standing.garment.made_on,
        compared_at=standing.newest.made_at if standing.newest else None,
        rule_version=standing.newest.rule_version if standing.newest else "",
        chosen_at=standing.choice.chosen_at if standing.choice else None,
        eases=tuple(standing.garment.eases.all()),
    )
