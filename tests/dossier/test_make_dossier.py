"""The short-lived process: whole files or none, nothing stuck, nothing left of what is gone."""

import hashlib
import os
import signal
import subprocess
import sys
import time
from datetime import timedelta

import pytest
from django.conf import settings
from django.utils import timezone
from pypdf import PdfReader

from catalogue.workroom.process import start_command
from fitting.dossier import actions
from fitting.dossier.actions import ask_again, ask_for_dossier, make_dossier, sweep_stopped
from fitting.dossier.models import Dossier, part_of
from fitting.dossier.showing.document import PdfNotPossible, PrintedDossier
from tests.makers.rows import NOON, make_garment, make_outfit


@pytest.fixture
def started(monkeypatch) -> list[int]:
    """Keys of the dossiers for which a process was started, none of which runs."""
    keys: list[int] = []
    monkeypatch.setattr(actions, "start_command", lambda _, pk: keys.append(int(pk)))
    return keys


@pytest.fixture
def waiting(people, started, django_capture_on_commit_callbacks) -> Dossier:
    outfit = make_outfit(people.workroom)
    make_garment(outfit)
    with django_capture_on_commit_callbacks(execute=True):
        given = {"sections": ["garments", "outfit"], "paper": "A4", "system": "in"}
        return ask_for_dossier(outfit, **given, by=people.maker, at=timezone.now())


def test_asking_keeps_the_choice_as_ordered_and_starts_one_process(waiting, started):
    assert waiting.sections == ["garments", "outfit"]
    assert started == [waiting.pk]
    assert waiting.is_unfinished


def test_it_is_made_whole_and_only_its_owner_may_read_it(waiting):
    make_dossier(waiting.pk)
    waiting.refresh_from_db()
    assert (waiting.state, waiting.progress, waiting.fault) == (Dossier.State.DONE, 100, "")
    assert waiting.pages == 3
    assert waiting.path.read_bytes().startswith(b"%PDF-1.7")
    assert waiting.path.stat().st_mode & 0o777 == 0o600
    assert os.listdir(waiting.path.parent) == [waiting.file_name]


def test_its_row_tells_the_files_checksum_and_the_figures_it_was_printed_from(waiting):
    make_dossier(waiting.pk)
    waiting.refresh_from_db()
    assert waiting.sha256 == hashlib.sha256(waiting.path.read_bytes()).hexdigest()
    (garment,) = waiting.snapshot["garments"].values()
    assert (garment["name"], garment["stage"]) == ("bodice", "studied")
    words = PdfReader(waiting.path).pages[0].extract_text()
    assert f"mark {waiting.mark}" in words


def test_progress_and_heartbeat_are_told_while_it_is_made(waiting, monkeypatch):
    heard = []

    def printing(values, *, told):
        told(40, "laying out page 5")
        heard.append(Dossier.objects.values_list("state", "progress", "step").get())
        return PrintedDossier(pdf=b"%PDF", pages=1)

    monkeypatch.setattr(actions, "print_dossier", printing)
    monkeypatch.setattr(actions, "TOLD_EVERY", timedelta(0))
    make_dossier(waiting.pk)
    assert heard == [("running", 40, "laying out page 5")]


def test_where_no_process_can_be_started_the_row_says_so(
    people, monkeypatch, django_capture_on_commit_callbacks
):
    def refused(*words):
        raise OSError(11, "Resource temporarily unavailable")

    monkeypatch.setattr(actions, "start_command", refused)
    given = {"sections": ["outfit"], "paper": "A4", "system": "in"}
    with django_capture_on_commit_callbacks(execute=True):
        ask_for_dossier(make_outfit(people.workroom), **given, by=people.maker, at=NOON)
    assert Dossier.objects.get().fault.endswith("could not be started: Resource temporarily unavailable.")


def test_a_second_process_for_the_same_row_does_nothing(waiting, monkeypatch):
    Dossier.objects.update(state=Dossier.State.RUNNING)
    monkeypatch.setattr(actions, "print_dossier", lambda values, told: pytest.fail("made twice"))
    make_dossier(waiting.pk)


