"""Scans, their calibrations and what was traced go out with the catalogue and come in again."""

import io
import json
import tracemalloc
from uuid import uuid4

import pytest

from catalogue.lengths.calculation.errors import Faults
from catalogue.plates.models.piece import Seam
from catalogue.tracing.models import Calibration, PlateScan, TracedLevel, TracedPiece, TracedReading
from catalogue.workroom.archive import taking
from catalogue.workroom.archive.packing import CATALOGUE, write_archive
from catalogue.workroom.files import is_there, names_in, open_file, put, remove
from catalogue.workroom.work.engine import do_in_turn
from catalogue.workroom.work.models import Work
from tests.makers.long_work import make_work
from tests.makers.packing import document, files_in, repacked, take, taken_out, with_document
from tests.makers.rows import NOON
from tests.makers.traced_plate import scan_file

TRACED = (PlateScan, Calibration, TracedPiece, TracedLevel, TracedReading)


def of(workroom, model):
    return model.objects.of_workroom(workroom)


def content(name: str) -> bytes:
    with open_file(name) as opened:
        return opened.read()


def plates_of(said):
    return [plate for reference in said["references"] for plate in reference["plates"]]


def as_version_1(file):
    """The archive as it was written before scans were in it."""
    said = document(file)
    said["version"] = 1
    for plate in plates_of(said):
        del plate["scan"], plate["traced_levels"]
        for piece in plate["pieces"]:
            del piece["traced"], piece["traced_readings"]
    return with_document(file, said)


def test_the_scan_comes_as_the_file_that_was_sent_in_a_folder_of_its_own(workroom, empty):
    take(empty, taken_out(workroom))
    here, there = (of(room, PlateScan).get() for room in (workroom, empty))
    assert content(there.original) == content(here.original) == scan_file()
    assert there.folder != here.folder
    assert there.grid == here.grid


def test_its_tiles_are_cut_by_one_process_in_the_order_of_need(
    workroom, empty, started, django_capture_on_commit_callbacks
):
    file = taken_out(workroom)
    with django_capture_on_commit_callbacks(execute=True):
        take(empty, file)
    scan = of(empty, PlateScan).get()
    in_order = [scan, *scan.calibrations.order_by("number")]
    assert started == [tiled.work.pk for tiled in in_order]
    do_in_turn(started)
    scan.refresh_from_db()
    assert scan.size == (120, 90)
    for tiled in in_order:
        assert tiled.is_ready, tiled.work.fault
        assert is_there(tiled.tiles)
    assert document(taken_out(empty)) == document(file)


def test_a_second_time_nothing_is_written_again(workroom, empty):
    file = taken_out(workroom)
    take(empty, file)
    before = {model: list(of(empty, model).values()) for model in TRACED}
    taken = take(empty, file, overwrite=True)
    assert not taken.differing
    assert {model: list(of(empty, model).values()) for model in TRACED} == before


def test_trying_leaves_no_file_behind(workroom, empty, data_folder):
    file, files = taken_out(workroom), files_in(data_folder)
    taken = take(empty, file, only_try=True)
    assert (taken.added["photographs"], taken.added["scans"]) == (1, 1)
    assert files_in(data_folder) == files
    assert not any(of(empty, model).exists() for model in TRACED)


def test_an_archive_from_before_scans_were_in_it_comes_in(workroom, empty):
    taken = take(empty, as_version_1(taken_out(workroom)))
    assert taken.added["reference garments"] == 2
    assert not any(of(empty, model).exists() for model in TRACED)


def test_an_archive_that_holds_no_scan_takes_none_away(workroom):
    file = taken_out(workroom)
    before = {model: list(of(workroom, model).values()) for model in TRACED}
    take(workroom, as_version_1(file), overwrite=True)
    assert {model: list(of(workroom, model).values()) for model in TRACED} == before
    seams = list(Seam.objects.of_workroom(workroom))
    # Of version 1 a seam has the key that follows from its edges.
    assert [seam.edge_a for seam in seams] == ["side"]
    Seam.objects.update(key=plates_of(document(file))[0]["seams"][0]["key"])
    assert document(taken_out(workroom)) == document(file)


