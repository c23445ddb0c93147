"""What a workroom holds of wearers, their measures and dress stands."""

from typing import Any

from catalogue.workroom.kinds import Kind, excuse, register
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
