"""What is wrong with an archive is all said, with its place, and nothing of it is taken."""

import hashlib
import io
import json

import pytest

from catalogue.lengths.calculation.errors import Faults
from catalogue.workroom.archive.packing import CATALOGUE, MANIFEST
from tests.makers.packing import broken, document, files_in, repacked, rows_of, take, taken_out, with_document

PLATE = ["references", 0, "plates", 0]
PIECE = [*PLATE, "pieces", 0]
SCAN = [*PLATE, "scan"]


@pytest.mark.parametrize(
    ("place", "value", "fault"),
    [
        (["sources", 0, "kind"], "podcast", "sources[0].kind: Value 'podcast' is not a valid choice."),
        (["sources", 0, "title"], "", "sources[0].title: This field cannot be blank."),
        (["sources", 0, "title"], 7, "sources[0].title: This must be text in quotes; 7 is not."),
        (["sources", 0, "title"], "a\x00b", "sources[0].title: This holds a null character, which no"),
        (["sources", 0, "title"], "\ud800", "sources[0].title: This holds half a character."),
        (["sources", 0, "key"], "x", "sources[0].key: This is no key: 32 hexadecimal digits."),
        (["sources", 0, "colour"], "red", "sources[0].colour: This key is not known here."),
        (["references", 0, "tags"], ["a", ""], "references[0].tags[1]: A tag has from 1 to 60 characters."),
        (["references", 0, "citations", 0, "source"], "0" * 32,
         "references[0].citations[0].source: No such row among the sources before it."),
        (["references", 0, "citations", 0, "source"], None, "citations[0].source: This is missing."),
        ([*PLATE, "rule"], "0 in", "This must be more than nothing: it is what the readings were taken"),
        ([*PLATE, "ratio"], "1:0", "references[0].plates[0].ratio: “1:0” has a zero"),
        ([*PLATE, "picture"], "0" * 32, "references[0].plates[0].picture: No such row among the photos"),
        ([*PLATE, "drawn_for"], None, "drawn_for: This must be more than nothing: a proportional draft"),
        ([*PLATE, "drawn_for_line"], "", "drawn_for_line: A proportional draft says which measure"),
        ([*PLATE, "drawn_for_line"], "hem", "drawn_for_line: Value 'hem' is not a valid"),
        ([*PLATE, "drawn_for_line"], "height", "drawn_for_half: Only a girth is halved."),
        ([*PIECE, "cut"], 0, "references[0].plates[0].pieces[0].cut: A piece is cut from once to 60 times."),
        ([*PIECE, "cut"], True, "pieces[0].cut: This must be a whole number; true is not."),
        ([*PIECE, "readings", 0, "reading"], "26–28 in", "pieces[0].readings[0].reading: "),
        ([*PIECE, "readings", 0, "line"], "tail", "pieces[0].readings[0].line: Value 'tail' is not a valid"),
        ([*PIECE, "readings", 1, "line"], "waist", "readings: The same stands there twice: waist."),
        (["relations", 0, "other"], None, "relations[0].other: This is missing."),
        ([*SCAN, "file"], "photographs/x", "plates[0].scan.file: No such file is among the scans"),
        ([*PLATE, "scan"], None, "Pieces or levels of this plate are traced, and it has no scan."),
        ([*SCAN, "calibrations", 1, "number"], 1, "scan.calibrations: The same stands there twice: 1."),
        ([*SCAN, "calibrations", 0, "matrix"], [[1, 0, 0], [2, 0, 0], [0, 0, 1]], "matrix: This is no map: "),
        ([*SCAN, "calibrations", 0, "matrix"], [[1, 0, 0], [0, 1, 0], [0.1, 0, -3]], "to no place at all."),
        ([*SCAN, "calibrations", 0, "matrix", 1, 1], 10**400, "This is larger than any number that a scan"),
        ([*SCAN, "calibrations", 0, "relative_doubt"], -0.1, "relative_doubt: This must not be neg"),
        ([*SCAN, "calibrations", 0, "mm_per_px"], 0, "[0].mm_per_px: This must be more than nothing."),
        ([*SCAN, "calibrations", 0, "width"], 10**8, "width: A flattened picture has up to 60 million"),
        ([*SCAN, "calibrations", 0, "made_at"], "2026-11-25T10:00:00", "[0].made_at: This is no moment: "),
        ([*SCAN, "calibrations", 0, "given", "points"], {}, "given: This must be a list in brackets; a"),
        ([*SCAN, "grid", "pitch_px"], "wide", 'scan.grid: This must be a number; "wide" is not.'),
        ([*SCAN, "grid", "pixels"], [[0, 0]] * 5, "Every crossing has one place in “pixels” and"),
        ([*PIECE, "traced", "nodes", 1, "x"], "left", 'Point 2: This must be a number; "left" is not.'),
        ([*PIECE, "traced", "nodes", 0, "colour"], "red", "Point 1: This key is not known here: “colour”."),
        ([*PIECE, "traced", "marks", 0, "kind"], "button", "marks: Mark 1: There is no such mark: “button”."),
        ([*PIECE, "traced", "marks", 1, "line"], "waist", "Mark 2: There is no such length: “waist”."),
        ([*PIECE, "traced", "marks", 0, "points"], [[1, 1]], "Mark 1: This must be a list of 2 points."),
        ([*PIECE, "traced_readings", 0, "hand"], "a span", "pieces[0].traced_readings[0].hand: "),
        ([*PLATE, "traced_levels", 0, "points"], [[1, 1], [1, 1]], "[0].points: A level line has two ends."),
        (["version"], 4, "version: This program reads versions 1, 2 and 3."),
        (["version"], True, "version: This program reads versions 1, 2 and 3."),
    ],
)  # fmt: skip
def test_a_fault_is_said_with_its_place_and_nothing_is_taken(workroom, empty, place, value, fault):
    file = taken_out(workroom)
    said = document(file)
    said["references"].sort(key=lambda one: one["name"])
    broken(place, value)(said)
    with pytest.raises(Faults) as raised:
        take(empty, with_document(file, said))
    assert fault in str(raised.value)
    assert not any(rows_of(empty).values())


