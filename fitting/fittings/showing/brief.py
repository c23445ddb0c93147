"""What to wear and what to check at a fitting, reckoned anew each time until it is closed.

To wear: what lies beneath the garments to be fitted. To check: alterations decided before it, and what a
comparison leaves open that a fitting can settle. Once it is closed, both stay as they were.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.db.models import prefetch_related_objects

from catalogue.lengths.showing import Writing, length_for
from catalogue.workroom.models import User
from fitting.comparing.showing.comparison import shown
from fitting.comparing.showing.standing import GarmentStanding, garments_as_they_stand
from fitting.fittings.models.session import Fitting
from fitting.fittings.showing.checks import alteration_checks, checks_of
from fitting.outfits.loading.layers import levels_of
from fitting.outfits.models.garment import Garment
from fitting.wearers.models import Measures

_Stage = Garment.Stage
# What there is of a garment to bring to a fitting, by how far it is.
BRING: Mapping[str, str] = {
    _Stage.STUDIED: "",
    _Stage.ROUTE_CHOSEN: "",
    _Stage.PATTERNED: "paper pattern",
    _Stage.TOILE: "toile",
    _Stage.FITTED: "toile as fitted",
    _Stage.CUT: "cut pieces, tacked",
    _Stage.SEWN: "garment",
    _Stage.FINISHED: "garment",
}
# Nobody can wear a pattern.
NOT_TO_WEAR = ("", BRING[_Stage.PATTERNED])
# Of all that is open about a plate and its comparison, what a fitting can settle.
AT_A_FITTING = ("measures", "doubt")


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingBrief:
    """A line for each thing to wear and to check: what is reckoned, and all with what was typed beside it."""

    wear_reckoned: tuple[str, ...]
    checks_reckoned: tuple[str, ...]
    wear: tuple[str, ...]
    checks: tuple[str, ...]

    @property
    def checks_typed(self) -> tuple[str, ...]:
        return self.checks[len(self.checks_reckoned) :]


def brief_now(fitting: Fitting, *, by: User, at: datetime) -> FittingBrief:
    """As `brief_of`, for one that stands alone on a page."""
    standings = [] if fitting.closed_at else garments_as_they_stand(fitting.outfit, by=by, at=at)
    return brief_of(fitting, standings, Writing(system=by.system, denominator=by.denominator))


def brief_of(fitting: Fitting, standings: Sequence[GarmentStanding], writing: Writing) -> FittingBrief:
    """`standings`: of all garments of its outfit; of a closed one they are not read."""
    if fitting.closed_at:
        wear, checks = _lines(fitting.wear_said), _lines(fitting.checks_said)
    else:
        fitted = {garment.pk for garment in fitting.garments.all()}
        to_fit = [one for one in standings if one.garment.pk in fitted]
        wear = [*_worn(standings, to_fit), *_laced(to_fit, writing)]
        checks = [*_altered(fitting, to_fit, writing), *_doubted(to_fit, writing)]
    return FittingBrief(
        wear_reckoned=tuple(wear),
        checks_reckoned=tuple(checks),
        wear=_with_typed(wear, fitting.wear),
        checks=_with_typed(checks, fitting.checks),
    )


def _lines(text: str) -> list[str]:
    return [line.strip() for line in text.splitlines() if line.strip()]


def _with_typed(reckoned: Sequence[str], typed: str) -> tuple[str, ...]:
    """What is typed as it is reckoned already is not said twice."""
    known = {line.casefold() for line in reckoned}
    return (*reckoned, *(line for line in _lines(typed) if line.casefold() not in known))


def _worn(standings: Sequence[GarmentStanding], to_fit: Sequence[GarmentStanding]) -> Iterator[str]:
    """All that lies beneath a garment to be fitted, from the skin outward; what is fitted itself as well."""
    over = [one.garment for one in to_fit]
    for garment in (one.garment for one in standings):
        if not any(_lies_beneath(garment, outer) for outer in over):
            continue
        bring = BRING[garment.stage]
        if bring in NOT_TO_WEAR:
            yield f"{garment}: not made yet, bring what stands in for it"
        else:
            yield str(garment) if bring == BRING[_Stage.FINISHED] else f"{garment}: {bring}"


def _lies_beneath(garment: Garment, outer: Garment) -> bool:
    """Whether it is worn under the other, where that lies: a cap changes nothing about the fit of a gown."""
    if garment.order >= outer.order:
        return False
    inside, outside = levels_of(garment), levels_of(outer)
    # Where nothing tells where one of them lies, it is worn rather than forgotten.
    return not inside or not outside or bool(inside & outside)


def _laced(to_fit: Sequence[GarmentStanding], writing: Writing) -> Iterator[str]:
    """As when the measures were taken, so that the toile means the same."""
    for measures in dict.fromkeys(one.used.measures for one in to_fit if one.used):
        if gaps := gaps_of(measures, writing):
            yield f"Laced as measured {measures.taken_on:%-d %B %Y}: a gap of {gaps}"
        if measures.heel_um:
            yield f"Heels of {length_for(measures.heel, writing)}"


def gaps_of(measures: Measures, writing: Writing) -> str:
    gaps = {"top": measures.gap_top, "waist": measures.gap_waist, "bottom": measures.gap_bottom}
    return ", ".join(f"{length_for(gap, writing)} at the {where}" for where, gap in gaps.items() if gap)


def _altered(fitting: Fitting, to_fit: Sequence[GarmentStanding], writing: Writing) -> Iterator[str]:
    """What was decided about the garments, but for what this very fitting led to."""
    garments = [one.garment for one in to_fit]
    prefetch_related_objects(garments, "alterations__parts", "alterations__piece")
    own = {observation.pk for observation in fitting.observations.all()}
    for garment in garments:
        rows = [
            row
            for row in garment.alterations.all()
            if row.confirmed_in_id is None and row.observation_id not in own
        ]
        for check in alteration_checks(rows, writing):
            yield f"{garment}: {check.sentence}"


def _doubted(to_fit: Sequence[GarmentStanding], writing: Writing) -> Iterator[str]:
    for standing in to_fit:
        comparison = shown(standing.newest, writing) if standing.newest else None
        # Questions about a plate are for the work table: a fitting settles none of them.
        for check in checks_of(standing, comparison, None, writing):
            if check.about in AT_A_FITTING:
                yield f"{standing.garment}: {check.sentence}"
