"""Long work that is done in one transaction: nobody can hear what is told within it."""

import os
from datetime import timedelta

from django.utils import timezone

from catalogue.workroom.files import half_made
from catalogue.workroom.work import engine
from catalogue.workroom.work.attempt import listen
from catalogue.workroom.work.engine import do_in_turn, sweep_work
from catalogue.workroom.work.models import SILENT_AFTER, Work
from fitting.dossier.models import Dossier
from tests.makers.rows import NOON, make_dossier, make_outfit

LATER = NOON + SILENT_AFTER + timedelta(seconds=1)


def dossier_at_work(people, **given) -> Work:
    """Its process fell silent, as of LATER."""
    return make_dossier(make_outfit(people.workroom), {"state": "running", "heartbeat": NOON, **given}).work


def test_what_is_told_within_a_transaction_is_heard_beside_it_and_is_not_taken_for_dead(people, monkeypatch):
    work, heard = dossier_at_work(people, state="waiting"), []

    def make(row, attempt):
        # Within a transaction its sign of life is as old as that is.
        Work.objects.update(heartbeat=NOON)
        attempt.tell_inside(70, "the rows are entered")
        sweep_work(at=timezone.now())
        told = listen(Work.objects.get(), at=timezone.now())
        heard.append((told.progress, told.step, told.is_inside, told.tries))
        return lambda: {"pages": 7}

    monkeypatch.setattr(engine, "import_string", lambda name: make)
    do_in_turn([work.pk])
    assert heard == [(70, "the rows are entered", True, 1)]
    assert not list(half_made().iterdir())
    assert Dossier.objects.get().pages == 7


def test_one_that_was_killed_within_its_transaction_is_done_again(
    people, started, django_capture_on_commit_callbacks
):
    work = dossier_at_work(people)
    told = half_made() / f"work {work.pk}.json"
    told.write_text('[70, "the rows are entered"]')
    os.utime(told, (LATER.timestamp() - 61, LATER.timestamp() - 61))
    assert not listen(work, at=LATER).is_inside
    with django_capture_on_commit_callbacks(execute=True):
        sweep_work(at=LATER)
    assert started == [work.pk]
