"""Whoever is erased takes along the archives of the workroom that lie ready: they may hold them."""

import io

from django.utils import timezone

from catalogue.workroom.archive.actions import ask_for_export, ask_for_import
from catalogue.workroom.files import is_there, put, sweep_files
from fitting.bench import actions
from tests.makers.rows import make_wearer

NAME = "Quirina Vossen"


def test_archives_that_were_taken_out_or_sent_may_hold_them_and_go(people, data_folder):
    wearer = make_wearer(people.workroom, name=NAME)
    asked = {"by": people.keeper, "at": timezone.now()}
    export = ask_for_export(people.workroom, personal=True, **asked)
    put(export.file, f"PK {NAME}".encode())
    brought = ask_for_import(people.workroom, io.BytesIO(f"PK {NAME}".encode()), overwrite=False, **asked)
    actions.erase_wearer(wearer)
    sweep_files()
    assert not is_there(export.file)
    assert not is_there(brought.file)
