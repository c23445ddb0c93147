"""The index that Django loads: every model of the fitting side, from the subject that it lives in."""

from fitting.comparing.models import Comparison, RouteChoice
from fitting.dossier.models import Dossier
from fitting.fittings.models.alteration import Alteration, AlterationPart, Inlay
from fitting.fittings.models.session import Fitting, Observation, ObservationPhoto
from fitting.fittings.models.trial import Trial, TrialMeasure
from fitting.laying.models import Lay
from fitting.outfits.models.garment import Ease, Garment, GarmentReference
from fitting.outfits.models.log import LogEntry, LogPhoto
from fitting.outfits.models.material import Material
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.pattern import PatternChange, PatternInHand
from fitting.outfits.models.share import Share
from fitting.pattern.models import CuttingTick, WorkingVersion, WorkNote
from fitting.planning.models import CalendarAddress, Task
from fitting.wearers.models import Maker, Measures, Skill, Stand, StandMeasure, Take, Wearer

__all__ = [
    "Alteration",
    "AlterationPart",
    "CalendarAddress",
    "Comparison",
    "CuttingTick",
    "Dossier",
    "Ease",
    "Fitting",
    "Garment",
    "GarmentReference",
    "Inlay",
    "Lay",
    "LogEntry",
    "LogPhoto",
    "Maker",
    "Material",
    "Measures",
    "Observation",
    "ObservationPhoto",
    "Outfit",
    "PatternChange",
    "PatternInHand",
    "RouteChoice",
    "Share",
    "Skill",
    "Stand",
    "StandMeasure",
    "Take",
    "Task",
    "Trial",
    "TrialMeasure",
    "Wearer",
    "WorkNote",
    "WorkingVersion",
]