@pytest.mark.parametrize(
    ("fault", "said"),
    [
        (PdfNotPossible("Pango is missing."), "Pango is missing."),
        (KeyError("34 in"), "The program met a fault of its own (KeyError)."),
    ],
)
def test_what_went_wrong_is_said_in_the_row_and_nothing_is_kept(waiting, monkeypatch, fault, said):
    def failing(values, told):
        raise fault

    monkeypatch.setattr(actions, "print_dossier", failing)
    make_dossier(waiting.pk)
    waiting.refresh_from_db()
    assert waiting.state == Dossier.State.FAILED
    assert waiting.fault.startswith(said)
    assert "34" not in waiting.fault.partition("number")[0]
    assert not waiting.path.exists()


def test_one_deleted_while_it_is_made_leaves_no_file(waiting, monkeypatch):
    def deleted_meanwhile(values, told):
        Dossier.objects.all().delete()
        return PrintedDossier(pdf=b"%PDF", pages=1)

    monkeypatch.setattr(actions, "print_dossier", deleted_meanwhile)
    make_dossier(waiting.pk)
    assert not Dossier.objects.exists()
    assert not waiting.path.exists()


def test_a_killed_one_is_swept_with_what_it_left(waiting):
    waiting.path.parent.mkdir(parents=True)
    part_of(waiting.path).write_bytes(b"%PDF half")
    Dossier.objects.update(state=Dossier.State.RUNNING, heartbeat=NOON)
    sweep_stopped(at=NOON + timedelta(seconds=29))
    assert Dossier.objects.get().state == Dossier.State.RUNNING
    sweep_stopped(at=NOON + timedelta(seconds=31))
    assert Dossier.objects.get().state == Dossier.State.FAILED
    assert "stopped" in Dossier.objects.get().fault
    assert os.listdir(waiting.path.parent) == []


def test_a_finished_one_is_never_swept(waiting):
    make_dossier(waiting.pk)
    sweep_stopped(at=timezone.now() + timedelta(days=9))
    waiting.refresh_from_db()
    assert waiting.state == Dossier.State.DONE
    assert waiting.path.exists()


def test_trying_again_makes_a_new_one_of_the_same_parts(
    waiting, people, started, django_capture_on_commit_callbacks
):
    first = waiting.pk
    with django_capture_on_commit_callbacks(execute=True):
        again = ask_again(waiting, by=people.maker, at=timezone.now())
    assert list(Dossier.objects.all()) == [again]
    assert again.sections == ["garments", "outfit"]
    assert started == [first, again.pk]


def test_its_file_goes_with_its_row_and_with_its_outfit(waiting, django_capture_on_commit_callbacks):
    make_dossier(waiting.pk)
    with django_capture_on_commit_callbacks(execute=True):
        waiting.outfit.delete()
    assert not waiting.path.exists()


def manage(folder, *words: str) -> str:
    line = [sys.executable, str(settings.BASE_DIR / "manage.py"), *words]
    environment = os.environ | {"PLATE_DATA": str(folder)}
    environment.pop("DATABASE_URL", None)
    return subprocess.run(line, env=environment, capture_output=True, text=True, check=True).stdout


SEED = """
from django.utils import timezone
from catalogue.models import Workroom
from fitting.models import Dossier, Outfit
outfit = Outfit.objects.create(workroom=Workroom.objects.create(name='w'), name='o')
for name in ('a.pdf', 'b.pdf'):
    now = timezone.now()
    Dossier.objects.create(outfit=outfit, sections=['outfit'], file_name=name, asked_at=now, heartbeat=now)
"""


def test_a_real_process_makes_one_by_itself_and_one_that_is_killed_leaves_no_pdf(
    tmp_path, settings, monkeypatch
):
    settings.DATA_DIR = tmp_path
    monkeypatch.delenv("DATABASE_URL", raising=False)
    manage(tmp_path, "migrate", "--verbosity=0")
    manage(tmp_path, "shell", "-c", SEED)
    start_command("dossier_make", "1")
    line = [sys.executable, str(settings.BASE_DIR / "manage.py"), "dossier_make", "2"]
    killed = subprocess.Popen(line, env=os.environ | {"PLATE_DATA": str(tmp_path)}, start_new_session=True)
    time.sleep(0.5)
    os.killpg(killed.pid, signal.SIGKILL)
    killed.wait()
    done = tmp_path / "dossiers" / "a.pdf"
    patience = time.monotonic() + 60
    while not done.exists() and time.monotonic() < patience:
        time.sleep(0.1)
    assert os.listdir(done.parent) == ["a.pdf"]
