"""Questions about garments: who asked, when, and the answer with its source."""

import datetime

import pytest
from django.urls import reverse

from catalogue.references.models.question import Question
from tests.makers.rows import make_reference, make_source

DAY = datetime.date(2026, 11, 20)


@pytest.fixture
def bodice(people):
    return make_reference(people.workroom)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def ask(bodice, text="Are the hems later?", **given) -> Question:
    return Question.objects.create(reference=bodice, text=text, asked_on=DAY, **given)


def test_a_question_is_asked_on_the_garments_page_and_stands_in_the_list(maker, bodice):
    form = maker.get(reverse("question-add", args=[bodice.pk])).context["form"]
    assert form["asked_by"].value() == "maker"
    sent = {"text": "Is the lining piped?", "asked_by": "A curator", "asked_on": "2026-11-20"}
    answer = maker.post(reverse("question-add", args=[bodice.pk]), sent, follow=True)
    assert "asked by A curator, 20 November 2026" in answer.content.decode()
    assert "Is the lining piped?" in maker.get(reverse("question-list")).content.decode()


def test_an_answer_with_its_source_closes_it(maker, people, bodice):
    question, source = ask(bodice), make_source(people.workroom)
    sent = {"answer": "They are.", "source": source.pk, "pages": "12", "answered_on": "2026-11-21"}
    page = maker.post(reverse("question-answer", args=[question.pk]), sent, follow=True).content.decode()
    assert "They are." in page
    assert source.get_absolute_url() in page
    assert "Are the hems later?" not in maker.get(reverse("question-list")).content.decode()
    assert "Are the hems later?" in maker.get(reverse("question-list"), {"answered": ""}).content.decode()


def test_an_answer_needs_its_day(maker, bodice):
    question = ask(bodice)
    answer = maker.post(reverse("question-answer", args=[question.pk]), {"answer": "They are."})
    assert "on which day" in answer.content.decode()


def test_an_answer_taken_out_opens_it_again(maker, people, bodice):
    source = make_source(people.workroom)
    question = ask(bodice, answer="They are.", answered_on=DAY, answered_by="x", source=source, pages="1")
    maker.post(reverse("question-answer", args=[question.pk]), {"answer": "", "answered_on": "2026-11-21"})
    question.refresh_from_db()
    assert question.is_open
    assert (question.source, question.answered_by) == (None, "")


def test_a_source_of_another_workroom_answers_nothing(maker, people, bodice):
    theirs = make_source(people.stranger.memberships.get().workroom)
    sent = {"answer": "They are.", "source": theirs.pk, "answered_on": "2026-11-21"}
    assert maker.post(reverse("question-answer", args=[ask(bodice).pk]), sent).status_code == 200


@pytest.mark.parametrize("count", [1, 50])
def test_the_list_asks_as_often_for_fifty_as_for_one(maker, bodice, count, django_assert_num_queries):
    for number in range(count):
        ask(bodice, text=f"question {number}?")
    with django_assert_num_queries(6):
        assert f"question {count - 1}?" in maker.get(reverse("question-list")).content.decode()
