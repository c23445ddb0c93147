"""What a workroom holds of reference garments, their published measures, questions and relations."""

from collections.abc import Iterator, Mapping
from typing import Any

from django.db.models import Q

from catalogue.references.models.garment import PublishedMeasure, ReferenceGarment
from catalogue.references.models.question import Question
from catalogue.references.models.relation import Relation
from catalogue.references.models.tag import Tag
from catalogue.sources.calculation.dates import read_date
from catalogue.workroom.deletions import Deletion, Notice, register_deletions
from catalogue.workroom.kinds import Kind, excuse, register
from catalogue.workroom.models import User
from catalogue.workroom.uses import uses_of_reference


def _dates(said: dict[str, Any]) -> dict[str, Any]:
    """The first and the last day that a date may mean, by which garments are sorted and found."""
    span = read_date(said["date_edtf"]) if said["date_edtf"] else None
    return {"date_earliest": span.earliest if span else None, "date_latest": span.latest if span else None}


def _same_relation(held: Mapping[str, Any]) -> Q:
    ends = {"reference": held["reference_id"], "other": held["other_id"]}
    return Q(pk__in=Relation.objects.stating(held["kind"], **ends))


register(
    Kind(
        model=ReferenceGarment,
        name="references",
        left_out=("date_earliest", "date_latest"),
        derived=_dates,
    ),
    Kind(model=PublishedMeasure, part_of="reference"),
    Kind(model=Question, part_of="reference"),
    Kind(model=Relation, name="relations", alike=_same_relation),
)
excuse("A word goes with what bears it, by its name.", Tag)
REFERENCES = ("Reference garments", "reference-list")


def _used_by(reference: ReferenceGarment, user: User) -> Iterator[Notice]:
    if used := uses_of_reference(reference, user):
        sentence = "These stay, but no longer know what they draw on:"
        yield Notice(heading="It is used", sentence=sentence, rows=used, is_care=True)


register_deletions(
    Deletion(
        model=ReferenceGarment,
        the="the garment",
        name="“{row}”",
        way=lambda reference: [REFERENCES],
        has_page=True,
        tells=_used_by,
    ),
    Deletion(
        model=Question,
        name="the question “{row}”",
        way=lambda question: [REFERENCES, question.reference],
        tells=lambda question, user: [] if question.is_open else ["Its answer goes with it."],
    ),
    Deletion(
        model=Relation,
        name="“{row}”",
        way=lambda relation: [REFERENCES, relation.reference],
        says="Both garments stay; neither page shows it any more.",
    ),
)
