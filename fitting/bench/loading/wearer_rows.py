"""Rows of fittings, toiles and the log that are about one person, whomever their outfit is for now.

Each names the person itself; a row made before its outfit named anybody is the present wearer's.
"""

from collections.abc import Iterator

from django.db.models import Q, QuerySet

from fitting.comparing.models import RouteChoice
from fitting.fittings.models.alteration import Alteration
from fitting.fittings.models.session import Fitting, Observation, ObservationPhoto
from fitting.fittings.models.trial import Trial, TrialMeasure
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogEntry, LogPhoto
from fitting.outfits.models.material import Material
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.share import Share
from fitting.planning.models import Task
from fitting.wearers.models import Wearer

# Where the makers wrote words of their own, by the columns that hold them.
# fmt: off
WORDS = (
    (Outfit, ("name", "occasion", "notes")),
    (Garment, ("name", "notes")),
    (RouteChoice, ("why", "outcome")),
    (LogEntry, ("text",)),
    (LogPhoto, ("caption",)),
    (Task, ("name",)),
    (Material, ("name", "supplier", "notes")),
    (Fitting, ("place", "present", "wear", "checks", "wear_said", "checks_said", "notes")),
    (Observation, ("place", "note", "dropped_because")),
    (Alteration, ("edge", "note")),
    (Trial, ("made_of", "learnt")),
)
# fmt: on
# Where a row without a page of its own is put right.
PAGE_OF = {RouteChoice: "garment", LogPhoto: "entry", Task: "outfit", Material: "outfit"}


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


def where_named(
    wearer: Wearer,
) -> list[Outfit | Garment | LogEntry | Fitting | Observation | Alteration | Trial]:
    """Return what names the person in words of the makers' own and is not erased: to be rewritten.

    Each once, and has a page: that on which its words can be changed.
    """
    return list(dict.fromkeys(_where_named(wearer)))


def _where_named(wearer: Wearer) -> Iterator:
    goes = {
        Fitting: fittings_of(wearer),
        Observation: Observation.objects.filter(fitting__in=fittings_of(wearer)),
        Alteration: alterations_for(wearer),
        LogPhoto: log_photos_of(wearer),
    }
    for model, columns in WORDS:
        named = Q()
        for column in columns:
            named |= Q(**{f"{column}__icontains": wearer.name})
        rows = model.objects.of_workroom(wearer.workroom).filter(named)
        if model in goes:
            rows = rows.exclude(pk__in=goes[model].values("pk"))
        for row in rows:
            yield getattr(row, PAGE_OF[model]) if model in PAGE_OF else row