def test_all_faults_are_said_at_once(workroom, empty):
    file = taken_out(workroom)
    said = document(file)
    broken(["sources", 0, "title"], "")(said)
    broken(["sources", 0, "kind"], "podcast")(said)
    said["relations"][0]["kind"] = "cousin"
    with pytest.raises(Faults) as raised:
        take(empty, with_document(file, said))
    assert [fault.where for fault in raised.value.faults] == [
        "sources[0].kind",
        "sources[0].title",
        "relations[0].kind",
    ]


def _photograph(contents: dict[str, bytes]) -> str:
    return next(name for name in contents if name.startswith("photographs/"))


def _drop_photograph(contents: dict[str, bytes]) -> None:
    del contents[_photograph(contents)]


def _damage_photograph(contents: dict[str, bytes]) -> None:
    contents[_photograph(contents)] += b"."


def _add_a_file(contents: dict[str, bytes]) -> None:
    contents["../../outside"] = b"x"


def _drop_manifest(contents: dict[str, bytes]) -> None:
    del contents[MANIFEST]


def _say_a_key_twice(contents: dict[str, bytes]) -> None:
    contents[MANIFEST] = b'{"format": "a", "format": "b"}'


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        (_drop_photograph, "The manifest lists this file, and it is not there."),
        (_damage_photograph, "Its checksum is another: the file was changed or damaged."),
        (_add_a_file, "../../outside: The manifest does not list this file."),
        (_drop_manifest, "manifest.json: This is not in the archive."),
        (_say_a_key_twice, "manifest.json: This JSON cannot be read: the key “format” comes twice."),
    ],
)
def test_an_archive_that_is_not_whole_is_refused(workroom, empty, change, fault):
    with pytest.raises(Faults) as raised:
        take(empty, repacked(taken_out(workroom), change))
    assert fault in str(raised.value)


def test_a_photograph_that_is_none_is_a_fault_and_its_files_go_again(workroom, empty, data_folder):
    def change(contents: dict[str, bytes]) -> None:
        old = _photograph(contents)
        del contents[old]
        text = b"not a picture"
        new = f"photographs/{hashlib.sha256(text).hexdigest()}"
        contents[new] = text
        contents[CATALOGUE] = contents[CATALOGUE].replace(old.encode(), new.encode())
        manifest = json.loads(contents[MANIFEST])
        del manifest["files"][old]
        for name in (new, CATALOGUE):
            manifest["files"][name] = {"sha256": hashlib.sha256(contents[name]).hexdigest()}
        contents[MANIFEST] = json.dumps(manifest).encode()

    file = repacked(taken_out(workroom), change)
    before = files_in(data_folder)
    with pytest.raises(Faults, match="not a whole JPEG"):
        take(empty, file)
    assert not any(rows_of(empty).values())
    assert files_in(data_folder) == before


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04", b"no archive", b"PK\x05\x06" + b"\0" * 18])
def test_what_is_no_archive_is_refused(empty, content):
    with pytest.raises(Faults):
        take(empty, io.BytesIO(content))
