"""What goes on with a garment while it is made: alterations, inlay, toiles, and patterns that could help."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.db.models import prefetch_related_objects

from catalogue.lengths.showing import Writing
from fitting.comparing.showing.standing import GarmentStanding
from fitting.fittings.loading.alterations import AlterationTable, alterations_of
from fitting.fittings.loading.trials import Forecast, error_sentences, errors_of, forecasts
from fitting.fittings.models.trial import Trial
from fitting.outfits.loading.patterns import BEFORE_CUTTING, PatternMatch, patterns_for
from fitting.outfits.models.pattern import PatternInHand

# All that `alterations_of` reads of a garment.
ALTERED = ("alterations__parts", "alterations__piece", "alterations__confirmed_in", "inlays")


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """All that goes on with a garment while it is made. For makers and keepers only, since it is reckoned
    from a body.
    """

    alterations: AlterationTable
    trials: Sequence[Trial]
    sentences: Sequence[str]
    forecasts: Sequence[Forecast]
    pattern_matches: Sequence[PatternMatch]


def making_of(standing: GarmentStanding, writing: Writing) -> Making:
    garment = standing.garment
    prefetch_related_objects([garment], *ALTERED, "trials")
    errors = errors_of(garment.outfit.maker)
    matches: Sequence[PatternMatch] = ()
    if garment.needs_parts and garment.stage in BEFORE_CUTTING:
        patterns = PatternInHand.objects.filter(workroom=garment.outfit.workroom_id)
        matches = patterns_for(garment, patterns)
    return Making(
        alterations=alterations_of(garment),
        trials=garment.trials.all(),
        sentences=error_sentences(errors, writing),
        forecasts=forecasts(standing.newest, standing.choice, errors),
        pattern_matches=matches,
    )
