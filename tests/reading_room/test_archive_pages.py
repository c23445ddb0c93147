"""Out and in through pages: tried first, then taken. That they are for keepers only: tests/test_access.py."""

import io

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from catalogue.reading_room.exchange.archive import write_archive
from tests.makers.full_workroom import fill_workroom
from tests.makers.rows import NOON


@pytest.fixture
def archive(people) -> SimpleUploadedFile:
    """The catalogue of another workroom."""
    fill_workroom(people.stranger.memberships.get().workroom)
    file = io.BytesIO()
    write_archive(people.stranger.memberships.get().workroom, file, at=NOON, personal=True)
    return SimpleUploadedFile("house.zip", file.getvalue())


@pytest.fixture
def keeper(client, people):
    client.force_login(people.keeper)
    return client


def test_it_is_tried_first_and_nothing_is_written_until_the_keeper_says_so(keeper, people, archive):
    tried = keeper.post(reverse("archive-import"), {"archive": archive})
    assert "2 reference garments" in tried.content.decode()
    assert not people.workroom.references.exists()
    taken = keeper.post(reverse("archive-take"), {"token": tried.context["token"]}, follow=True)
    page = taken.content.decode()
    assert "1 source, 2 reference garments, 1 relation, 1 saved filter, 1 photograph, 1 scan" in page
    assert "The scans are being cut" in page
    assert people.workroom.references.count() == 2


def test_the_word_of_an_archive_works_once_and_for_its_own_sender(keeper, people, archive, client):
    token = keeper.post(reverse("archive-import"), {"archive": archive}).context["token"]
    client.force_login(people.stranger)
    client.post(reverse("archive-take"), {"token": token})
    assert people.stranger.memberships.get().workroom.references.count() == 2
    assert not people.workroom.references.exists()


def test_faults_are_listed_and_nothing_waits(keeper, data_folder):
    answer = keeper.post(reverse("archive-import"), {"archive": SimpleUploadedFile("x.zip", b"no archive")})
    assert "This file is not a zip archive." in answer.content.decode()
    assert not list((data_folder / "imports").glob("*"))


def test_what_goes_out_comes_in_again(keeper, people):
    fill_workroom(people.workroom)
    answer = keeper.get(reverse("archive-export"))
    assert answer["Content-Disposition"].startswith('attachment; filename="attic-table-')
    sent = SimpleUploadedFile("own.zip", b"".join(answer))
    tried = keeper.post(reverse("archive-import"), {"archive": sent})
    assert tried.context["taken"].same["reference garments"] == 2


def test_the_page_says_that_photographs_may_tell_where_they_were_taken(keeper):
    assert "where and when they were taken" in keeper.get(reverse("archive-detail")).content.decode()


@pytest.mark.parametrize(("table", "status"), [("garments", 200), ("readings", 200), ("wearers", 404)])
def test_there_is_a_table_of_garments_and_one_of_readings(keeper, table, status):
    assert keeper.get(reverse("archive-csv", args=[table])).status_code == status
