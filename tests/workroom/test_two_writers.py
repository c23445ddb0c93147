"""Two people change one record: the second sees both versions, and nothing that was typed is lost."""

import re

import pytest
from django import forms
from django.test import Client
from django.urls import reverse

from catalogue.photographs.forms import PhotoForm
from catalogue.photographs.models import Photo
from catalogue.plates.forms.plate import PieceForm, PlateForm
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.references.forms.reference import AnswerForm, QuestionForm, ReferenceForm
from catalogue.references.models.garment import ReferenceGarment
from catalogue.references.models.question import Question
from catalogue.sources.forms import SourceForm
from catalogue.sources.models import Citation, Source
from catalogue.workroom.forms.as_of import AsOf
from tests.makers.full_workroom import fill_workroom


@pytest.fixture
def two(people) -> tuple[Client, Client]:
    fill_workroom(people.workroom)
    clients = Client(), Client()
    for client, user in zip(clients, (people.keeper, people.maker), strict=True):
        client.force_login(user)
    return clients


def boxes(form) -> dict[str, object]:
    """What a browser would send of a form as it stands."""
    sent = {}
    for box in form:
        value = box.value()
        if value not in (None, False, ""):
            sent[box.html_name] = value
    return sent


RECORDS = [
    ("source-change", SourceForm, Source, "title"),
    ("reference-change", ReferenceForm, ReferenceGarment, "place"),
    ("plate-change", PlateForm, Plate, "title"),
    ("piece-change", PieceForm, Piece, "name"),
    ("photo-change", PhotoForm, Photo, "caption"),
    ("question-change", QuestionForm, Question, "text"),
    ("question-answer", AnswerForm, Question, "answer"),
]


def test_every_form_that_shows_both_is_tried_here():
    assert {form for _, form, *_ in RECORDS} == set(AsOf.__subclasses__())


@pytest.mark.parametrize(("name", "form", "model", "field"), RECORDS)
def test_the_second_sees_both_and_saves_knowingly(two, name, form, model, field):
    first, second = two
    row = model.objects.order_by("pk").first()
    address = reverse(name, args=[row.pk])
    sent = {client: boxes(client.get(address).context["form"]) for client in two}
    assert first.post(address, {**sent[first], field: "as the first has it"}).status_code == 302
    told = second.post(address, {**sent[second], field: "as the second has it"})
    page = told.content.decode()
    assert told.status_code == 200
    assert type(told.context["form"]) is form
    assert "changed on another screen" in page
    assert "as the first has it" in page
    assert 'value="as the first has it"' not in page
    assert "as the second has it" in page
    row.refresh_from_db()
    assert getattr(row, field) == "as the first has it"
    assert second.post(address, boxes(told.context["form"])).status_code == 302
    row.refresh_from_db()
    assert getattr(row, field) == "as the second has it"


def test_who_answers_a_question_second_sees_the_answer_of_the_first(two):
    """And its name: one's own, which the page suggests for the empty box, does not stand in the row."""
    first, second = two
    question = Question.objects.unanswered().get()
    address = reverse("question-answer", args=[question.pk])
    sent = {client: boxes(client.get(address).context["form"]) for client in two}
    assert first.post(address, {**sent[first], "answer": "No.", "pages": "8"}).status_code == 302
    told = second.post(address, {**sent[second], "answer": "With whalebone."})
    assert [(one.label, one.now, one.typed) for one in told.context["form"].meanwhile.yours] == [
        ("Answer", "No.", "With whalebone."),
        ("Answered by", "keeper", "maker"),
    ]
    assert told.context["form"]["pages"].value() == "8"
    assert told.context["form"]["answer"].value() == "With whalebone."


@pytest.mark.parametrize(("name", "form", "model", "field"), RECORDS)
def test_a_box_that_nobody_touched_keeps_the_new_value_of_the_other(two, name, form, model, field):
    first, second = two
    row = model.objects.order_by("pk").first()
    address = reverse(name, args=[row.pk])
    shown = {client: client.get(address).context["form"] for client in two}
    sent = {client: boxes(shown[client]) for client in two}
    assert first.post(address, {**sent[first], field: "as the first has it"}).status_code == 302
    # The second touches another box, or none.
    others = [one for one, box in form.base_fields.items() if one != field and type(box) is forms.CharField]
    typed = dict.fromkeys(others[:1], "as the second has it")
    told = second.post(address, {**sent[second], **typed})
    page, meanwhile = told.content.decode(), told.context["form"].meanwhile
    assert "by keeper." in page
    assert "You did not touch these boxes, so they show the new value:" in page
    assert "as the first has it" in [box.now for box in meanwhile.theirs]
    assert told.context["form"][field].value() == "as the first has it"
    assert second.post(address, boxes(told.context["form"])).status_code == 302
    row.refresh_from_db()
    assert getattr(row, field) == "as the first has it"
    for one in typed:
        assert getattr(row, one) == "as the second has it"


