"""What a workroom holds of wearers, their measures and dress stands."""

from collections.abc import Iterator
from typing import Any

from catalogue.workroom.deletions import Deletion, Notice, register_deletions
from catalogue.workroom.kinds import Kind, excuse, register
from catalogue.workroom.models import User
from catalogue.workroom.persons import OfPerson
from fitting.wearers.loading import taken_of
from fitting.wearers.models import Maker, Measures, Skill, Stand, StandMeasure, Take, Wearer


def _come_to(measures: Measures) -> dict[str, Any]:
    taken = taken_of(measures).items()
    return {"come_to": {key: {"mm": one.measure.mm, "doubt_mm": one.measure.doubt_mm} for key, one in taken}}


register(
    Kind(model=Wearer, name="wearers"),
    Kind(model=Measures, part_of="wearer", of_person=OfPerson(by="wearer", more=_come_to)),
    Kind(model=Take, part_of="measures"),
    Kind(model=Stand, name="stands"),
    Kind(model=StandMeasure, part_of="stand", once="line"),
)
excuse("What a maker says of themselves is theirs in every workroom.", Maker, Skill)


def _compared_with_newest(measures: Measures, user: User) -> Iterator[Notice]:
    if garments := measures.garments.all():
        sentence = "These were to be compared with it, and will be with the newest set that suits:"
        yield Notice(sentence=sentence, rows=garments)


def _without_stand(stand: Stand, user: User) -> Iterator[Notice]:
    if garments := stand.garments.all():
        yield Notice(sentence="These garments stay, but no longer name it:", rows=garments)


register_deletions(
    Deletion(
        model=Measures,
        the="the measures",
        name="the measures of {row.taken_on:%-d %B %Y}",
        way=lambda measures: [("Wearers", "wearer-list"), measures.wearer],
        has_page=True,
        says="Comparisons made with it keep the figures they used.",
        tells=_compared_with_newest,
    ),
    Deletion(
        model=Stand,
        the="the stand",
        name="“{row}”",
        way=lambda stand: [("Stands", "stand-list")],
        tells=_without_stand,
    ),
)
