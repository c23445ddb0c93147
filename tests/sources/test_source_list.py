import pytest

from catalogue.sources.models import Citation, Source
from catalogue.workroom.index.filing import file_all
from tests.makers.rows import make_reference, make_source


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def test_an_empty_list_says_what_to_do_next(maker):
    page = maker.get("/sources/").content.decode()
    assert "No sources yet" in page
    assert "/sources/add/" in page


@pytest.mark.parametrize("count", [1, 50])
def test_the_list_asks_as_often_for_fifty_as_for_one(maker, people, django_assert_num_queries, count):
    reference = make_reference(people.workroom)
    for number in range(count):
        source = make_source(people.workroom, title=f"Notebook {number:02}")
        Citation.objects.create(reference=reference, source=source)
    # Session, person, membership; then how many, and the rows.
    with django_assert_num_queries(5):
        page = maker.get("/sources/").content.decode()
    assert page.count("Notebook") == count


def test_only_the_workrooms_own_sources_are_listed(maker, people):
    make_source(people.stranger.memberships.get().workroom, title="Not yours")
    assert "Not yours" not in maker.get("/sources/").content.decode()


def test_the_list_is_narrowed_by_words_and_kind(maker, people):
    make_source(people.workroom, title="Cuts of coats", authors="Vane, Ada", kind=Source.Kind.BOOK)
    make_source(people.workroom, title="Girl in a hat", kind=Source.Kind.PAINTING)
    file_all()
    assert "Cuts of coats" in maker.get("/sources/?text=vane").content.decode()
    assert "Girl in a hat" not in maker.get("/sources/?text=vane").content.decode()
    assert "Cuts of coats" not in maker.get("/sources/?kind=painting").content.decode()
    assert "No source answers" in maker.get("/sources/?text=zzz").content.decode()


def test_a_source_without_a_title_is_asked_for_one_and_keeps_what_was_typed(maker):
    answer = maker.post("/sources/add/", {"kind": "book", "title": "", "notes": "kept while asked"})
    assert "title" in answer.context["form"].errors
    assert "kept while asked" in answer.content.decode()


def test_a_source_is_added_and_shown(maker, people):
    answer = maker.post("/sources/add/", {"kind": "article", "title": "On a jacket"}, follow=True)
    assert "On a jacket" in answer.content.decode()
    assert people.workroom.sources.get().kind == "article"
