"""The index that Django loads: every model of the catalogue, from the subject that it lives in."""

from catalogue.finding.models import FullSizeMeasure, IndexCard, SavedFilter
from catalogue.lengths.models import LengthField, TypedText
from catalogue.photographs.models import Photo
from catalogue.plates.models.piece import Piece, Reading, Seam
from catalogue.plates.models.plate import Fastening, Plate
from catalogue.references.models.garment import PublishedMeasure, ReferenceGarment
from catalogue.references.models.question import Question
from catalogue.references.models.relation import Relation
from catalogue.references.models.tag import Tag
from catalogue.sources.models import Citation, Source
from catalogue.tracing.models import Calibration, PlateScan, TracedLevel, TracedPiece, TracedReading
from catalogue.workroom.archive.models import ArchiveExport, ArchiveImport
from catalogue.workroom.models import (
    DeletedRow,
    KeyedModel,
    Member,
    UnwantedFile,
    User,
    Workroom,
    WorkroomModel,
    WorkroomQuerySet,
)
from catalogue.workroom.models.one_time import Invitation, SignInAddress
from catalogue.workroom.work.models import Work

__all__ = [
    "ArchiveExport",
    "ArchiveImport",
    "Calibration",
    "Citation",
    "DeletedRow",
    "Fastening",
    "FullSizeMeasure",
    "IndexCard",
    "Invitation",
    "KeyedModel",
    "LengthField",
    "Member",
    "Photo",
    "Piece",
    "Plate",
    "PlateScan",
    "PublishedMeasure",
    "Question",
    "Reading",
    "ReferenceGarment",
    "Relation",
    "SavedFilter",
    "Seam",
    "SignInAddress",
    "Source",
    "Tag",
    "TracedLevel",
    "TracedPiece",
    "TracedReading",
    "TypedText",
    "UnwantedFile",
    "User",
    "Work",
    "Workroom",
    "WorkroomModel",
    "WorkroomQuerySet",
]
