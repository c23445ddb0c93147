"""Every page of the catalogue, opened by a stranger to all, a stranger to the workroom, a reader, a maker."""

import pytest
from django.urls import reverse

from catalogue.models import Photo, Seam
from tests.makers import make_bodice_plate, make_source

LOOKED_AT = (
    "source-list",
    "source-detail",
    "reference-list",
    "reference-detail",
    "plate-detail",
    "plate-enlarge",
    "seam-list",
)
WRITTEN_ON = (
    "source-add",
    "source-change",
    "source-delete",
    "reference-add",
    "reference-change",
    "reference-citations",
    "reference-measures",
    "reference-delete",
    "plate-add",
    "plate-change",
    "plate-delete",
    "piece-add",
    "piece-change",
    "piece-delete",
    "seam-propose",
    "photo-add",
    "photo-change",
    "photo-delete",
)
WITHOUT_A_ROW = ("source-list", "source-add", "reference-list", "reference-add")


@pytest.fixture
def addresses(people) -> dict[str, str]:
    plate = make_bodice_plate(people.workroom)
    front, back = plate.pieces.all()
    Seam.objects.create(plate=plate, piece_a=front, piece_b=back)
    photo = Photo.objects.create(reference=plate.reference, stem="one", width=4, height=3)
    rows = {
        "source": make_source(people.workroom),
        "reference": plate.reference,
        "plate": plate,
        "piece": front,
        "seam": plate,
        "photo": photo,
    }
    parents = {"plate-add": plate.reference, "piece-add": plate, "photo-add": plate.reference}
    return {
        name: reverse(
            name, args=[] if name in WITHOUT_A_ROW else [parents.get(name, rows[name.split("-")[0]]).pk]
        )
        for name in LOOKED_AT + WRITTEN_ON
    }


@pytest.mark.parametrize("name", LOOKED_AT)
def test_members_look_and_nobody_else_does(client, people, addresses, name):
    assert client.get(addresses[name])["Location"].startswith("/sign-in/")
    client.force_login(people.stranger)
    assert client.get(addresses[name]).status_code == (200 if name in WITHOUT_A_ROW else 404)
    for user in (people.reader, people.maker, people.keeper):
        client.force_login(user)
        assert client.get(addresses[name]).status_code == 200


@pytest.mark.parametrize("name", WRITTEN_ON)
def test_makers_write_and_readers_do_not(client, people, addresses, name):
    assert client.get(addresses[name])["Location"].startswith("/sign-in/")
    client.force_login(people.stranger)
    assert client.get(addresses[name]).status_code == (200 if name in WITHOUT_A_ROW else 404)
    client.force_login(people.reader)
    assert client.get(addresses[name]).status_code == 403
    assert client.post(addresses[name]).status_code == 403
    client.force_login(people.maker)
    assert client.get(addresses[name]).status_code == 200


@pytest.mark.parametrize("name", ["plate-readings", "piece-start", "seam-list"])
def test_a_reader_types_nothing_into_a_plate(client, people, name):
    plate = make_bodice_plate(people.workroom)
    client.force_login(people.reader)
    assert client.post(reverse(name, args=[plate.pk]), {}).status_code == 403
    client.force_login(people.stranger)
    assert client.post(reverse(name, args=[plate.pk]), {}).status_code == 404


def test_a_reader_is_shown_no_way_to_write(client, people, addresses):
    client.force_login(people.reader)
    for name in LOOKED_AT:
        page = client.get(addresses[name]).content.decode()
        for address in (addresses[name] for name in WRITTEN_ON):
            assert f'"{address}"' not in page
