"""A workroom's catalogue as one file: out, in, and out again it says the same."""

import io

import pytest

from catalogue.photographs.models import Photo
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import ReferenceGarment
from catalogue.workroom.archive.packing import write_archive
from catalogue.workroom.files import is_there, open_file
from tests.makers.packing import document, files_in, rows_of, take, taken_out, with_document
from tests.makers.rows import NOON, make_reference


def test_out_into_an_empty_workroom_and_out_again_says_the_same(workroom, empty):
    first = taken_out(workroom)
    take(empty, first)
    assert document(taken_out(empty)) == document(first)


def test_what_came_in_is_found_by_its_words_and_its_full_size(workroom, empty):
    take(empty, taken_out(workroom))
    reference = empty.references.get(name="back-laced bodice")
    assert "linen" in reference.index_card.materials
    assert {measure.line for measure in reference.full_size_measures.all()} == {"waist", "bust"}


def test_a_second_time_nothing_is_there_twice(workroom, empty):
    file = taken_out(workroom)
    take(empty, file)
    before = rows_of(empty)
    taken = take(empty, file)
    assert rows_of(empty) == before
    assert not taken.added
    assert taken.same["reference garments"] == 2


def test_it_goes_in_beside_what_is_there_already(workroom, empty):
    make_reference(empty, name="own")
    take(empty, taken_out(workroom))
    assert empty.references.count() == 3


def test_trying_says_what_would_be_done_and_leaves_nothing(workroom, empty, data_folder):
    file, files = taken_out(workroom), files_in(data_folder)
    taken = take(empty, file, only_try=True)
    assert taken.added["reference garments"] == 2
    assert not any(rows_of(empty).values())
    assert files_in(data_folder) == files


@pytest.mark.parametrize(("overwrite", "name"), [(False, "changed here"), (True, "back-laced bodice")])
def test_where_both_differ_the_keeper_has_said_which_is_right(workroom, overwrite, name):
    file = taken_out(workroom)
    ReferenceGarment.objects.filter(name="back-laced bodice").update(name="changed here")
    taken = take(workroom, file, overwrite=overwrite)
    assert taken.differing == ["back-laced bodice"]
    assert workroom.references.filter(name=name).exists()
    assert (document(taken_out(workroom)) == document(file)) is overwrite


def test_overwriting_deletes_nothing_that_is_only_here(workroom):
    file = taken_out(workroom)
    reference = workroom.references.get(name="back-laced bodice")
    reference.plates.create(title="Another plate", allowance="none")
    take(workroom, file, overwrite=True)
    assert reference.plates.count() == 2


def content(name: str) -> bytes:
    with open_file(name) as opened:
        return opened.read()


def test_a_photograph_comes_as_the_file_that_was_sent(workroom, empty):
    take(empty, taken_out(workroom))
    here, there = (Photo.objects.of_workroom(room).get() for room in (workroom, empty))
    assert content(there.best_file()) == content(here.best_file())
    assert is_there(there.file(960))
    assert there.stem != here.stem


def test_a_photograph_whose_file_is_missing_is_left_out_and_named(workroom, data_folder):
    photo = Photo.objects.get()
    for path in data_folder.rglob(f"*{photo.stem}*"):
        path.unlink()
    written = write_archive(workroom, file := io.BytesIO(), at=NOON, personal=True)
    assert written.left_out == [f"Left out, its file is missing: {photo} of back-laced bodice."]
    plates = [plate for reference in document(file)["references"] for plate in reference["plates"]]
    assert plates[0]["picture"] is None


def test_an_archive_of_before_proportional_drafts_holds_diagrams(workroom, empty):
    file = taken_out(workroom)
    said = document(file)
    for reference in said["references"]:
        for plate in reference["plates"]:
            for name in ("kind", "drawn_for_line", "drawn_for_half", "drawn_for"):
                del plate[name]
    take(empty, with_document(file, said))
    assert [plate.is_draft for plate in Plate.objects.of_workroom(empty)] == [False]
