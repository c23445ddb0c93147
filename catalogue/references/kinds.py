"""What a workroom holds of reference garments, their published measures, questions and relations."""

from collections.abc import Iterator, Mapping
from operator import attrgetter
from typing import Any

from django.db.models import Q, QuerySet

from catalogue.lengths.calculation.errors import NotUnderstood
from catalogue.references.models.garment import PublishedMeasure, ReferenceGarment
from catalogue.references.models.question import Question
from catalogue.references.models.relation import Relation
from catalogue.references.models.tag import Tag
from catalogue.sources.calculation.dates import read_date
from catalogue.workroom.deletions import Deletion, Notice, register_deletions
from catalogue.workroom.kinds import Kind, excuse, register
from catalogue.workroom.models import User, Workroom
from catalogue.workroom.reader.row_values import Broken, RowValues
from catalogue.workroom.spreadsheet import Spreadsheet
from catalogue.workroom.uses import uses_of_reference


def _dates(said: dict[str, Any]) -> dict[str, Any]:
    """The first and the last day that a date may mean, by which garments are sorted and found."""
    span = read_date(said["date_edtf"]) if said["date_edtf"] else None
    return {"date_earliest": span.earliest if span else None, "date_latest": span.latest if span else None}


def _same_relation(held: Mapping[str, Any]) -> Q:
    ends = {"reference": held["reference_id"], "other": held["other_id"]}
    return Q(pk__in=Relation.objects.stating(held["kind"], **ends))


def _ends(said: dict[str, Any]) -> str:
    """A relation is known by what it says."""
    ends = [said["reference"], said["other"]]
    is_one_way = said["kind"] in Relation.FROM_OTHER
    return " ".join([said["kind"], *(ends if is_one_way else sorted(ends))])


def _garment(told: RowValues) -> Iterator[Broken]:
    if told["date_edtf"]:
        try:
            read_date(told["date_edtf"])
        except NotUnderstood as fault:
            yield "date_edtf", fault.sentence


def _published(told: RowValues) -> Iterator[Broken]:
    yield from told.more_than_nothing("value", because="it was measured")


def _question(told: RowValues) -> Iterator[Broken]:
    if told["answer"] and told["answered_on"] is None:
        yield "answered_on", "It is answered: say on which day."


def _relation(told: RowValues) -> Iterator[Broken]:
    if told["reference"] is not None and told["reference"] == told["other"]:
        yield "other", "A garment is not related to itself."


def _oldest_first(workroom: Workroom) -> QuerySet:
    rows = ReferenceGarment.objects.of_workroom(workroom).oldest_first()
    return rows.prefetch_related("tags", "citations__source", "plates", "photos")


GARMENT_COLUMNS = {
    "key": lambda row: str(row.key),
    "name": attrgetter("name"),
    "kind": attrgetter("dress"),
    "garment": attrgetter("kind"),
    "date": attrgetter("date_edtf"),
    "earliest": attrgetter("date_earliest"),
    "latest": attrgetter("date_latest"),
    "place": attrgetter("place"),
    "held by": attrgetter("holder"),
    "accession number": attrgetter("accession"),
    "materials": attrgetter("materials"),
    "technique": attrgetter("technique"),
    "fastened by": attrgetter("fastening"),
    "tags": lambda row: "; ".join(tag.name for tag in row.tags.all()),
    "sources": lambda row: "; ".join(str(citation) for citation in row.citations.all()),
    "plates": lambda row: len(row.plates.all()),
    "photographs": lambda row: len(row.photos.all()),
}


register(
    Kind(
        model=ReferenceGarment,
        name="references",
        left_out=("date_earliest", "date_latest"),
        derived=_dates,
        rule=_garment,
        spreadsheet=Spreadsheet(name="garments", rows=_oldest_first, columns=GARMENT_COLUMNS),
    ),
    Kind(model=PublishedMeasure, part_of="reference", rule=_published),
    Kind(model=Question, part_of="reference", rule=_question),
    Kind(model=Relation, name="relations", alike=_same_relation, twin=_ends, rule=_relation),
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
