from datetime import timedelta
from urllib.parse import unquote

import pytest
from django.utils import timezone

from fitting.dossier import actions
from fitting.dossier.loading.snapshot import snapshot_now
from fitting.dossier.models import Dossier
from tests.makers.rows import NOON, make_dossier, make_entry, make_outfit, make_wearer


@pytest.fixture
def outfit(people, client):
    client.force_login(people.maker)
    return make_outfit(people.workroom, name="Fête / “day” ../ 1")


def test_while_it_is_made_the_page_looks_again_by_itself_and_is_not_kept(client, outfit):
    dossier = make_dossier(
        outfit, state="running", heartbeat=timezone.now(), progress=41, step="laying out page 6"
    )
    answer = client.get(dossier.get_absolute_url())
    assert answer["Refresh"] == "1"
    assert "no-store" in answer["Cache-Control"]
    assert "laying out page 6" in answer.content.decode()
    assert "41 % done" in " ".join(answer.content.decode().split())


def test_once_ready_it_rests_and_gives_the_file_under_the_outfits_name(client, outfit):
    dossier = make_dossier(outfit, state="done", pages=8, file_name="a.pdf")
    dossier.path.parent.mkdir()
    dossier.path.write_bytes(b"%PDF-1.7")
    answer = client.get(dossier.get_absolute_url())
    assert "Refresh" not in answer
    assert f"/dossiers/{dossier.pk}/file/" in answer.content.decode()
    file = client.get(f"/dossiers/{dossier.pk}/file/")
    assert file.getvalue() == b"%PDF-1.7"
    assert file["Content-Type"] == "application/pdf"
    name = unquote(file["Content-Disposition"]).partition("''")[2]
    assert name == "Fête--day-..-1-2026-11-20.pdf"
    assert file["Cache-Control"] == "private, no-store"


def test_one_whose_process_was_killed_says_so_to_whoever_looks(client, outfit):
    dossier = make_dossier(outfit, state="running", heartbeat=timezone.now() - timedelta(seconds=31))
    answer = client.get(dossier.get_absolute_url())
    assert "Refresh" not in answer
    assert "could not be made" in answer.content.decode()
    assert Dossier.objects.get().state == Dossier.State.FAILED


def test_a_failed_one_gives_its_reason_and_can_be_tried_again(client, outfit, monkeypatch):
    monkeypatch.setattr(actions, "start_command", lambda *words: None)
    dossier = make_dossier(outfit, state="failed", fault="Pango is missing <here>.", sections=["outfit"])
    page = client.get(dossier.get_absolute_url()).content.decode()
    assert "Pango is missing &lt;here&gt;." in page
    answer = client.post(f"/dossiers/{dossier.pk}/again/")
    again = Dossier.objects.get()
    assert answer.url == again.get_absolute_url()
    assert (again.state, again.sections) == ("waiting", ["outfit"])


def test_one_that_is_being_made_is_not_begun_a_second_time(client, outfit):
    dossier = make_dossier(outfit, state="running", heartbeat=timezone.now())
    client.post(f"/dossiers/{dossier.pk}/again/")
    assert Dossier.objects.get() == dossier


def test_it_tells_what_has_changed_since_and_whether_an_earlier_one_has_the_same_bytes(client, outfit):
    kept = {"snapshot": snapshot_now(outfit, by=None, at=NOON), "sha256": "ab" * 32, "mark": "0badcafe"}
    first = make_dossier(outfit, state="done", **kept)
    page = client.get(first.get_absolute_url()).content.decode()
    assert "Nothing has changed since" in page
    assert "No earlier dossier of this outfit has the same bytes" in page
    again = make_dossier(outfit, state="done", asked_at=NOON + timedelta(hours=2), **kept)
    make_entry(outfit, hours=2)
    page = client.get(again.get_absolute_url()).content.decode()
    assert "2 h of work logged" in page
    assert f'byte for byte the same as that of the <a href="{first.get_absolute_url()}"' in page
    assert "0badcafe" in page


def test_figures_of_another_wearer_are_not_told_on_the_page_of_an_older_dossier(client, outfit):
    kept = snapshot_now(outfit, by=None, at=NOON)
    dossier = make_dossier(outfit, state="done", snapshot=kept)
    outfit.wearer = make_wearer(outfit.workroom)
    outfit.save()
    assert "has changed since" not in client.get(dossier.get_absolute_url()).content.decode()


@pytest.mark.parametrize("state", ["waiting", "running", "failed", "done"])
def test_what_is_not_there_is_not_served(client, outfit, state):
    dossier = make_dossier(outfit, state=state, file_name="gone.pdf")
    assert client.get(f"/dossiers/{dossier.pk}/file/").status_code == 404


def test_deleting_asks_first_and_takes_the_file_along(client, outfit, django_capture_on_commit_callbacks):
    dossier = make_dossier(outfit, state="done", file_name="a.pdf")
    dossier.path.parent.mkdir()
    dossier.path.write_bytes(b"%PDF")
    assert "The PDF goes with it" in client.get(f"/dossiers/{dossier.pk}/delete/").content.decode()
    assert Dossier.objects.exists()
    with django_capture_on_commit_callbacks(execute=True):
        answer = client.post(f"/dossiers/{dossier.pk}/delete/")
    assert answer.url == outfit.get_absolute_url()
    assert not Dossier.objects.exists()
    assert not dossier.path.exists()
