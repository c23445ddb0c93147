"""The engine of long work: what is killed, swept, thought dead, in line, full; and a process that is real."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

import pytest
from django.conf import settings
from django.utils import timezone

from catalogue.workroom.files import half_made, is_there, names_in
from catalogue.workroom.process import start_command
from catalogue.workroom.work import attempt as attempt_module
from catalogue.workroom.work import engine
from catalogue.workroom.work.engine import ask, do_in_turn, put_in_line, start_line, sweep_work, try_again
from catalogue.workroom.work.models import SILENT_AFTER, Work
from tests import databases
from tests.makers.rows import NOON, make_dossier, make_outfit

LATER = NOON + SILENT_AFTER + timedelta(seconds=1)


@pytest.fixture
def committed(django_capture_on_commit_callbacks):
    return django_capture_on_commit_callbacks


def at_work(people, **given) -> Work:
    """A dossier that a process fell silent over, as of LATER."""
    given = {"state": "running", "heartbeat": NOON, **given}
    return make_dossier(make_outfit(people.workroom), given, file_name="a.pdf").work


def test_what_was_killed_is_done_again_twice_and_then_it_failed(people, started, committed):
    work = at_work(people)
    sweep_work(at=NOON + SILENT_AFTER)
    work.refresh_from_db()
    assert (work.state, work.tries) == ("running", 1)
    at = LATER
    for tries in (2, 3):
        with committed(execute=True):
            sweep_work(at=at)
        work.refresh_from_db()
        assert (work.state, work.tries, work.heartbeat) == ("waiting", tries, at)
        at += SILENT_AFTER + timedelta(seconds=1)
    assert started == [work.pk, work.pk]
    sweep_work(at=at)
    work.refresh_from_db()
    assert work.state == "failed"
    assert work.fault == engine.KILLED


def test_what_was_to_be_stopped_when_it_was_killed_is_not_begun_again(people, started, committed):
    work = at_work(people, is_stop_asked=True)
    with committed(execute=True):
        sweep_work(at=LATER)
    work.refresh_from_db()
    assert (work.state, work.fault, started) == ("failed", "It was stopped, as was asked.", [])


@pytest.mark.parametrize("state", ["done", "failed"])
def test_what_is_over_is_never_swept(people, started, state):
    work = at_work(people, state=state)
    sweep_work(at=LATER)
    work.refresh_from_db()
    assert (work.state, work.tries) == (state, 1)


def test_what_was_half_written_a_day_ago_goes(people):
    old, young = half_made() / "old.part", half_made() / "young.part"
    for file in (old, young):
        file.write_bytes(b"%PDF half")
    os.utime(old, (time.time() - 90_000, time.time() - 90_000))
    sweep_work(at=LATER)
    assert list(half_made().iterdir()) == [young]


def done(monkeypatch, by: Callable) -> None:
    """Dossiers are made so."""
    monkeypatch.setattr(engine, "import_string", lambda name: by)


def test_a_process_that_was_thought_dead_has_nothing_to_say_any_more(people, started, committed, monkeypatch):
    work = at_work(people, state="waiting")

    def swept_meanwhile(row, attempt):
        Work.objects.update(heartbeat=NOON)
        sweep_work(at=timezone.now())
        attempt.keep(row.file, b"%PDF late")
        return {"pages": 99}

    done(monkeypatch, swept_meanwhile)
    do_in_turn([work.pk])
    work.refresh_from_db()
    assert (work.state, work.tries) == ("waiting", 2)
    assert work.row.pages is None
    assert not is_there(work.row.file)


def test_nor_has_one_whose_row_is_gone(people, monkeypatch):
    work = at_work(people, state="waiting")

    def deleted_meanwhile(row, attempt):
        row.outfit.delete()
        attempt.keep(row.file, b"%PDF")
        return {}

    done(monkeypatch, deleted_meanwhile)
    do_in_turn([work.pk])
    assert not Work.objects.exists()
    assert names_in("dossiers/") == []


def test_a_second_process_for_the_same_row_does_nothing(people, monkeypatch):
    work = at_work(people)
    done(monkeypatch, lambda row, attempt: pytest.fail("done twice"))
    do_in_turn([work.pk])


def test_whatever_goes_wrong_is_said_in_its_row_and_nothing_is_kept(people, monkeypatch):
    work = at_work(people, state="waiting")

    def fail(row, attempt):
        attempt.keep(row.file, b"%PDF")
        raise KeyError("waist")

    done(monkeypatch, fail)
    do_in_turn([work.pk])
    work.refresh_from_db()
    assert work.state == "failed"
    assert work.fault.startswith("The program met a fault of its own (KeyError). Try once more")
    assert not is_there(work.row.file)


def test_a_full_disk_leaves_no_row_that_says_it_is_done(people, monkeypatch):
    work = at_work(people, state="waiting")

    def full(name, content):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(attempt_module, "put", full)

    def make(row, attempt):
        attempt.keep(row.file, b"%PDF")
        return {"pages": 3}

    done(monkeypatch, make)
    do_in_turn([work.pk])
    work.refresh_from_db()
    assert work.state == "failed"
    assert "ENOSPC" in work.fault
    assert work.row.pages is None


def test_it_tells_how_far_it_is_and_that_what_stands_in_line_is_alive(people, monkeypatch):
    first, second = (at_work(people, state="waiting") for _ in range(2))
    heard = []

    def tell(row, attempt):
        attempt.tell(40, "laying out page 5")
        heard.append(Work.objects.order_by("pk").values_list("state", "progress", "step"))
        heard[-1] = list(heard[-1])
        return {}

    done(monkeypatch, tell)
    do_in_turn([first.pk, second.pk])
    assert heard[0] == [("running", 40, "laying out page 5"), ("waiting", 0, "")]
    second.refresh_from_db()
    assert second.state == "done"
    assert second.heartbeat > NOON


def test_a_whole_line_is_done_by_one_process_in_the_order_of_asking(people, started):
    rows = [make_dossier(make_outfit(people.workroom)) for _ in range(3)]
    start_line(people.workroom.pk)
    assert started == []
    keys = [put_in_line(row, at=NOON).pk for row in rows]
    elsewhere = make_dossier(make_outfit(people.stranger.memberships.get().workroom))
    put_in_line(elsewhere, at=NOON)
    start_line(people.workroom.pk)
    assert started == keys


def test_what_was_asked_anew_is_not_done_by_the_process_of_before(people, started, monkeypatch):
    work = at_work(people, state="waiting")

    def asked_meanwhile(row, attempt):
        ask(row, at=timezone.now())
        Work.objects.update(state="running")
        return {"pages": 99}

    done(monkeypatch, asked_meanwhile)
    do_in_turn([work.pk])
    assert Work.objects.get().state == "running"


def test_only_what_failed_is_tried_again(people, started, committed):
    work = at_work(people)
    with committed(execute=True):
        try_again(work, at=LATER)
    work.refresh_from_db()
    assert (work.state, started) == ("running", [])


def manage(folder: Path, *words: str) -> str:
    line = [sys.executable, str(settings.BASE_DIR / "manage.py"), *words]
    environment = os.environ | {"PLATE_DATA": str(folder)}
    environment.pop("DATABASE_URL", None)
    return subprocess.run(line, env=environment, capture_output=True, text=True, check=True).stdout


SEED = """
from django.utils import timezone
from catalogue.models import Workroom
from catalogue.workroom.work.engine import put_in_line
from fitting.models import Dossier, Outfit
outfit = Outfit.objects.create(workroom=Workroom.objects.create(name='w'), name='o')
for name in ('a.pdf', 'b.pdf'):
    now = timezone.now()
    row = Dossier.objects.create(outfit=outfit, sections=['outfit'], file_name=name, asked_at=now)
    put_in_line(row, at=now)
"""


def test_a_real_process_does_it_by_itself_and_one_that_is_killed_leaves_nothing(
    tmp_path, settings, monkeypatch
):
    settings.DATA_DIR = tmp_path
    monkeypatch.delenv("DATABASE_URL", raising=False)
    databases.lay_in(tmp_path)
    manage(tmp_path, "shell", "-c", SEED)
    start_command("work", "1")
    line = [sys.executable, str(settings.BASE_DIR / "manage.py"), "work", "2"]
    killed = subprocess.Popen(line, env=os.environ | {"PLATE_DATA": str(tmp_path)}, start_new_session=True)
    time.sleep(0.5)
    os.killpg(killed.pid, signal.SIGKILL)
    killed.wait()
    patience = time.monotonic() + 60
    while not is_there("dossiers/a.pdf") and time.monotonic() < patience:
        time.sleep(0.1)
    assert names_in("dossiers/") == ["dossiers/a.pdf"]
