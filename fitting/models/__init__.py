"""What the fitting side keeps: one subject a file."""

from fitting.models.calendar import CalendarAddress
from fitting.models.cloth import Material
from fitting.models.comparison import Comparison
from fitting.models.dossier import Dossier
from fitting.models.garment import Ease, Garment, GarmentReference
from fitting.models.log import LogEntry, LogPhoto
from fitting.models.maker import Maker, Skill
from fitting.models.outfit import Outfit
from fitting.models.pattern import PatternInHand
from fitting.models.route import RouteChoice
from fitting.models.stand import Stand, StandMeasure
from fitting.models.task import Task
from fitting.models.wearer import Measures, Take, Wearer

__all__ = [
    "CalendarAddress",
    "Comparison",
    "Dossier",
    "Ease",
    "Garment",
    "GarmentReference",
    "LogEntry",
    "LogPhoto",
    "Maker",
    "Material",
    "Measures",
    "Outfit",
    "PatternInHand",
    "RouteChoice",
    "Skill",
    "Stand",
    "StandMeasure",
    "Take",
    "Task",
    "Wearer",
]
