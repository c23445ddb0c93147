"""What a workroom holds of fittings, alterations, inlays and toiles; which hours there are appointments."""

from collections.abc import Iterator

from django.db.models import QuerySet

from catalogue.photographs.kinds import keep_own, kind_of_photographs
from catalogue.workroom.actions.custom import keep_by_the_clock
from catalogue.workroom.deletions import Deletion, Notice, register_deletions
from catalogue.workroom.kinds import Kind, register
from catalogue.workroom.models import User
from catalogue.workroom.persons import OfPerson
from catalogue.workroom.uses import Use
from fitting.fittings.loading.alterations import what_becomes_of
from fitting.fittings.models.alteration import Alteration, AlterationPart, Inlay
from fitting.fittings.models.session import Fitting, Observation, ObservationPhoto
from fitting.fittings.models.trial import Trial, TrialMeasure
from fitting.outfits.showing import OUTFITS


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


def _without_fitting(fitting: Fitting, user: User) -> Iterator[Notice]:
    yield from _without_observations(fitting, user)
    if open_again := fitting.confirmed.select_related("garment", "piece"):
        yield Notice(
            heading="What is open again",
            sentence="This fitting confirmed them. Without it, they wait for another one.",
            rows=[_on_garment(one) for one in open_again],
        )


def _without_observations(row: Fitting | Observation, user: User) -> Iterator[Notice]:
    alterations = what_becomes_of(row)
    if alterations["stay"]:
        yield Notice(
            heading="What stays",
            sentence=(
                "These alterations were done or confirmed. They stay on their garments, with their ticks."
            ),
            rows=[_on_garment(one) for one in alterations["stay"]],
        )
    if alterations["go"]:
        yield Notice(
            heading="What goes too",
            sentence="These alterations were decided, but nothing of them is done.",
            rows=[_on_garment(one) for one in alterations["go"]],
        )


def _on_garment(alteration: Alteration) -> Use:
    return Use(label=f"{alteration.garment}, {alteration}", url=alteration.get_absolute_url())


register_deletions(
    Deletion(
        model=Fitting,
        name="the {row}",
        way=lambda fitting: [OUTFITS, fitting.outfit],
        has_page=True,
        tells=_without_fitting,
    ),
    Deletion(
        model=Observation,
        the="what was seen",
        name="what was seen: {row}",
        way=lambda observation: [OUTFITS, observation.fitting.outfit, observation.fitting],
        tells=_without_observations,
    ),
    Deletion(
        model=ObservationPhoto,
        way=lambda photo: [OUTFITS, photo.observation.fitting, photo.observation],
        picture="observation-photo-file",
    ),
    Deletion(
        model=Alteration,
        name="the alteration “{row}”",
        way=lambda alteration: [OUTFITS, alteration.garment.outfit, alteration.garment],
        says="What was seen stays at its fitting.",
    ),
    Deletion(
        model=Trial,
        name="the {row}",
        way=lambda trial: [OUTFITS, trial.garment.outfit, trial.garment],
        has_page=True,
        says="Seams that it settled still count as tried.",
    ),
)
