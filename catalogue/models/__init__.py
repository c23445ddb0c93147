"""What the catalogue keeps: one subject a file."""

from catalogue.models.garment import PublishedMeasure, ReferenceGarment
from catalogue.models.index_card import FullSizeMeasure, IndexCard
from catalogue.models.length import LengthField, TypedText
from catalogue.models.photo import Photo
from catalogue.models.piece import Piece, Reading
from catalogue.models.plate import Fastening, Plate
from catalogue.models.saved_filter import SavedFilter
from catalogue.models.seam import Seam
from catalogue.models.source import Citation, Source
from catalogue.models.tag import Tag
from catalogue.models.workroom import Member, User, Workroom, WorkroomModel, WorkroomQuerySet

__all__ = [
    "Citation",
    "Fastening",
    "FullSizeMeasure",
    "IndexCard",
    "LengthField",
    "Member",
    "Photo",
    "Piece",
    "Plate",
    "PublishedMeasure",
    "Reading",
    "ReferenceGarment",
    "SavedFilter",
    "Seam",
    "Source",
    "Tag",
    "TypedText",
    "User",
    "Workroom",
    "WorkroomModel",
    "WorkroomQuerySet",
]
