import io

import pytest
from django.contrib.messages import get_messages
from PIL import Image

from catalogue.photographs.models import Photo
from catalogue.workroom.actions.deletion import forget_deleted
from catalogue.workroom.models import DeletedRow
from tests.makers.rows import make_reference, make_source

SAID = {"view": "back", "caption": "back, laid flat", "credit": "own picture", "rights": "ours"}


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def reference(people):
    return make_reference(people.workroom)


def picture(name: str, form: str = "PNG") -> io.BytesIO:
    file = io.BytesIO()
    Image.new("RGB", (60, 40), "rosybrown").save(file, form)
    file.seek(0)
    file.name = name
    return file


def nonsense(name: str) -> io.BytesIO:
    file = io.BytesIO(b"<script>alert(1)</script>")
    file.name = name
    return file


def test_several_pictures_are_sent_at_once_and_said_to_be_the_same(maker, reference, data_folder):
    maker.post(
        f"/references/{reference.pk}/photos/add/", SAID | {"pictures": [picture("a.png"), picture("b.png")]}
    )
    photos = list(reference.photos.all())
    assert [(photo.order, photo.view, photo.credit) for photo in photos] == [
        (1, "back", "own picture"),
        (2, "back", "own picture"),
    ]
    assert (photos[0].width, photos[0].height) == (60, 40)
    names = {file.name for file in (data_folder / "files" / "photos").iterdir()}
    assert names == {f"{photo.stem}-{size}.jpg" for photo in photos for size in (320, 960, 2000)} | {
        "originals"
    }


def test_what_can_be_read_is_kept_and_the_rest_is_named(maker, reference):
    answer = maker.post(
        f"/references/{reference.pk}/photos/add/", SAID | {"pictures": [picture("a.png"), nonsense("b.png")]}
    )
    assert reference.photos.count() == 1
    assert any("b.png: This file is not a whole" in str(one) for one in get_messages(answer.wsgi_request))


@pytest.mark.parametrize("files", [[], ["nonsense"]])
def test_without_a_picture_the_form_comes_back_with_what_was_typed(maker, reference, files):
    sent = {"pictures": [nonsense(name) for name in files]} if files else {}
    answer = maker.post(f"/references/{reference.pk}/photos/add/", SAID | sent)
    assert "pictures" in answer.context["form"].errors
    assert "back, laid flat" in answer.content.decode()


def test_an_original_can_be_read_by_nobody_else_on_the_machine(maker, reference, data_folder):
    maker.post(f"/references/{reference.pk}/photos/add/", SAID | {"pictures": [picture("a.png")]})
    original = data_folder / "files" / "photos" / "originals" / reference.photos.get().stem
    assert original.stat().st_mode & 0o777 == 0o600
    assert original.read_bytes() == picture("a.png").read()


def test_a_photograph_is_put_in_order_and_its_source_named(maker, people, reference):
    maker.post(
        f"/references/{reference.pk}/photos/add/", SAID | {"pictures": [picture("a.png"), picture("b.png")]}
    )
    first, second = reference.photos.all()
    source = make_source(people.workroom)
    maker.post(f"/photos/{second.pk}/change/", SAID | {"order": "0", "source": source.pk})
    assert list(reference.photos.all()) == [second, first]
    foreign = make_source(people.stranger.memberships.get().workroom)
    answer = maker.post(f"/photos/{first.pk}/change/", SAID | {"order": "1", "source": foreign.pk})
    assert "source" in answer.context["form"].errors


def test_a_photograph_deleted_for_good_leaves_no_file(
    maker, reference, data_folder, django_capture_on_commit_callbacks
):
    maker.post(f"/references/{reference.pk}/photos/add/", SAID | {"pictures": [picture("a.png")]})
    photo = reference.photos.get()
    with django_capture_on_commit_callbacks(execute=True):
        maker.post(f"/photos/{photo.pk}/delete/")
        forget_deleted(deleted=DeletedRow.objects.get())
    assert not Photo.objects.exists()
    assert [file for file in (data_folder / "files").rglob("*") if file.is_file()] == []
