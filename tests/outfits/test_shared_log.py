"""A log by secret address: what was chosen, no measure, no name, and an end."""

import datetime

import pytest
from django.test import Client
from django.utils import timezone

from catalogue.workroom.files import put
from fitting.outfits.models.share import Share
from tests.makers.fittings import make_shared
from tests.makers.rows import make_entry, make_log_photo, make_outfit, make_wearer

NAME = "Quirina Vossen"


@pytest.fixture
def outfit(people):
    return make_outfit(people.workroom, wearer=make_wearer(people.workroom, name=NAME))


@pytest.fixture
def entry(outfit):
    return make_entry(outfit, text=f"{NAME} came. Quirina’s waist is 27 1/2 in now. Cut 12 eyelets.")


def look(secret: str) -> str:
    """As a person who never signed in sees it."""
    answer = Client().get(f"/shown/{secret}/")
    return answer.content.decode() if answer.status_code == 200 else str(answer.status_code)


def with_file(photo):
    put(photo.file(320), b"a picture")
    return photo


def test_it_shows_what_was_chosen_and_nothing_else(outfit, entry):
    other = make_entry(outfit, text="The glue failed.")
    _, secret = make_shared(outfit, entries=[entry])
    page = look(secret)
    assert "Cut 12 eyelets." in page
    assert other.text not in page
    assert "Attic table" not in page


@pytest.mark.parametrize("agrees", [False, True])
def test_no_measure_ever_and_the_name_only_where_they_agree(outfit, entry, agrees):
    _, secret = make_shared(outfit, entries=[entry], wearer_agrees=agrees)
    page = look(secret)
    assert "27 1/2" not in page
    assert ("Quirina" in page) is agrees


def test_only_a_digest_of_the_secret_is_kept(outfit, entry):
    share, secret = make_shared(outfit, entries=[entry])
    assert secret not in str(Share.objects.values().get(pk=share.pk))


def test_it_ends_by_itself_and_at_once_when_told(outfit, entry, client, people):
    gone = timezone.now() - datetime.timedelta(seconds=1)
    _, expired = make_shared(outfit, entries=[entry], expires_at=gone)
    assert look(expired) == "404"
    share, secret = make_shared(outfit, entries=[entry])
    assert look(secret) != "404"
    client.force_login(people.maker)
    client.post(f"/shares/{share.pk}/end/")
    assert look(secret) == "404"
    assert look("a guess") == "404"


def test_a_photograph_is_shown_by_the_same_secret_and_no_other(outfit, entry):
    shown, hidden = (with_file(make_log_photo(entry)) for _ in range(2))
    _, secret = make_shared(outfit, entries=[entry], photos=[shown])
    _, other = make_shared(outfit, entries=[entry])
    assert Client().get(f"/shown/{secret}/{shown.pk}/320/").status_code == 200
    assert Client().get(f"/shown/{secret}/{hidden.pk}/320/").status_code == 404
    assert Client().get(f"/shown/{other}/{shown.pk}/320/").status_code == 404


def test_a_photograph_of_the_wearer_is_refused_unless_they_agree(outfit, entry, client, people):
    photo = make_log_photo(entry, shows_wearer=True)
    client.force_login(people.maker)
    sent = {"label": "a friend", "days": 7, "entries": [entry.pk], "photos": [photo.pk]}
    page = client.post(f"/outfits/{outfit.pk}/shares/add/", sent).content.decode()
    assert "ask first" in page
    assert not Share.objects.exists()
    client.post(f"/outfits/{outfit.pk}/shares/add/", {**sent, "wearer_agrees": "on"})
    assert Share.objects.get().photos.count() == 1


def test_one_that_shows_the_wearer_after_all_is_hidden_at_once(outfit, entry):
    photo = with_file(make_log_photo(entry))
    _, secret = make_shared(outfit, entries=[entry], photos=[photo])
    photo.shows_wearer = True
    photo.save()
    assert Client().get(f"/shown/{secret}/{photo.pk}/320/").status_code == 404


def test_the_address_is_told_once(outfit, entry, client, people):
    client.force_login(people.maker)
    sent = {"label": "a friend", "days": 7, "entries": [entry.pk]}
    page = client.post(f"/outfits/{outfit.pk}/shares/add/", sent, follow=True).content.decode()
    address = page.split('value="http://testserver')[1].split('"')[0]
    assert Client().get(address).status_code == 200
    assert address not in client.get(f"/outfits/{outfit.pk}/shares/").content.decode()


def test_the_page_is_kept_by_nobody_and_tells_no_other_site_where_it_is(outfit, entry):
    _, secret = make_shared(outfit, entries=[entry])
    answer = Client().get(f"/shown/{secret}/")
    assert answer["Referrer-Policy"] == "no-referrer"
    assert answer["Cache-Control"] == "private, no-store"
    assert "noindex" in answer["X-Robots-Tag"]
