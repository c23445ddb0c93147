import datetime

import pytest

from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.models import Citation
from tests.makers.rows import make_reference, make_source

TYPED = {"name": "linen stays", "dress": "women's", "kind": "stays", "materials": "unbleached linen"}


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def test_a_date_is_kept_as_typed_with_its_first_and_last_day(maker):
    # The 1770s: Library of Congress, Extended Date/Time Format, 4 February 2019, unspecified digits.
    maker.post("/references/add/", TYPED | {"date_edtf": "177X"})
    reference = ReferenceGarment.objects.get()
    assert reference.date_edtf == "177X"
    assert (reference.date_earliest, reference.date_latest) == (
        datetime.date(1770, 1, 1),
        datetime.date(1779, 12, 31),
    )


def test_a_date_in_plain_words_is_offered_in_the_format_never_taken_silently(maker):
    answer = maker.post("/references/add/", TYPED | {"date_edtf": "about 1785"})
    page = answer.content.decode()
    assert not ReferenceGarment.objects.exists()
    assert 'value="1785~"' in page
    assert "unbleached linen" in page
    maker.post("/references/add/", TYPED | {"date_edtf": "about 1785", "take_date": "1785~"})
    assert ReferenceGarment.objects.get().date_edtf == "1785~"


def test_enter_in_a_box_saves_what_is_typed_and_does_not_take_the_offer(maker):
    page = maker.post("/references/add/", TYPED | {"date_edtf": "about 1785"}).content.decode()
    form = page[page.index('<form method="post" class="sheet">') :]
    # A form's first button is the one that Enter presses (HTML, "implicit submission").
    assert "take_date" not in form[form.index("<button") : form.index("</button>")]


def test_words_that_the_format_would_lose_are_not_offered(maker):
    answer = maker.post("/references/add/", TYPED | {"date_edtf": "late 1870s"})
    assert answer.context["form"].offered_date is None
    assert "date_edtf" in answer.context["form"].errors


def test_a_date_taken_away_takes_its_days_away(maker, people):
    reference = make_reference(people.workroom, date_edtf="1785", date_earliest=datetime.date(1785, 1, 1))
    maker.post(f"/references/{reference.pk}/change/", TYPED | {"date_edtf": ""})
    reference.refresh_from_db()
    assert reference.date_earliest is None
    assert reference.name == "linen stays"


def rows(prefix: str, *typed: dict[str, str], initial: int = 0) -> dict[str, str]:
    posted = {f"{prefix}-TOTAL_FORMS": str(len(typed)), f"{prefix}-INITIAL_FORMS": str(initial)}
    for number, row in enumerate(typed):
        posted |= {f"{prefix}-{number}-{name}": value for name, value in row.items()}
    return posted


def test_sources_are_cited_with_their_pages(maker, people):
    reference, source = make_reference(people.workroom), make_source(people.workroom)
    typed = rows("citations", {"source": source.pk, "pages": "p. 12", "fact": "waist 24 in"}, {})
    assert (
        maker.post(f"/references/{reference.pk}/citations/", typed)["Location"]
        == f"/references/{reference.pk}/"
    )
    assert reference.citations.get().pages == "p. 12"


def test_a_citation_is_taken_off(maker, people):
    reference, source = make_reference(people.workroom), make_source(people.workroom)
    citation = Citation.objects.create(reference=reference, source=source)
    typed = rows("citations", {"id": citation.pk, "source": source.pk, "DELETE": "on"}, initial=1)
    maker.post(f"/references/{reference.pk}/citations/", typed)
    assert not reference.citations.exists()


def test_another_workrooms_source_cannot_be_cited(maker, people):
    reference = make_reference(people.workroom)
    foreign = make_source(people.stranger.memberships.get().workroom)
    answer = maker.post(
        f"/references/{reference.pk}/citations/",
        rows("citations", {"source": foreign.pk, "fact": "mine now"}),
    )
    assert answer.status_code == 200
    assert "mine now" in answer.content.decode()
    assert not reference.citations.exists()


def test_published_measures_are_read_as_typed(maker, people):
    reference = make_reference(people.workroom)
    typed = rows(
        "published_measures",
        {"line": "waist", "value_um": "61 cm", "doubt_um": "5 mm", "pages": "p. 8"},
        {"line": "bust", "value_um": "26–28 in"},
    )
    answer = maker.post(f"/references/{reference.pk}/measures/", typed)
    assert "range" in str(answer.context["formset"].errors[1]["value_um"])
    assert "61 cm" in answer.content.decode()
    maker.post(f"/references/{reference.pk}/measures/", typed | {"published_measures-1-value_um": "33"})
    waist, bust = reference.published_measures.all()
    assert (waist.value_um, waist.doubt_um, waist.pages) == (610_000, 5_000, "p. 8")
    assert bust.value_text == "33 in"


def test_a_page_that_claims_thousands_of_rows_gets_a_page_of_some(maker, people):
    reference = make_reference(people.workroom)
    typed = {"citations-TOTAL_FORMS": "9" * 20, "citations-INITIAL_FORMS": "0"}
    page = maker.post(f"/references/{reference.pk}/citations/", typed)
    assert page.status_code in (200, 302)
    assert page.content.count(b"<tr") < 300
