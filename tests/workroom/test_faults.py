"""A fault leaves a trace by which it can be found, and none of what people typed."""

import io
import logging
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from django.conf import settings
from django.test import Client

from catalogue.workroom import faults, process
from catalogue.workroom.work.engine import do_in_turn
from fitting.dossier import actions
from fitting.wearers.views import measures
from tests.makers.rows import make_dossier, make_outfit, make_wearer

MEASURE = "987.25 mm"
NUMBER = re.compile(r"\d{4}-\d{4}(?!-)")  # and no part of a date


@pytest.fixture
def terminal(monkeypatch) -> io.StringIO:
    """What the server says on its terminal."""
    said = io.StringIO()
    (handler,) = (one for one in logging.getLogger().handlers if type(one) is logging.StreamHandler)
    monkeypatch.setattr(handler, "stream", said)
    return said


@pytest.fixture
def log(data_folder) -> Path:
    return data_folder / "faults.log"


@pytest.fixture
def send_measure(people, monkeypatch):
    """Send a measure to a page that fails over it."""

    def failing(request, *rest):
        try:
            float(request.POST["waist"])
        except ValueError as fault:
            raise LookupError(request.POST["waist"]) from fault

    monkeypatch.setattr(measures, "_type_measures", failing)
    client = Client(raise_request_exception=False)
    client.force_login(people.maker)
    path = f"/wearers/{make_wearer(people.workroom, pk=41).pk}/measures/add/?waist=987.25+mm"
    return lambda: client.post(path, {"waist": MEASURE})


def test_page_terminal_and_file_give_one_number_and_where_it_was(send_measure, terminal, log, people):
    answer = send_measure()
    assert answer.status_code == 500
    number = NUMBER.search(answer.text)[0]
    member = people.maker.memberships.get()
    kept = log.read_text()
    assert f"fault {number}, POST measures-add 41, member {member.pk}\n  LookupError\n" in kept
    assert re.search(r"  from ValueError\n    \S+test_faults.py:\d+ .*failing\n", kept)
    assert terminal.getvalue() == kept


def test_what_was_typed_is_nowhere_in_the_trace(send_measure, terminal, log):
    send_measure()
    told = (log.read_text() + terminal.getvalue()).replace("\n", "")
    # Not by three of its figures alone: a clock may show them.
    assert "987.25" not in told
    assert "waist" not in told


def test_each_fault_has_a_number_of_its_own(send_measure, terminal, log):
    numbers = {NUMBER.search(send_measure().text)[0] for _ in range(3)}
    assert len(numbers) == 3
    assert set(re.findall(r"fault (\S+),", log.read_text())) == numbers


def test_the_file_is_put_aside_when_it_is_full(send_measure, terminal, log, monkeypatch):
    (handler,) = (one for one in logging.getLogger().handlers if isinstance(one, faults.FaultFile))
    monkeypatch.setattr(handler, "maxBytes", 1)
    numbers = [NUMBER.search(send_measure().text)[0] for _ in range(faults.FILES_KEPT + 3)]
    kept = sorted(log.parent.glob("faults.log*"))
    assert len(kept) == 1 + faults.FILES_KEPT
    assert [re.search(r"fault (\S+),", one.read_text())[1] for one in kept] == numbers[:1:-1]


def test_an_answer_goes_out_where_nothing_can_be_written(send_measure, terminal, settings, capsys):
    settings.DATA_DIR = settings.DATA_DIR / "gone"
    answer = send_measure()
    assert answer.status_code == 500
    assert f"fault {NUMBER.search(answer.text)[0]}" in terminal.getvalue()
    assert "could not be kept: FileNotFoundError ENOENT" in capsys.readouterr().err


def test_a_row_in_long_work_names_the_trace(people, terminal, log, monkeypatch):
    def failing(values, told):
        raise OSError(28, f"No space for {MEASURE}")

    monkeypatch.setattr(actions, "print_dossier", failing)
    work = make_dossier(make_outfit(people.workroom), {"state": "waiting"}, file_name="a.pdf").work
    do_in_turn([work.pk])
    work.refresh_from_db()
    kept = log.read_text()
    assert f"fault {NUMBER.search(work.fault)[0]}, " in kept
    assert "  OSError ENOSPC\n" in kept
    assert "No space" not in kept + work.fault


def test_a_process_that_was_killed_leaves_a_trace(terminal, log):
    killed = subprocess.Popen([sys.executable, "-c", "import os; os.kill(os.getpid(), 9)"])
    process._see_off(killed, "work")
    assert log.read_text().endswith("  the process of work ended with -9\n")


def test_who_asks_in_a_wrong_way_has_met_no_fault(client, terminal, log):
    assert client.get("/sign-in/", headers={"host": "elsewhere.example"}).status_code == 400
    assert not log.exists()
    assert terminal.getvalue() == ""


def test_a_command_that_fails_says_all_to_whoever_typed_it_and_keeps_a_trace(tmp_path):
    surroundings = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    command = [sys.executable, settings.BASE_DIR / "manage.py", "keeper", "odile"]
    # In a folder whose database has no tables yet.
    run = subprocess.run(
        command, env=surroundings | {"PLATE_DATA": str(tmp_path)}, capture_output=True, text=True, check=False
    )
    assert run.returncode == 1
    number = re.search(r"^Fault (\S+), see .*faults.log$", run.stderr, re.MULTILINE)[1]
    assert "no such table: catalogue_user" in run.stderr
    kept = (tmp_path / "faults.log").read_text()
    assert f"fault {number}, manage.py keeper\n  django.db.utils.OperationalError\n" in kept
    assert "  from sqlite3.OperationalError SQLITE_ERROR\n" in kept
    assert "odile" not in kept
    assert "catalogue_user" not in kept
