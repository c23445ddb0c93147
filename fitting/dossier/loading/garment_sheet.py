"""The sheet of one garment: its comparison, by the very numbers it was judged by, and room to work.

And what each figure dates from: a garment's readings, its ease, its measures and its comparison.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from django.utils import timezone

from catalogue.lengths.showing import Writing
from catalogue.plates.calculation.findings import LIKELY_ALLOWANCE_MM
from fitting.comparing.models import RouteChoice
from fitting.comparing.showing.chart import draw_chart
from fitting.comparing.showing.comparison import ComparisonReport
from fitting.comparing.showing.standing import GarmentStanding
from fitting.dossier.loading.cautions import short_cautions
from fitting.dossier.loading.fitting_pages import NextFitting
from fitting.fittings.loading.alterations import AlterationTable
from fitting.fittings.showing.brief import AT_A_FITTING
from fitting.fittings.showing.checks import Check
from fitting.outfits.loading.patterns import BEFORE_CUTTING
from fitting.outfits.models.garment import Ease, Garment

MOST_ROWS, FEWEST_ROWS, FEWEST_BESIDE = 6, 3, 2
FLAGS = {"expected": "waist expected", "built up": "built up"}


@dataclass(frozen=True, slots=True, kw_only=True)
class GarmentSheet:
    """`comparison.answer` holds the assessment unrounded. `chart` is SVG, empty where nothing is compared."""

    garment: Garment
    comparison: ComparisonReport | None
    chart: str
    flags: tuple[str, ...]
    missing: tuple[str, ...]
    dates: tuple[str, ...]
    choice: RouteChoice | None
    cautions: tuple[str, ...]
    checks: tuple[Check, ...]
    altered: AlterationTable
    ahead: NextFitting | None

    @property
    def doubts(self) -> tuple[Check, ...]:
        """Of what is to be checked, that which a fitting can settle besides its alterations."""
        return tuple(check for check in self.checks if check.about in AT_A_FITTING)

    @property
    def blank_rows(self) -> range:
        """Rows for what is seen besides: fewer where the fitting, alterations and comparison take room."""
        room = MOST_ROWS - self._table_rows // 4 - len(self.altered.open) - (2 if self.ahead else 0)
        return range(max(room, FEWEST_BESIDE if self.altered.open else FEWEST_ROWS))

    @property
    def is_dense(self) -> bool:
        """Whether the chart is drawn smaller, so that the sheet stays one page."""
        return self._table_rows > 10

    @property
    def likely_allowance_mm(self) -> float:
        return LIKELY_ALLOWANCE_MM

    @property
    def _table_rows(self) -> int:
        return sum(2 if line.if_included else 1 for line in self.comparison.lines) if self.comparison else 0


def garment_sheet(
    standing: GarmentStanding,
    comparison: ComparisonReport | None,
    checks: tuple[Check, ...],
    writing: Writing,
    *,
    altered: AlterationTable,
    ahead: NextFitting | None,
) -> GarmentSheet:
    garment = standing.garment
    return GarmentSheet(
        garment=garment,
        comparison=comparison,
        chart=draw_chart(
            comparison.chart if comparison else (),
            title=f"{garment.name}: the plate at full size against the wearer",
            system=writing.system,
            denominator=writing.denominator,
            name=f"chart-{garment.pk}",
        ),
        flags=tuple(_flags(standing)),
        missing=tuple(one.sentence for one in standing.missing) if garment.stage in BEFORE_CUTTING else (),
        dates=tuple(_dates(standing, comparison)),
        choice=standing.choice,
        cautions=tuple(short_cautions(garment)),
        checks=checks,
        altered=altered,
        ahead=ahead,
    )


def _flags(standing: GarmentStanding) -> Iterator[str]:
    """What makes the comparison less than sure, in a word each."""
    if standing.newest is None:
        return
    if standing.is_out_of_date:
        yield "out of date"
    if standing.used and standing.used.stale:
        yield "stale"
    how = standing.newest.inputs["measures"]["how"]
    if how in FLAGS:
        yield FLAGS[how]


def _dates(standing: GarmentStanding, comparison: ComparisonReport | None) -> Iterator[str]:
    """Of what day each figure on the sheet is."""
    if comparison is None or standing.newest is None:
        return
    if comparison.measured:
        taken_on = date.fromisoformat(comparison.measured["taken_on"])
        yield f"body: {comparison.measured['state']}, {taken_on:%-d %B %Y}"
    if read_on := last_read_on(standing.garment):
        yield f"plate: readings last changed {read_on:%-d %B %Y}"
    compared_on = timezone.localtime(standing.newest.made_at)
    yield f"compared {compared_on:%-d %B %Y}, rules {standing.newest.rule_version}"


def last_read_on(garment: Garment) -> date | None:
    """The day on which a reading of its plate was last typed or changed."""
    if garment.plate is None:
        return None
    changes = [reading.changed_at for piece in garment.plate.pieces.all() for reading in piece.readings.all()]
    return timezone.localtime(max(changes)).date() if changes else None


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
