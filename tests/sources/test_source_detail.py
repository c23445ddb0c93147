"""The page of a source: how it is cited, and all that rests on it."""

import datetime

import pytest
from django.urls import reverse

from catalogue.references.models.garment import PublishedMeasure
from catalogue.references.models.question import Question
from catalogue.sources.models import Citation
from fitting.outfits.models.garment import GarmentReference
from tests.makers.rows import make_garment, make_outfit, make_plate, make_reference, make_source, um


@pytest.fixture
def page_of(client, people):
    client.force_login(people.maker)
    return lambda source: client.get(f"/sources/{source.pk}/").content.decode()


def test_it_tells_facts_measures_plates_and_answers_with_their_pages(page_of, people):
    source, jacket = make_source(people.workroom), make_reference(people.workroom, name="Jacket")
    Citation.objects.create(reference=jacket, source=source, pages="44", fact="Cut without waste.")
    PublishedMeasure.objects.create(
        reference=jacket, source=source, line="waist", value_um=um("26 in"), value_text="26 in"
    )
    make_plate(jacket, source=source, page="fig. 9")
    day = datetime.date(2026, 11, 1)
    Question.objects.create(
        reference=jacket, text="Lined?", asked_on=day, answered_on=day, source=source, pages="46"
    )
    page = page_of(source)
    for said in ("44: Cut without waste.", "Published measure", "fig. 9", "Lined?</a>, 46"):
        assert said in page


@pytest.mark.parametrize("by", ["citation", "measure", "plate", "answer"])
def test_it_names_each_garment_of_an_outfit_that_draws_on_what_it_says(page_of, people, by):
    source, jacket = make_source(people.workroom), make_reference(people.workroom)
    {
        "citation": lambda: Citation.objects.create(reference=jacket, source=source),
        "measure": lambda: PublishedMeasure.objects.create(
            reference=jacket, source=source, line="waist", value_um=um("26 in"), value_text="26 in"
        ),
        "plate": lambda: make_plate(jacket, source=source),
        "answer": lambda: Question.objects.create(
            reference=jacket, text="Lined?", asked_on=datetime.date(2026, 11, 1), source=source
        ),
    }[by]()
    garment = make_garment(make_outfit(people.workroom, name="Fair day"), name="Red jacket")
    assert "Red jacket, Fair day" not in page_of(source)
    GarmentReference.objects.create(garment=garment, reference=jacket)
    assert "Red jacket, Fair day" in page_of(source)


def test_the_same_source_typed_twice_is_pointed_out(page_of, people):
    first, second = (make_source(people.workroom, title=title, date="1886") for title in ("The Hem", "Hem"))
    make_source(people.workroom, title="Hem", date="1901")
    page = page_of(first)
    assert page.count("Is this the same as") == 1
    assert f'href="{second.get_absolute_url()}">Hem</a>? Both have the same title and year.' in page


def test_a_key_for_citing_is_made_shown_and_changed_but_never_given_twice(client, people):
    client.force_login(people.maker)
    first = make_source(people.workroom, title="Hems", date="1886")
    second = make_source(people.workroom, title="Hems again", date="1886")
    assert (first.cite_key, second.cite_key) == ("hems1886", "hems1886b")
    change = reverse("source-change", args=[second.pk])
    said = {"kind": "book", "title": "Hems again", "date": "1886"}
    taken = client.post(change, said | {"cite_key": "hems1886"}).content.decode()
    assert "“Hems” has this key already: choose another, or leave it empty." in taken
    assert "No spaces, commas" in client.post(change, said | {"cite_key": "a b"}).content.decode()
    client.post(change, said | {"cite_key": "again"})
    assert "<dd>again</dd>" in client.get(second.get_absolute_url()).content.decode()


@pytest.mark.parametrize("count", [1, 20])
def test_the_page_asks_as_often_for_twenty_as_for_one(page_of, people, django_assert_max_num_queries, count):
    source = make_source(people.workroom)
    for _ in range(count):
        jacket = make_reference(people.workroom)
        Citation.objects.create(reference=jacket, source=source)
        make_plate(jacket, source=source)
        make_garment(make_outfit(people.workroom)).references.create(reference=jacket)
    # Session, person, membership; the source; citations, plates and their garments; photographs, answers and
    # measures, of which there are none; sources that may be the same; the uses.
    with django_assert_max_num_queries(13):
        page_of(source)
