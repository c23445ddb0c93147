import pytest

from catalogue.sources.models import Citation, Source
from tests.makers.rows import make_plate, make_reference, make_source


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def test_a_source_that_is_cited_stays_and_the_page_says_where(maker, people):
    source = make_source(people.workroom)
    reference = make_reference(people.workroom, name="striped jacket")
    Citation.objects.create(reference=reference, source=source, pages="p. 4")
    assert "striped jacket" in maker.get(f"/sources/{source.pk}/delete/").content.decode()
    maker.post(f"/sources/{source.pk}/delete/")
    assert Source.objects.filter(pk=source.pk).exists()


def test_a_source_that_nothing_cites_goes_and_its_plates_stay(maker, people):
    source = make_source(people.workroom)
    plate = make_plate(make_reference(people.workroom), source=source)
    assert "stay without a source: 1 plate." in maker.get(f"/sources/{source.pk}/delete/").content.decode()
    maker.post(f"/sources/{source.pk}/delete/")
    plate.refresh_from_db()
    assert plate.source is None
