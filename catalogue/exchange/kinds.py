"""What an archive says of each kind of row. Lengths stand without their `_um`: `"reading": "3/4 in"`."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from django.db.models import Field, Model

from catalogue.models import (
    Calibration,
    Citation,
    Fastening,
    LengthField,
    Photo,
    Piece,
    Plate,
    PlateScan,
    PublishedMeasure,
    Question,
    Reading,
    ReferenceGarment,
    Relation,
    SavedFilter,
    Seam,
    Source,
    TracedLevel,
    TracedPiece,
    TracedReading,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """`points_to`: fields that hold another row, and the list of the archive that it stands in.

    `parts`: lists of rows that stand inside this one, by the name the row has for them; `only`: at most one.
    `files`: the folder in the archive with the file that each row has.
    """

    model: type[Model]
    columns: tuple[str, ...]
    points_to: Mapping[str, str] = field(default_factory=dict)
    parts: Mapping[str, "Kind"] = field(default_factory=dict)
    only: Mapping[str, "Kind"] = field(default_factory=dict)
    files: str = ""

    @property
    def has_key(self) -> bool:
        return any(one.name == "key" for one in self.model._meta.fields)

    def fields(self) -> dict[str, Field]:
        """Each column by the name it has in an archive."""
        columns = [self.model._meta.get_field(name) for name in self.columns]
        return {archive_name(column): column for column in columns}


def archive_name(column: Field) -> str:
    if not isinstance(column, LengthField):
        return column.name
    name = column.name.removesuffix("_um")
    # A plate's `page` is a number in a book, and its `page_length` what is measured on it.
    return f"{name}_length" if any(one.name == name for one in column.model._meta.fields) else name


SOURCE = Kind(
    model=Source,
    columns=("kind", "title", "authors", "date", "container", "editors", "volume", "issue", "pages",
             "edition", "publisher", "place", "identifier", "url", "accessed_on", "rights", "notes"),
)  # fmt: skip
CITATION = Kind(model=Citation, columns=("pages", "fact"), points_to={"source": "sources"})
PUBLISHED_MEASURE = Kind(
    model=PublishedMeasure,
    columns=("line", "value_um", "doubt_um", "pages"),
    points_to={"source": "sources"},
)
FASTENING = Kind(model=Fastening, columns=("line", "overlap_um", "gap_um"))
READING = Kind(
    model=Reading,
    columns=("line", "reading_um", "take_up_um", "crossed_ends", "is_plain", "doubt_um"),
)
TRACED_READING = Kind(
    model=TracedReading,
    columns=("line", "reading_um", "take_up_um", "doubt_um", "is_used", "hand_um", "hand_take_up_um"),
)
TRACED_PIECE = Kind(model=TracedPiece, columns=("nodes", "marks"))
PIECE = Kind(
    model=Piece,
    columns=("order", "name", "cut", "on_fold", "edges", "cloth", "grain", "notes"),
    parts={"readings": READING, "traced_readings": TRACED_READING},
    only={"traced": TRACED_PIECE},
)
SEAM = Kind(
    model=Seam,
    columns=("edge_a", "edge_b", "length_a_um", "length_b_um", "how", "evidence", "is_eased"),
    points_to={"piece_a": "pieces", "piece_b": "pieces"},
)
TRACED_LEVEL = Kind(model=TracedLevel, columns=("line", "points"))
CALIBRATION = Kind(
    model=Calibration,
    columns=("number", "way", "given", "matrix", "relative_doubt", "worst_doubt", "residual_px", "left_mm",
             "top_mm", "mm_per_px", "width", "height", "made_at"),
)  # fmt: skip
SCAN = Kind(
    model=PlateScan,
    columns=("is_photograph", "grid"),
    parts={"calibrations": CALIBRATION},
    files="scans/",
)
PLATE = Kind(
    model=Plate,
    columns=("title", "page", "kind", "drawn_for_line", "drawn_for_half", "drawn_for_um",
             "scale_kind", "ratio", "page_um", "real_um", "across_page_um", "read_from",
             "allowance", "allowance_um", "rule_um", "drawing_um", "is_half", "notes"),
    points_to={"source": "sources", "picture": "photos"},
    parts={"fastenings": FASTENING, "pieces": PIECE, "seams": SEAM, "traced_levels": TRACED_LEVEL},
    only={"scan": SCAN},
)  # fmt: skip
PHOTO = Kind(
    model=Photo,
    columns=("view", "caption", "credit", "rights", "order"),
    points_to={"source": "sources"},
    files="photographs/",
)
QUESTION = Kind(
    model=Question,
    columns=("text", "asked_by", "asked_on", "answer", "answered_by", "answered_on", "pages"),
    points_to={"source": "sources"},
)
REFERENCE = Kind(
    model=ReferenceGarment,
    columns=("name", "dress", "kind", "date_edtf", "place", "holder", "accession", "materials", "technique",
             "fastening", "construction_notes", "seam_evidence_note"),
    parts={
        "citations": CITATION,
        "published_measures": PUBLISHED_MEASURE,
        # Before the plates: a plate may show one of them.
        "photos": PHOTO,
        "plates": PLATE,
        "questions": QUESTION,
    },
)  # fmt: skip
RELATION = Kind(
    model=Relation,
    columns=("kind", "note"),
    points_to={"reference": "references", "other": "references"},
)
SAVED_FILTER = Kind(model=SavedFilter, columns=("name", "query"))

# The lists of an archive in the order they are written and taken.
LISTS = {
    "sources": SOURCE,
    "references": REFERENCE,
    "relations": RELATION,
    "saved_filters": SAVED_FILTER,
}
