"""What a fitting should look at and what must be worn at it, from what is open and the dressing order."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, time, timedelta

from django.utils import timezone

from catalogue.lengths.showing import Writing
from catalogue.workroom.models import User
from fitting.bridge.alteration import words_of
from fitting.comparing.showing.shown import shown
from fitting.comparing.showing.standing import GarmentStanding, garments_as_they_stand
from fitting.dossier.checklist import checks_of
from fitting.models.alteration import Alteration
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.outfit import Outfit

# From a toile on there is something to try on; what is finished is worn, not fitted.
TO_FIT = (Garment.Stage.TOILE, Garment.Stage.FITTED, Garment.Stage.CUT, Garment.Stage.SEWN)
# Of all that is open, what a fitting can settle.
AT_A_FITTING = ("measures", "doubt")
USUAL_HOUR = time(18)


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingPlan:
    planned_for: datetime
    garments: tuple[Garment, ...]
    wear: tuple[str, ...]
    checks: tuple[str, ...]

    def initial(self) -> dict[str, object]:
        """First values of the form."""
        return {
            "planned_for": self.planned_for,
            "garments": [garment.pk for garment in self.garments],
            "wear": "\n".join(self.wear),
            "checks": "\n".join(self.checks),
        }


def plan_of(outfit: Outfit, *, by: User, at: datetime) -> FittingPlan:
    """A week from now, every garment that can be tried on, and what is open about it."""
    writing = Writing(system=by.system, denominator=by.denominator)
    standings = garments_as_they_stand(outfit, by=by, at=at)
    to_fit = [standing for standing in standings if standing.garment.stage in TO_FIT]
    day = timezone.localdate(at) + timedelta(days=7)
    garments = tuple(standing.garment for standing in to_fit)
    return FittingPlan(
        planned_for=timezone.make_aware(datetime.combine(day, USUAL_HOUR)),
        garments=garments,
        wear=tuple(_wear(standings, garments, writing)),
        checks=(*_alterations(garments, writing), *_doubts(to_fit, writing)),
    )


def _wear(
    standings: Sequence[GarmentStanding], garments: Sequence[Garment], writing: Writing
) -> Iterator[str]:
    """All beneath the outermost to be fitted, from the skin outward, and laced as when it was measured."""
    outermost = max((garment.order for garment in garments), default=0)
    for standing in standings:
        garment = standing.garment
        if garment.order >= outermost or garment in garments:
            continue
        is_made = garment.stage == Garment.Stage.FINISHED
        yield garment.name if is_made else f"{garment.name}: not made yet, bring what stands in for it"
    sets = dict.fromkeys(one.used.measures for one in standings if one.used and one.garment in garments)
    for measures in sets:
        gaps = {"top": measures.gap_top_um, "waist": measures.gap_waist_um, "bottom": measures.gap_bottom_um}
        laced = [f"{writing.length(um / 1000)} at the {name}" for name, um in gaps.items() if um is not None]
        if laced:
            yield f"Laced as measured {measures.taken_on:%-d %B %Y}: a gap of {', '.join(laced)}"
        if measures.heel_um:
            yield f"Heels of {writing.length(measures.heel_um / 1000)}"


def _alterations(garments: Sequence[Garment], writing: Writing) -> Iterator[str]:
    rows = Alteration.objects.unconfirmed().filter(garment__in=garments).select_related("garment", "piece")
    for row in rows.order_by("garment__order", "decided_at", "pk"):
        yield f"{row.garment}: is it right now? {words_of(row, writing)}"


def _doubts(standings: Sequence[GarmentStanding], writing: Writing) -> Iterator[str]:
    for standing in standings:
        comparison = shown(standing.newest, writing) if standing.newest else None
        # Questions about a plate are for the work table: a fitting settles none of them.
        for check in checks_of(standing, comparison, None, writing):
            if check.about in AT_A_FITTING:
                yield f"{standing.garment}: {check.sentence}"
