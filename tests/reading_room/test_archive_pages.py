"""Out and in through pages, by long work. That they are for keepers only: tests/test_access.py."""

import io
import zipfile
from datetime import timedelta

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.management import call_command
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from catalogue.workroom.archive import taking
from catalogue.workroom.archive.models import ArchiveExport, ArchiveImport
from catalogue.workroom.files import names_in
from catalogue.workroom.work.engine import do_in_turn
from catalogue.workroom.work.models import Work
from tests.makers.full_workroom import fill_workroom
from tests.makers.packing import document, taken_out


@pytest.fixture
def archive(people) -> SimpleUploadedFile:
    """The catalogue of another workroom."""
    workroom = fill_workroom(people.stranger.memberships.get().workroom)
    return SimpleUploadedFile("house.zip", taken_out(workroom).getvalue())


@pytest.fixture
def keeper(client, people) -> Client:
    client.force_login(people.keeper)
    return client


@pytest.fixture
def do_what_waits(django_capture_on_commit_callbacks):
    """Does all long work that waits, and what is to be done once that is sure."""

    def do(*keys: int) -> None:
        with django_capture_on_commit_callbacks(execute=True):
            do_in_turn(keys or list(Work.objects.unfinished().values_list("pk", flat=True)))

    return do


def words(answer) -> str:
    return " ".join(answer.content.decode().split())


@pytest.fixture
def looked_at(keeper, do_what_waits):
    """Sends an archive, has it looked at, and gives its page."""

    def look(file: SimpleUploadedFile):
        sent = keeper.post(reverse("archive-import-add"), {"archive": file})
        do_what_waits(ArchiveImport.objects.latest("pk").work.pk)
        return keeper.get(sent.url)

    return look


@pytest.fixture
def taken(keeper, do_what_waits):
    """Says yes to the last archive that was sent, has it taken, and gives its page."""

    def take():
        brought = ArchiveImport.objects.latest("pk")
        keeper.post(reverse("archive-import-take", args=[brought.pk]))
        do_what_waits(brought.work.pk)
        return keeper.get(brought.get_absolute_url())

    return take


def test_it_is_looked_at_first_and_nothing_is_written_until_a_keeper_says_so(
    keeper, people, archive, looked_at, taken
):
    page = words(looked_at(archive))
    assert "Nothing is written yet." in page
    assert "1 source, 2 reference garments, 1 relation, 1 saved filter, 1 photograph, 1 scan" in page
    assert not people.workroom.references.exists()
    page = words(taken())
    assert "It is taken in" in page
    assert "1 source, 2 reference garments, 1 relation, 1 saved filter, 1 photograph, 1 scan" in page
    assert "The scans are being cut" in page
    assert people.workroom.references.count() == 2
    assert not names_in("imports/")


def test_it_is_taken_once_however_often_the_button_is_pressed(keeper, archive, looked_at, taken):
    looked_at(archive)
    taken()
    asked_at = ArchiveImport.objects.get().work.asked_at
    again = keeper.post(reverse("archive-import-take", args=[ArchiveImport.objects.get().pk]), follow=True)
    assert "There is nothing to say yes to" in words(again)
    assert ArchiveImport.objects.get().work.asked_at == asked_at


def test_faults_are_listed_and_nothing_waits(keeper, looked_at):
    page = words(looked_at(SimpleUploadedFile("x.zip", b"no archive")))
    assert "Nothing was taken in" in page
    assert "<code>archive</code>: This file is not a zip archive." in page
    assert "Bring it in" not in page
    assert not names_in("imports/")
    brought = ArchiveImport.objects.get()
    keeper.post(reverse("archive-import-take", args=[brought.pk]))
    assert not ArchiveImport.objects.get().is_agreed


def test_where_it_fails_on_its_last_file_nothing_of_it_is_there(
    keeper, people, archive, monkeypatch, looked_at, taken, do_what_waits
):
    looked_at(archive)
    before = names_in("photos/")
    with monkeypatch.context() as broken:
        broken.setattr(taking, "file_references", lambda keys: 1 / 0)
        page = words(taken())
    assert "Nothing was taken in." in page
    assert "Try again" in page
    assert not people.workroom.references.exists()
    assert names_in("photos/") == before
    keeper.post(reverse("work-again", args=[ArchiveImport.objects.get().work.pk]))
    do_what_waits()
    assert people.workroom.references.count() == 2


def test_what_goes_out_comes_in_again(keeper, people, do_what_waits, looked_at):
    fill_workroom(people.workroom)
    asked = keeper.post(reverse("archive-export-add"), {"personal": "on"})
    assert "About to begin" in words(keeper.get(asked.url))
    do_what_waits()
    assert "It lies here until" in words(keeper.get(asked.url))
    answer = keeper.get(reverse("archive-export-file", args=[ArchiveExport.objects.get().pk]))
    assert answer["Content-Disposition"].startswith('attachment; filename="attic-table-')
    assert answer["Cache-Control"] == "private, no-store"
    file = io.BytesIO(b"".join(answer))
    assert zipfile.ZipFile(file).testzip() is None
    assert len(document(file)["references"]) == 2
    page = words(looked_at(SimpleUploadedFile("own.zip", file.getvalue())))
    assert "There already" in page
    assert "2 reference garments" in page


def test_an_archive_lies_there_for_a_day_and_no_longer(keeper, monkeypatch, do_what_waits):
    keeper.post(reverse("archive-export-add"))
    do_what_waits()
    export, now = ArchiveExport.objects.get(), timezone.now()
    file = reverse("archive-export-file", args=[export.pk])
    monkeypatch.setattr(timezone, "now", lambda: now + timedelta(hours=23))
    assert keeper.get(file).status_code == 200
    monkeypatch.setattr(timezone, "now", lambda: now + timedelta(hours=25))
    assert keeper.get(file).status_code == 404
    assert names_in("exports/") == [export.file]
    call_command("sweep")
    assert not ArchiveExport.objects.exists()


def test_a_file_goes_with_its_row(keeper, do_what_waits, django_capture_on_commit_callbacks):
    keeper.post(reverse("archive-export-add"))
    do_what_waits()
    assert names_in("exports/")
    with django_capture_on_commit_callbacks(execute=True):
        ArchiveExport.objects.all().delete()
    assert not names_in("exports/")


@pytest.mark.parametrize("name", ["work-stop", "work-again"])
def test_only_a_keeper_stops_it_or_has_it_tried_again(client, people, keeper, name):
    keeper.post(reverse("archive-export-add"))
    client.force_login(people.maker)
    work = Work.objects.get()
    assert client.post(reverse(name, args=[work.pk])).status_code == 403
    assert not Work.objects.get().is_stop_asked


def test_the_page_lists_what_was_taken_out_and_sent_lately(keeper, archive, looked_at):
    keeper.post(reverse("archive-export-add"))
    looked_at(archive)
    page = words(keeper.get(reverse("archive-detail")))
    assert "without wearers, by keeper: waiting" in page
    assert "by keeper: looked at" in page


def test_the_page_says_that_photographs_may_tell_where_they_were_taken(keeper):
    assert "where and when they were taken" in keeper.get(reverse("archive-detail")).content.decode()


@pytest.mark.parametrize(("table", "status"), [("garments", 200), ("readings", 200), ("wearers", 404)])
def test_there_is_a_table_of_garments_and_one_of_readings(keeper, table, status):
    assert keeper.get(reverse("archive-csv", args=[table])).status_code == status
