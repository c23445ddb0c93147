"""The only way to a picture: copies, for members, through one view."""

import io

import pytest
from PIL import Image

from catalogue.workroom.files import remove
from tests.makers.rows import make_reference


@pytest.fixture
def photo(client, people):
    reference = make_reference(people.workroom)
    file = io.BytesIO()
    Image.new("RGB", (900, 600), "rosybrown").save(file, "PNG")
    file.seek(0)
    file.name = "a.png"
    client.force_login(people.maker)
    client.post(f"/references/{reference.pk}/photos/add/", {"view": "front", "pictures": [file]})
    return reference.photos.get()


@pytest.mark.parametrize(("who", "status"), [("reader", 200), ("maker", 200), ("stranger", 404)])
def test_members_see_it_and_strangers_do_not(client, people, photo, who, status):
    client.force_login(getattr(people, who))
    assert client.get(photo.address(320)).status_code == status


def test_whoever_is_not_signed_in_is_asked_to(client, photo):
    client.logout()
    assert client.get(photo.address(320))["Location"].startswith("/sign-in/")


def test_a_copy_of_the_asked_size_is_sent_for_this_browser_only(client, photo):
    answer = client.get(photo.address(320))
    assert Image.open(io.BytesIO(b"".join(answer))).size == (320, 213)
    assert answer["Content-Type"] == "image/jpeg"
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert answer["Cache-Control"].startswith("private")


@pytest.mark.parametrize("size", [0, 1, 321, 99999])
def test_other_sizes_have_no_address(client, photo, size):
    assert client.get(photo.address(size)).status_code == 404


def test_a_file_that_went_missing_is_said_not_crashed_over(client, photo):
    remove(photo.file(320))
    assert client.get(photo.address(320)).status_code == 404


def test_the_page_shows_the_copies_with_their_credit(client, photo):
    photo.credit = "own picture"
    photo.save()
    page = client.get(photo.reference.get_absolute_url()).content.decode()
    assert photo.address(960) in page
    assert "own picture" in page
    assert "not worn or stretched" in page
    assert "originals" not in page
