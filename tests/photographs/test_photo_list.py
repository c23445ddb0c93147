"""Photographs of a garment together: in order, on one sheet, sent one after another, looked at closely."""

import io

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from PIL import Image

from catalogue.photographs.actions import PictureNotes, SentPicture, add_photos
from catalogue.photographs.imaging import read_upload
from catalogue.photographs.models import PART_PX, Photo
from tests.makers.rows import make_photo, make_reference


@pytest.fixture
def bodice(people):
    return make_reference(people.workroom)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def picture(width: int, height: int, colours: list[tuple[int, int, int]] | None = None) -> SimpleUploadedFile:
    """A picture in upright stripes of the colours."""
    image = Image.new("RGB", (width, height), "white")
    for number, colour in enumerate(colours or []):
        stripe = width // len(colours)
        image.paste(colour, (number * stripe, 0, (number + 1) * stripe, height))
    image.save(file := io.BytesIO(), "PNG")
    return SimpleUploadedFile("stripes.png", file.getvalue())


def keep(bodice, file) -> Photo:
    sent = [SentPicture(file=file, prepared=read_upload(file))]
    return add_photos(reference=bodice, pictures=sent, notes=PictureNotes(view="front"))[0]


def order(bodice) -> list[str]:
    return [photo.caption for photo in bodice.photos.all()]


def test_they_are_put_in_order_one_place_at_a_time(maker, bodice):
    photos = [make_photo(bodice, caption=caption) for caption in "abc"]
    maker.post(reverse("photo-move", args=[photos[2].pk]), {"to": "earlier"})
    assert order(bodice) == ["a", "c", "b"]
    maker.post(reverse("photo-move", args=[photos[0].pk]), {"to": "later"})
    assert order(bodice) == ["c", "a", "b"]
    maker.post(reverse("photo-move", args=[photos[1].pk]), {"to": "later"})
    assert order(bodice) == ["c", "a", "b"]


def test_the_sheet_says_whose_each_is_or_that_nobody_noted_it(maker, bodice):
    make_photo(bodice, credit="A. Photographer", rights="Ask first")
    make_photo(bodice, caption="bare")
    page = maker.get(reverse("photo-list", args=[bodice.pk])).content.decode()
    assert "A. Photographer" in page
    assert "credit not noted. Rights not stated." in page


@pytest.mark.parametrize("count", [1, 50])
def test_the_sheet_asks_as_often_for_fifty_as_for_one(maker, bodice, count, django_assert_num_queries):
    for _ in range(count):
        make_photo(bodice)
    with django_assert_num_queries(5):
        maker.get(reverse("photo-list", args=[bodice.pk]))


def test_sent_one_after_another_each_is_answered_by_itself(maker, bodice):
    address = reverse("photo-add", args=[bodice.pk])
    answers = [
        maker.post(
            address, {"pictures": [file], "view": "front"}, headers={"Accept": "application/json"}
        ).json()
        for file in (picture(20, 30), SimpleUploadedFile("x.png", b"no picture"))
    ]
    assert answers[0] == {"kept": 1, "refused": []}
    assert answers[1]["kept"] == 0
    assert answers[1]["refused"][0].startswith("x.png: ")
    assert bodice.photos.count() == 1


def test_a_part_is_as_fine_as_the_file_that_was_sent(maker, bodice):
    """Stripes of one pixel each side of the edge between two parts: a copy made smaller would blur them."""
    red, green, blue, white = (200, 0, 0), (0, 200, 0), (0, 0, 200), (255, 255, 255)
    photo = keep(bodice, picture(2 * PART_PX, 40, [red, green, blue, white]))
    assert photo.parts() == (2, 1)
    answer = maker.get(reverse("photo-part", args=[photo.pk, 1, 0]))
    part = Image.open(io.BytesIO(b"".join(answer)))
    assert part.size == (PART_PX, 40)
    for x, colour in ((10, blue), (PART_PX - 10, white)):
        assert all(abs(had - due) < 6 for had, due in zip(part.getpixel((x, 20)), colour, strict=True))


def test_a_part_that_is_not_there_is_not_found(maker, bodice):
    photo = keep(bodice, picture(30, 40))
    assert maker.get(reverse("photo-part", args=[photo.pk, 1, 0])).status_code == 404
    assert maker.get(reverse("photo-part", args=[make_photo(bodice).pk, 0, 0])).status_code == 404


def test_the_whole_leads_to_its_parts_and_they_to_each_other(maker, bodice):
    photo = make_photo(bodice, width=4000, height=3000)
    close = reverse("photo-close", args=[photo.pk, 1, 0])
    assert close in maker.get(reverse("photo-detail", args=[photo.pk])).content.decode()
    page = maker.get(close).content.decode()
    assert reverse("photo-part", args=[photo.pk, 1, 0]) in page
    assert reverse("photo-close", args=[photo.pk, 2, 1]) in page
    assert maker.get(reverse("photo-close", args=[photo.pk, 3, 0])).status_code == 404