def test_ticks_and_choices_that_nobody_touched_follow_too(two):
    first, second = two
    piece = Piece.objects.get(name="front")
    Piece.objects.filter(pk=piece.pk).update(on_fold=True, changed_at=piece.changed_at)
    address = reverse("piece-change", args=[piece.pk])
    sent = {client: boxes(client.get(address).context["form"]) for client in two}
    theirs = {name: value for name, value in sent[first].items() if name != "on_fold"} | {"cloth": "lining"}
    assert first.post(address, theirs).status_code == 302
    told = second.post(address, {**sent[second], "name": "fore-part"})
    assert second.post(address, boxes(told.context["form"])).status_code == 302
    piece.refresh_from_db()
    assert (piece.name, piece.on_fold, piece.cloth) == ("fore-part", False, "lining")


def test_who_changed_a_row_last_is_known_by_what_they_did_and_nobody_by_a_command(two, people):
    source = Source.objects.get()
    address = reverse("source-change", args=[source.pk])
    assert two[1].post(address, boxes(two[1].get(address).context["form"])).status_code == 302
    source.refresh_from_db()
    assert source.changed_by == people.maker
    source.save()
    assert source.changed_by is None


def test_one_person_alone_is_never_asked(two):
    source = Source.objects.get()
    address = reverse("source-change", args=[source.pk])
    for title in ("one", "two"):
        sent = boxes(two[0].get(address).context["form"])
        assert two[0].post(address, {**sent, "title": title}).status_code == 302


def test_a_fault_in_the_form_does_not_claim_the_record(two):
    source = Source.objects.get()
    address = reverse("source-change", args=[source.pk])
    sent = boxes(two[0].get(address).context["form"])
    assert two[0].post(address, {**sent, "title": ""}).status_code == 200
    assert two[0].post(address, sent).status_code == 302


def rows(answer) -> dict[str, object]:
    formset = answer.context["formset"]
    sent = boxes(formset.management_form)
    for form in formset:
        sent |= boxes(form)
    sent[formset.as_of_name] = re.search(
        rf'name="{formset.as_of_name}" value="(\w+)"', answer.content.decode()
    )[1]
    return sent


def test_a_table_of_rows_shows_what_stands_there_now(two):
    first, second = two
    address = reverse("reference-citations", args=[Citation.objects.get().reference_id])
    sent = {client: rows(client.get(address)) for client in two}
    assert first.post(address, {**sent[first], "citations-0-pages": "99"}).status_code == 302
    told = second.post(address, {**sent[second], "citations-0-fact": "It is boned."})
    assert "Cut and Cloth, 99" in told.content.decode()
    assert "It is boned." in told.content.decode()
    assert second.post(address, rows(told)).status_code == 302
    assert Citation.objects.get().fact == "It is boned."


def test_what_was_typed_into_a_row_that_is_gone_becomes_a_new_row(two):
    second = two[1]
    address = reverse("reference-citations", args=[Citation.objects.get().reference_id])
    sent = rows(second.get(address))
    Citation.objects.all().delete()
    told = second.post(address, {**sent, "citations-0-fact": "It is boned."})
    assert told.status_code == 200
    assert second.post(address, rows(told)).status_code == 302
    assert Citation.objects.get().fact == "It is boned."


def test_readings_typed_at_two_tables_are_shown_side_by_side(two):
    first, second = two
    piece = Piece.objects.get(name="front")
    address = reverse("plate-detail", args=[piece.plate_id])
    sent = {}
    for client in two:
        form = client.get(address).context["form"]
        sent[client] = boxes(form) | {"line": [line.key for line in form.lines]}
    keep, box = reverse("plate-readings", args=[piece.plate_id]), f"reading-{piece.pk}-waist"
    assert box in sent[first]
    assert first.post(keep, {**sent[first], box: "13/16 in"}).status_code == 302
    told = second.post(keep, {**sent[second], box: "7/8 in"})
    assert [(one.now, one.typed) for one in told.context["form"].meanwhile.boxes] == [("13/16 in", "7/8 in")]
