"""What an archive says of reference garments, their published measures, questions and relations."""

from typing import Any

from catalogue.references.models.garment import PublishedMeasure, ReferenceGarment
from catalogue.references.models.question import Question
from catalogue.references.models.relation import Relation
from catalogue.sources.calculation.dates import read_date
from catalogue.sources.kinds import CITATION
from catalogue.workroom.kinds import LISTS, Kind


def _dates(said: dict[str, Any]) -> dict[str, Any]:
    """The first and the last day that a date may mean, by which garments are sorted and found."""
    span = read_date(said["date_edtf"]) if said["date_edtf"] else None
    return {"date_earliest": span.earliest if span else None, "date_latest": span.latest if span else None}


PUBLISHED_MEASURE = Kind(
    model=PublishedMeasure,
    columns=("line", "value_um", "doubt_um", "pages"),
    points_to={"source": "sources"},
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
        "questions": QUESTION,
    },
    # A plate may show one of the photographs, which are read before it.
    order=("citations", "published_measures", "photos", "plates", "questions"),
    derived=_dates,
)  # fmt: skip
RELATION = Kind(
    model=Relation,
    columns=("kind", "note"),
    points_to={"reference": "references", "other": "references"},
)

LISTS["references"] = REFERENCE
LISTS["relations"] = RELATION
