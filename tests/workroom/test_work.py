"""Long work of every kind as its pages show it: asked for, stopped, not begun, tried again."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import models
from django.urls import reverse
from django.utils import timezone

from catalogue.tracing.actions.scan import calibrate, keep_scan
from catalogue.tracing.calculation.calibration import by_bar
from catalogue.workroom.archive.actions import ask_for_export, ask_for_import
from catalogue.workroom.files import names_in, put
from catalogue.workroom.models import Member
from catalogue.workroom.work import engine
from catalogue.workroom.work.engine import do_in_turn
from catalogue.workroom.work.models import WorkedModel
from fitting.dossier.actions import ask_for_dossier
from fitting.laying.actions import ask_for_lay
from tests.makers.kept_work import make_request
from tests.makers.packing import taken_out
from tests.makers.rows import NOON, make_bodice_plate, make_dossier, make_garment, make_outfit, make_scan
from tests.makers.traced_plate import scan_file


def ask_for_scan(people) -> WorkedModel:
    plate = make_bodice_plate(people.workroom)
    file = SimpleUploadedFile("plate.png", scan_file())
    return keep_scan(plate=plate, file=file, is_photograph=False, at=timezone.now())


def ask_for_calibration(people) -> WorkedModel:
    scan, _ = make_scan(make_bodice_plate(people.workroom))
    found = by_bar(0j, 100 + 0j, real_mm=100, size=scan.size, is_photograph=False)
    return calibrate(scan=scan, way="bar", found=found, given={}, by=people.maker, at=timezone.now())


def ask_for_printing(people) -> WorkedModel:
    wish = {"sections": ["outfit"], "paper": "A4", "system": "in"}
    outfit = make_outfit(people.workroom)
    return ask_for_dossier(outfit, **wish, by=people.maker, at=timezone.now())


def ask_for_laying(people) -> WorkedModel:
    garment = make_garment(make_outfit(people.workroom), plate=make_bodice_plate(people.workroom))
    return ask_for_lay(garment, cloth="outer", request=make_request(), by=people.maker, at=timezone.now())


def ask_for_archive(people) -> WorkedModel:
    return ask_for_export(people.workroom, personal=False, by=people.keeper, at=timezone.now())


def send_archive(people) -> WorkedModel:
    sent = {"overwrite": False, "by": people.keeper, "at": timezone.now()}
    return ask_for_import(people.workroom, taken_out(people.workroom), **sent)


ASKED = {
    "scan": ask_for_scan,
    "calibration": ask_for_calibration,
    "dossier": ask_for_printing,
    "lay": ask_for_laying,
    "export": ask_for_archive,
    "import": send_archive,
}
every_kind = pytest.mark.parametrize("asked_for", ASKED.values(), ids=ASKED)


def models_worked_for() -> set[type[models.Model]]:
    from django.apps import apps

    return {model for model in apps.get_models() if issubclass(model, WorkedModel)}


@pytest.fixture
def maker(client, people):
    """A maker who keeps the workroom too, since archives are for keepers alone."""
    people.workroom.members.filter(user=people.maker).update(role=Member.Role.KEEPER)
    client.force_login(people.maker)
    return client


@pytest.fixture
def committed(django_capture_on_commit_callbacks):
    return django_capture_on_commit_callbacks


def page_of(maker, row: WorkedModel) -> str:
    answer = maker.get(row.get_absolute_url())
    assert answer.status_code == 200
    return " ".join(answer.content.decode().split())


def test_every_kind_of_row_that_waits_is_asked_for_below(people, started):
    assert {type(asked_for(people)) for asked_for in ASKED.values()} == models_worked_for()


@every_kind
def test_asking_starts_one_process_and_its_page_looks_again_by_itself(
    maker, people, started, committed, asked_for
):
    with committed(execute=True):
        row = asked_for(people)
    assert started == [row.work.pk]
    answer = maker.get(row.get_absolute_url())
    assert answer["Refresh"] == "1"
    assert "no-store" in answer["Cache-Control"]
    page = " ".join(answer.content.decode().split())
    assert "About to begin. 0 % done." in page
    assert f'aria-label="{row.long_work.how_much}"' in page


@every_kind
@pytest.mark.parametrize(
    ("refused", "said"),
    [
        (OSError(11, "Resource temporarily unavailable"), "Resource temporarily unavailable"),
        (RuntimeError("can't start new thread"), "can&#x27;t start new thread"),
    ],
)
def test_where_no_process_can_be_started_the_page_says_so_and_it_can_be_tried_again(
    maker, people, monkeypatch, committed, asked_for, refused, said
):
    def refuse(*words: str) -> None:
        raise refused

    monkeypatch.setattr(engine, "start_command", refuse)
    with committed(execute=True):
        row = asked_for(people)
    answer = maker.get(row.get_absolute_url())
    assert "Refresh" not in answer
    page = " ".join(answer.content.decode().split())
    assert f"The process that does it could not be started: {said}. Try again when" in page
    started: list[str] = []
    monkeypatch.setattr(engine, "start_command", lambda _, key: started.append(key))
    with committed(execute=True):
        again = maker.post(reverse("work-again", args=[row.work.pk]))
    assert again.url == row.get_absolute_url()
    assert started == [str(row.work.pk)]
    assert maker.get(row.get_absolute_url())["Refresh"] == "1"


@every_kind
def test_what_is_asked_to_stop_is_not_begun_and_what_has_a_best_keeps_it(
    maker, people, started, committed, asked_for
):
    with committed(execute=True):
        row = asked_for(people)
    if hasattr(row, "scan"):
        put(row.scan.original, scan_file())
    stopped = maker.post(reverse("work-stop", args=[row.work.pk]))
    assert stopped.url == row.get_absolute_url()
    page = page_of(maker, row)
    assert "Being stopped. 0 % done." in page
    assert row.long_work.when_stopped in page
    do_in_turn(started)
    page = page_of(maker, row)
    if row.long_work.keeps_best:
        assert row.work.is_done
    else:
        assert "It was stopped, as was asked." in page
        assert "Try again" in page
    kept = names_in("scans/") + names_in("dossiers/") + names_in("exports/")
    assert not any(name.endswith((".tiles", ".pdf", ".zip")) for name in kept)


def test_a_reader_sees_how_far_it_is_and_has_no_button(client, people, started):
    scan = ask_for_scan(people)
    client.force_login(people.reader)
    page = page_of(client, scan)
    assert "0 % done" in page
    assert "work-" not in page
    assert f"/work/{scan.work.pk}/" not in page


def test_whoever_looks_at_the_page_sweeps(maker, people, started, committed):
    silent = {"state": "running", "heartbeat": NOON}
    work = make_dossier(make_outfit(people.workroom), silent).work
    with committed(execute=True):
        answer = maker.get(work.row.get_absolute_url())
    assert started == [work.pk]
    assert answer["Refresh"] == "1"
    assert "About to begin" in answer.content.decode()
