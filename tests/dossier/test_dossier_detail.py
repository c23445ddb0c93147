from datetime import timedelta
from urllib.parse import unquote

import pytest
from django.utils import timezone

from catalogue.workroom.actions.deletion import forget_deleted
from catalogue.workroom.files import is_there, put
from catalogue.workroom.models import DeletedRow
from fitting.dossier.loading.snapshot import snapshot_now
from fitting.dossier.models import Dossier
from tests.makers.rows import NOON, make_dossier, make_entry, make_outfit, make_wearer


@pytest.fixture
def outfit(people, client):
    client.force_login(people.maker)
    return make_outfit(people.workroom, name="Fête / “day” ../ 1")


def test_while_it_is_made_the_page_looks_again_by_itself_and_is_not_kept(client, outfit):
    at_work = {"state": "running", "progress": 41, "step": "laying out page 6"}
    dossier = make_dossier(outfit, {**at_work, "heartbeat": timezone.now()})
    answer = client.get(dossier.get_absolute_url())
    assert answer["Refresh"] == "1"
    assert "no-store" in answer["Cache-Control"]
    assert "laying out page 6" in answer.content.decode()
    assert "41 % done" in " ".join(answer.content.decode().split())


def test_once_ready_it_rests_and_gives_the_file_under_the_outfits_name(client, outfit):
    dossier = make_dossier(outfit, pages=8, file_name="a.pdf")
    put(dossier.file, b"%PDF-1.7")
    answer = client.get(dossier.get_absolute_url())
    assert "Refresh" not in answer
    assert f"/dossiers/{dossier.pk}/file/" in answer.content.decode()
    file = client.get(f"/dossiers/{dossier.pk}/file/")
    assert file.getvalue() == b"%PDF-1.7"
    assert file["Content-Type"] == "application/pdf"
    name = unquote(file["Content-Disposition"]).partition("''")[2]
    assert name == "Fête--day-..-1-2026-11-20.pdf"
    assert file["Cache-Control"] == "private, no-store"


def test_a_failed_one_gives_its_reason_and_can_be_made_with_other_parts(client, outfit):
    failed = {"state": "failed", "fault": "Pango is missing <here>."}
    page = client.get(make_dossier(outfit, failed).get_absolute_url()).content.decode()
    assert "It could not be made. Pango is missing &lt;here&gt;." in page
    assert "Choose other parts" in page


def test_it_tells_what_has_changed_since_and_whether_an_earlier_one_has_the_same_bytes(client, outfit):
    kept = {"snapshot": snapshot_now(outfit, by=None, at=NOON), "sha256": "ab" * 32, "mark": "0badcafe"}
    first = make_dossier(outfit, **kept)
    page = client.get(first.get_absolute_url()).content.decode()
    assert "Nothing has changed since" in page
    assert "No earlier dossier of this outfit has the same bytes" in page
    again = make_dossier(outfit, asked_at=NOON + timedelta(hours=2), **kept)
    make_entry(outfit, hours=2)
    page = client.get(again.get_absolute_url()).content.decode()
    assert "2 h of work logged" in page
    assert f'byte for byte the same as that of the <a href="{first.get_absolute_url()}"' in page
    assert "0badcafe" in page


def test_figures_of_another_wearer_are_not_told_on_the_page_of_an_older_dossier(client, outfit):
    kept = snapshot_now(outfit, by=None, at=NOON)
    dossier = make_dossier(outfit, snapshot=kept)
    outfit.wearer = make_wearer(outfit.workroom)
    outfit.save()
    assert "has changed since" not in client.get(dossier.get_absolute_url()).content.decode()


@pytest.mark.parametrize("state", ["waiting", "running", "failed", "done"])
def test_what_is_not_there_is_not_served(client, outfit, state):
    dossier = make_dossier(outfit, {"state": state}, file_name="gone.pdf")
    assert client.get(f"/dossiers/{dossier.pk}/file/").status_code == 404


def test_deleting_asks_first_and_the_file_goes_with_the_bin(
    client, outfit, django_capture_on_commit_callbacks
):
    dossier = make_dossier(outfit, file_name="a.pdf")
    put(dossier.file, b"%PDF")
    assert "<li>its file</li>" in client.get(f"/dossiers/{dossier.pk}/delete/").content.decode()
    assert Dossier.objects.exists()
    with django_capture_on_commit_callbacks(execute=True):
        answer = client.post(f"/dossiers/{dossier.pk}/delete/")
    assert answer.url == outfit.get_absolute_url()
    assert not Dossier.objects.exists()
    assert is_there(dossier.file)
    with django_capture_on_commit_callbacks(execute=True):
        forget_deleted(deleted=DeletedRow.objects.get())
    assert not is_there(dossier.file)
