from collections.abc import Iterable, Mapping
from typing import Any

from django.db import transaction

from catalogue.plates.models.piece import Seam
from fitting.models.trial import Trial, TrialMeasure

# A source's word on how a seam is sewn stays above what a trial found possible.
SETTLED_BY_TRIAL = (Seam.Evidence.INFERRED, Seam.Evidence.UNKNOWN)


@transaction.atomic
def save_trial(trial: Trial, *, seams: Iterable[Seam], measures: Iterable[Mapping[str, Any]]) -> Trial:
    """Save it with exactly these measures; the seams it settled count as tried on their plate."""
    settled = list(seams)
    trial.save()
    trial.seams.set(settled)
    keys = [seam.pk for seam in settled]
    Seam.objects.filter(pk__in=keys, evidence__in=SETTLED_BY_TRIAL).update(evidence=Seam.Evidence.TRIED)
    trial.measures.all().delete()
    wearer = trial.garment.outfit.wearer
    TrialMeasure.objects.bulk_create(TrialMeasure(trial=trial, wearer=wearer, **row) for row in measures)
    return trial
