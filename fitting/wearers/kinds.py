"""What a workroom holds of wearers, their measures and dress stands."""

from catalogue.workroom.kinds import Kind, excuse, register
from fitting.wearers.models import Maker, Measures, Skill, Stand, StandMeasure, Take, Wearer

register(
    Kind(model=Wearer, name="wearers"),
    Kind(model=Measures, part_of="wearer"),
    Kind(model=Take, part_of="measures"),
    Kind(model=Stand, name="stands"),
    Kind(model=StandMeasure, part_of="stand", once="line"),
)
excuse("What a maker says of themselves is theirs in every workroom.", Maker, Skill)
