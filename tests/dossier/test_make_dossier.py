"""A dossier is made whole, with what its row says of it; what it cannot be made for is said."""

import hashlib
from datetime import timedelta

import pytest
from django.utils import timezone
from pypdf import PdfReader

from catalogue.workroom.files import is_there, names_in, open_file
from catalogue.workroom.work import attempt
from catalogue.workroom.work.engine import do_in_turn, try_again
from fitting.dossier import actions
from fitting.dossier.actions import ask_for_dossier
from fitting.dossier.models import Dossier
from fitting.dossier.showing.document import PdfNotPossible, PrintedDossier
from tests.makers.rows import NOON, make_garment, make_outfit


@pytest.fixture
def waiting(people) -> Dossier:
    outfit = make_outfit(people.workroom)
    make_garment(outfit)
    given = {"sections": ["garments", "outfit"], "paper": "A4", "system": "in"}
    return ask_for_dossier(outfit, **given, by=people.maker, at=NOON)


def make(dossier: Dossier) -> None:
    do_in_turn([dossier.work.pk])
    dossier.refresh_from_db()


def test_asking_keeps_the_choice_as_ordered(waiting):
    assert waiting.sections == ["garments", "outfit"]
    assert waiting.work.is_unfinished


def test_it_is_made_whole(waiting):
    make(waiting)
    assert (waiting.work.state, waiting.work.progress, waiting.work.fault) == ("done", 100, "")
    assert waiting.pages == 3
    with open_file(waiting.file) as pdf:
        assert pdf.read(8) == b"%PDF-1.7"
    assert names_in("dossiers/") == [waiting.file]


def test_its_row_tells_the_files_checksum_and_the_figures_it_was_printed_from(waiting):
    make(waiting)
    with open_file(waiting.file) as pdf:
        assert waiting.sha256 == hashlib.sha256(pdf.read()).hexdigest()
        words = PdfReader(pdf).pages[0].extract_text()
    (garment,) = waiting.snapshot["garments"].values()
    assert (garment["name"], garment["stage"]) == ("bodice", "studied")
    assert f"mark {waiting.mark}" in words


def test_it_tells_how_far_the_printing_is(waiting, monkeypatch):
    heard = []

    def printing(values, *, told):
        told(40, "laying out page 5")
        work = waiting.work
        heard.append((work.state, work.progress, work.step))
        return PrintedDossier(pdf=b"%PDF", pages=1)

    monkeypatch.setattr(actions, "print_dossier", printing)
    monkeypatch.setattr(attempt, "TOLD_EVERY", timedelta(0))
    make(waiting)
    assert heard == [("running", 40, "laying out page 5")]


def test_what_keeps_a_pdf_from_being_made_is_said_and_nothing_is_kept(waiting, monkeypatch):
    def failing(values, told):
        raise PdfNotPossible("Pango is missing.")

    monkeypatch.setattr(actions, "print_dossier", failing)
    make(waiting)
    assert (waiting.work.state, waiting.work.fault) == ("failed", "Pango is missing.")
    assert not is_there(waiting.file)


def test_tried_again_it_is_of_the_same_parts_and_of_the_day_on_which_it_is_tried(waiting, monkeypatch):
    waiting.works.update(state="failed")
    later = timezone.now()
    try_again(waiting.work, at=later)
    make(waiting)
    assert waiting.work.is_done
    assert (waiting.sections, waiting.asked_at) == (["garments", "outfit"], later)
    with open_file(waiting.file) as pdf:
        assert f"{later:%-d %B %Y}" in PdfReader(pdf).pages[0].extract_text()


def test_its_file_goes_with_its_row_and_with_its_outfit(waiting, django_capture_on_commit_callbacks):
    make(waiting)
    with django_capture_on_commit_callbacks(execute=True):
        waiting.outfit.delete()
    assert not is_there(waiting.file)
