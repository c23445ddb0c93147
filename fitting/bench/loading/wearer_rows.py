"""Rows of fittings, toiles and the log that are about one person, whomever their outfit is for now.

Each names the person itself; a row made before its outfit named anybody is the present wearer's.
"""

from django.db.models import Q, QuerySet

from fitting.dossier.models import Dossier
from fitting.fittings.models.alteration import Alteration
from fitting.fittings.models.session import Fitting, ObservationPhoto
from fitting.fittings.models.trial import TrialMeasure
from fitting.outfits.models.log import LogPhoto
from fitting.outfits.models.share import Share
from fitting.wearers.models import Wearer


def fittings_of(wearer: Wearer) -> QuerySet[Fitting]:
    return Fitting.objects.filter(Q(wearer=wearer) | Q(wearer=None, outfit__wearer=wearer))


def alterations_for(wearer: Wearer) -> QuerySet[Alteration]:
    return Alteration.objects.filter(Q(wearer=wearer) | Q(wearer=None, garment__outfit__wearer=wearer))


def trial_measures_of(wearer: Wearer) -> QuerySet[TrialMeasure]:
    return TrialMeasure.objects.filter(
        Q(wearer=wearer) | Q(wearer=None, trial__garment__outfit__wearer=wearer)
    )


def log_photos_of(wearer: Wearer) -> QuerySet[LogPhoto]:
    unnamed = Q(wearer=None, shows_wearer=True, entry__outfit__wearer=wearer)
    return LogPhoto.objects.filter(Q(wearer=wearer) | unnamed)


def fitting_photos_of(wearer: Wearer) -> QuerySet[ObservationPhoto]:
    return ObservationPhoto.objects.filter(observation__fitting__in=fittings_of(wearer))


def shares_of(wearer: Wearer) -> QuerySet[Share]:
    return Share.objects.filter(outfit__wearer=wearer)


def rows_erased_with(wearer: Wearer) -> list[QuerySet]:
    """What goes with the person, besides what points to them: in the order in which it can be deleted.

    Which dossiers show them is asked of the other rows, so that it is found out first.
    """
    dossiers = list(Dossier.objects.showing(wearer).values_list("pk", flat=True))
    others = (shares_of, fittings_of, alterations_for, trial_measures_of, log_photos_of)
    return [Dossier.objects.filter(pk__in=dossiers), *(rows(wearer) for rows in others)]
