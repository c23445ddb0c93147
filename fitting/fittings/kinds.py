"""What a workroom holds of fittings, alterations, inlays and toiles; which hours there are appointments."""

from django.db.models import QuerySet

from catalogue.photographs.kinds import keep_own, kind_of_photographs
from catalogue.workroom.actions.custom import keep_by_the_clock
from catalogue.workroom.kinds import Kind, register
from catalogue.workroom.persons import OfPerson
from fitting.fittings.models.alteration import Alteration, AlterationPart, Inlay
from fitting.fittings.models.session import Fitting, Observation, ObservationPhoto
from fitting.fittings.models.trial import Trial, TrialMeasure


def _theirs(for_whom: str) -> OfPerson:
    """A row made before its outfit named anybody is the present wearer's."""
    return OfPerson(by="wearer", for_whom=for_whom)


def _alterations_that_stay(seen: Fitting | Observation) -> dict[str, QuerySet]:
    """Work was done on them, or they are good."""
    return {"observation": Alteration.objects.kept_without(seen)}


register(
    Kind(
        model=Fitting,
        part_of="outfit",
        of_person=_theirs("outfit__wearer"),
        lets_go=_alterations_that_stay,
    ),
    Kind(model=Observation, part_of="fitting", lets_go=_alterations_that_stay),
    kind_of_photographs(ObservationPhoto, part_of="observation", files="fittings/", keep=keep_own),
    Kind(model=Inlay, part_of="garment"),
    Kind(model=Trial, part_of="garment"),
    Kind(
        model=TrialMeasure,
        part_of="trial",
        once="line",
        of_person=_theirs("trial__garment__outfit__wearer"),
    ),
    # It points to fittings, which point to garments: it stands behind both.
    Kind(model=Alteration, name="alterations", of_person=_theirs("garment__outfit__wearer")),
    Kind(model=AlterationPart, part_of="alteration", once="part"),
)
keep_by_the_clock(Fitting, "planned_for")