def test_another_scan_takes_the_place_of_the_one_here_with_all_that_was_traced(
    workroom, empty, django_capture_on_commit_callbacks
):
    file = taken_out(workroom)
    take(empty, file)
    old = of(empty, PlateScan).get()
    put(old.original, scan_file("navy"))
    back = of(empty, TracedPiece).get().piece.plate.pieces.get(name="back")
    TracedPiece.objects.create(piece=back, nodes=[])
    with django_capture_on_commit_callbacks(execute=True):
        take(empty, file, overwrite=True)
    new = of(empty, PlateScan).get()
    assert new.stem != old.stem
    assert names_in(old.folder) == []
    assert of(empty, TracedPiece).get().piece.name == "front"
    assert document(taken_out(empty)) == document(file)


def test_a_calibration_that_says_otherwise_is_cut_again_and_a_later_one_stays(workroom, empty):
    file = taken_out(workroom)
    take(empty, file)
    Work.objects.update(state=Work.State.DONE)
    second = of(empty, Calibration).get(number=2)
    make_work(Calibration.objects.create(**{**_columns(second), "number": 3, "key": uuid4()}))
    of(empty, Calibration).filter(number=1).update(mm_per_px=9.5)
    take(empty, file, overwrite=True)
    states = {one.number: one.work.state for one in of(empty, Calibration)}
    assert states == {1: Work.State.WAITING, 2: Work.State.DONE, 3: Work.State.DONE}


def _columns(row):
    return {field.name: getattr(row, field.name) for field in row._meta.fields if field.name != "id"}


def test_a_scan_whose_file_is_missing_is_left_out_with_its_tracing_and_named(workroom):
    scan = of(workroom, PlateScan).get()
    remove(scan.original)
    written = write_archive(workroom, file := io.BytesIO(), at=NOON, personal=True)
    assert written.left_out == ["Left out, its file is missing: scan of Plate 3 of back-laced bodice."]
    plate = plates_of(document(file))[0]
    assert (plate["scan"], plate["traced_levels"]) == (None, [])
    assert [piece["traced"] for piece in plate["pieces"]] == [None, None]
    # What was measured stays: a reading that it stands in for is still there.
    assert plate["pieces"][0]["traced_readings"]


def test_a_scan_that_is_no_picture_is_a_fault_and_nothing_stays(workroom, empty, data_folder):
    put(of(workroom, PlateScan).get().original, b"not a picture")
    file, files = taken_out(workroom), files_in(data_folder)
    with pytest.raises(Faults, match=r"references\[\d+\], scans/.*: This file is not a whole JPEG"):
        take(empty, file)
    assert files_in(data_folder) == files
    assert not of(empty, PlateScan).exists()


def test_whatever_fails_later_the_files_that_were_stored_go_again(workroom, empty, data_folder, monkeypatch):
    file, files = taken_out(workroom), files_in(data_folder / "files")
    monkeypatch.setattr(taking, "file_references", lambda keys: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        take(empty, file)
    assert files_in(data_folder / "files") == files


def test_a_changed_scan_is_refused_by_its_checksum(workroom, empty):
    def change(contents):
        name = next(name for name in contents if name.startswith("scans/"))
        contents[name] += b"."

    with pytest.raises(Faults, match="Its checksum is another"):
        take(empty, repacked(taken_out(workroom), change))


def test_a_large_scan_goes_out_and_in_without_being_held_in_memory(workroom, empty, tmp_path):
    put(of(workroom, PlateScan).get().original, scan_file() + bytes(48 * 1024 * 1024))
    path = tmp_path / "archive.zip"
    tracemalloc.start()
    try:
        with path.open("w+b") as file:
            write_archive(workroom, file, at=NOON, personal=True)
            take(empty, file)
        _, most = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert path.stat().st_size > 48 * 1024 * 1024
    # zipfile itself goes to the end of a file in steps of 16 MB.
    assert most < 24 * 1024 * 1024


def test_the_catalogue_is_plain_json_of_the_version_that_it_says(workroom):
    file = taken_out(workroom)
    of_the_catalogue = ["sources", "references", "relations", "saved_filters"]
    of_outfits = ["wearers", "stands", "patterns_in_hand", "outfits", "alterations"]
    assert list(document(file)) == ["format", "version", *of_the_catalogue, *of_outfits]
    with_document(file, json.loads(json.dumps(document(file))))
    assert document(file)["version"] == 3
    assert CATALOGUE == "catalogue.json"
