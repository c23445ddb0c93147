"""The measures to retake: every line the wearer was measured along, or that a plate asks for."""

from collections.abc import Iterable
from dataclasses import dataclass

from catalogue.lengths.calculation.levels import LINES
from fitting.comparing.showing.standing import GarmentStanding
from fitting.outfits.models.outfit import Outfit
from fitting.wearers.calculation.takes import LineTakes
from fitting.wearers.loading import taken_of
from fitting.wearers.models import Measures
from fitting.wearers.showing import numbers_of

# More do not fit beside the blank columns.
MOST_SETS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuresColumn:
    """One set, with the garments that are compared with it now."""

    measures: Measures
    used_for: tuple[str, ...]
    stale: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuresRow:
    """One line; `number` is its place on the figure. `is_asked_for`: read on a plate, never measured."""

    number: int | None
    label: str
    has_sides: bool
    cells: tuple[LineTakes | None, ...]

    @property
    def is_asked_for(self) -> bool:
        return not any(self.cells)


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuresTable:
    columns: tuple[MeasuresColumn, ...]
    rows: tuple[MeasuresRow, ...]


def measures_table(outfit: Outfit, standings: Iterable[GarmentStanding]) -> MeasuresTable | None:
    """Sets in use first, then the newest in other states of dress. None where nobody is to be measured."""
    if outfit.wearer is None:
        return None
    standings = list(standings)
    columns = [_column(one, standings) for one in _chosen(outfit, standings)]
    taken = [taken_of(column.measures) for column in columns]
    asked_for = {line for standing in standings for line in _read_on_plate(standing)}
    numbers = numbers_of(outfit.wearer.dress)
    rows = tuple(
        MeasuresRow(
            number=numbers.get(key),
            label=line.label,
            has_sides=line.has_sides,
            cells=tuple(of_set.get(key) for of_set in taken),
        )
        for key, line in LINES.items()
        if line.on_body and (key in asked_for or any(key in of_set for of_set in taken))
    )
    return MeasuresTable(columns=tuple(columns), rows=rows)


def _chosen(outfit: Outfit, standings: list[GarmentStanding]) -> list[Measures]:
    """In the order of dressing, each state's newest and every set in use."""
    sets = list(outfit.wearer.measures.for_comparison())
    in_use = {standing.used.measures.pk for standing in standings if standing.used}
    newest = {one.state: one.pk for one in reversed(sets)}
    wanted = sorted(sets, key=lambda one: (one.pk not in in_use, newest[one.state] != one.pk))
    chosen = [one for one in wanted if one.pk in in_use or newest[one.state] == one.pk][:MOST_SETS]
    states = Measures.State.values
    return sorted(chosen, key=lambda one: (states.index(one.state), one.taken_on))


def _column(measures: Measures, standings: list[GarmentStanding]) -> MeasuresColumn:
    using = [one for one in standings if one.used and one.used.measures.pk == measures.pk]
    return MeasuresColumn(
        measures=measures,
        used_for=tuple(one.garment.name for one in using),
        stale=next((one.used.stale for one in using if one.used.stale), ""),
    )


def _read_on_plate(standing: GarmentStanding) -> Iterable[str]:
    plate = standing.garment.plate
    if plate is None:
        return ()
    return (reading.line for piece in plate.pieces.all() for reading in piece.readings.all())
