"""What waited, ran, was done or failed before there was one model of long work is known by it."""

from importlib import import_module
from types import SimpleNamespace

import pytest
from django.apps import apps

from catalogue.tracing.imaging import read_tile
from catalogue.workroom.files import names_in, open_file
from catalogue.workroom.work.models import Work
from fitting.dossier.models import Dossier
from tests.makers.kept_work import make_lay
from tests.makers.rows import NOON, make_bodice_plate, make_dossier, make_garment, make_outfit, make_scan

scans = import_module("catalogue.migrations.0022_fill_long_work_and_pack_tiles")
dossiers = import_module("fitting.migrations.0020_fill_long_work_and_move_dossiers")


class AsTheyWere:
    """The models of that time, with these rows: their states stood in columns that are gone since."""

    def __init__(self, rows):
        self.rows = rows

    def get_model(self, app, name):
        of_model = [row for row in self.rows if row._meta.model_name == name]
        if not of_model:
            return apps.get_model(app, name)
        found = SimpleNamespace(iterator=lambda: iter(of_model))
        return SimpleNamespace(objects=SimpleNamespace(select_related=lambda path: found))


WAS_AT_WORK = "The program was brought up to date while it was at work. Try again."


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (("done", ""), ("done", "")),
        (("failed", "Pango is missing."), ("failed", "Pango is missing.")),
        (("waiting", ""), ("failed", WAS_AT_WORK)),
        (("running", ""), ("failed", WAS_AT_WORK)),
    ],
)
def test_each_row_is_as_far_as_it_was_but_for_what_was_at_work(people, data_folder, before, after):
    outfit = make_outfit(people.workroom)
    rows = [
        make_dossier(outfit),
        make_lay(make_garment(outfit)),
        *make_scan(make_bodice_plate(people.workroom)),
    ]
    Work.objects.all().delete()
    for row in rows:
        row.state, row.fault, row.heartbeat, row.progress = *before, NOON, 0
    scans.fill(AsTheyWere(rows), None)
    dossiers.fill(AsTheyWere(rows), None)
    assert Work.objects.count() == 4
    for row in rows:
        assert (row.work.state, row.work.fault) == after
        assert row.work.workroom == people.workroom


def test_dossiers_lie_with_all_other_files_and_half_a_one_stays_behind(people, data_folder):
    folder = data_folder / "dossiers"
    folder.mkdir()
    (folder / "a.pdf").write_bytes(b"%PDF")
    (folder / "b.pdf.part").write_bytes(b"%P")
    for _ in range(2):
        dossiers.move_dossiers(data_folder)
    assert names_in("dossiers/") == ["dossiers/a.pdf"]
    assert Dossier(file_name="a.pdf").file == "dossiers/a.pdf"


def tile(level: int, column: int, row: int) -> bytes:
    return f"tile {level}-{column}-{row}".encode()


# 1300 by 901 are 3 by 2 squares of 512; halved, 2 by 1; halved again, 1.
PLACES = [(2, c, r) for c in range(3) for r in range(2)] + [(1, 0, 0), (1, 1, 0), (0, 0, 0)]


@pytest.fixture
def folder(data_folder):
    folder = data_folder / "files" / "scans" / "one" / "0"
    folder.mkdir(parents=True)
    for place in PLACES:
        (folder / "{}-{}-{}.jpg".format(*place)).write_bytes(tile(*place))
    return folder


def test_tiles_that_were_files_of_their_own_are_read_out_of_one(folder):
    for _ in range(2):
        scans.pack(folder, 1300, 901)
    assert names_in("scans/one/") == ["scans/one/0.tiles"]
    with open_file("scans/one/0.tiles") as opened:
        for place in PLACES:
            assert read_tile(opened, (1300, 901), *place) == tile(*place)


def test_where_a_tile_is_missing_all_are_left_as_they_are(folder):
    (folder / "1-1-0.jpg").unlink()
    scans.pack(folder, 1300, 901)
    assert len(names_in("scans/one/")) == len(PLACES) - 1
