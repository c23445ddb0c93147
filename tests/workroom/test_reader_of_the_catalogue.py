"""A reader looks at the catalogue and is offered no way to write in it."""

import pytest
from django.urls import reverse

from catalogue.photographs.models import Photo
from catalogue.plates.models.piece import Seam
from tests.makers.rows import make_bodice_plate, make_source

WAYS_TO_WRITE = (
    "/add/",
    "/change/",
    "/delete/",
    "/citations/",
    "/measures/",
    "/propose/",
    "/readings/",
    "/start/",
)


@pytest.fixture
def pages(people) -> list[str]:
    plate = make_bodice_plate(people.workroom)
    front, back = plate.pieces.all()
    Seam.objects.create(plate=plate, piece_a=front, piece_b=back)
    Photo.objects.create(reference=plate.reference, stem="one", width=4, height=3)
    source = make_source(people.workroom)
    rows = [source, plate.reference, plate]
    return [
        "/sources/",
        "/references/",
        *(row.get_absolute_url() for row in rows),
        reverse("seam-list", args=[plate.pk]),
        reverse("plate-enlarge", args=[plate.pk]),
    ]


def test_a_reader_is_shown_no_way_to_write(client, people, pages):
    client.force_login(people.reader)
    for page in pages:
        text = client.get(page).content.decode()
        assert [way for way in WAYS_TO_WRITE if f'{way}"' in text] == [], page


def test_a_maker_is_shown_some_on_every_page_but_the_reckoning_of_an_enlargement(client, people, pages):
    client.force_login(people.maker)
    for page in pages[:-1]:
        text = client.get(page).content.decode()
        assert any(f'{way}"' in text for way in WAYS_TO_WRITE), page
