"""Archives made to take all of a server: refused in a sentence, in little memory, before they unpack."""

import hashlib
import io
import json
import tracemalloc
import zipfile
from collections.abc import Callable, Iterable

import pytest

from catalogue.lengths.calculation.errors import Faults
from catalogue.workroom.archive import opened, reading
from catalogue.workroom.archive.opened import OpenedArchive
from catalogue.workroom.archive.packing import CATALOGUE, MANIFEST
from tests.makers.packing import document, take, taken_out, with_document

MB = 1024 * 1024
HEAD = b'{"format": "plate-and-toile catalogue", "version": 2, "sources": ['
TOO_MANY = "This JSON cannot be read: it holds more than 500,000 values at once."
NOTHING = HEAD[: HEAD.index(b', "sources"')] + b"}"


def packed(catalogue: Iterable[bytes], files: dict[str, bytes] | None = None) -> io.BytesIO:
    """An archive with the right checksum of everything in it."""
    file, sums = io.BytesIO(), {}
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        digest = hashlib.sha256()
        with archive.open(CATALOGUE, "w", force_zip64=True) as opened:
            for part in catalogue:
                digest.update(part)
                opened.write(part)
        sums[CATALOGUE] = {"sha256": digest.hexdigest()}
        for name, content in (files or {}).items():
            archive.writestr(name, content)
            sums[name] = {"sha256": hashlib.sha256(content).hexdigest()}
        said = {"format": "plate-and-toile archive", "version": 1, "files": sums}
        archive.writestr(MANIFEST, json.dumps(said))
    return file


def many(unit: bytes, megabytes: int) -> Iterable[bytes]:
    yield from [unit * (MB // len(unit))] * megabytes


def refused(
    file: io.BytesIO, call: Callable[[io.BytesIO], object] = OpenedArchive
) -> tuple[list[str], float]:
    """The faults, and the most memory, in MB, that it took to find them."""
    tracemalloc.start()
    try:
        with pytest.raises(Faults) as raised:
            call(file)
        return str(raised.value).splitlines(), tracemalloc.get_traced_memory()[1] / MB
    finally:
        tracemalloc.stop()


def test_19_million_lists_in_57_kilobytes_take_almost_nothing():
    """Read whole they took 6.7 GB, and 52 seconds."""
    file = packed([HEAD, *many(b"[],", 57), b"[]]}"])
    assert len(file.getvalue()) < 60_000
    faults, megabytes = refused(file)
    assert megabytes < 20
    assert faults[0] == "sources[0]: This must be a table in braces; a list is not."
    assert len(faults) == 1_001
    assert faults[-1] == "file: This has more faults than these 1,000."


@pytest.mark.parametrize(
    ("catalogue", "fault"),
    [
        ([HEAD, b"[", *many(b"[],", 30), b"[]]]}"], TOO_MANY),
        ([HEAD, "[“😀”,".encode(), *many(b'"a",', 30), b"1]]}"], "This is not JSON: Expecting value."),
        ([HEAD, '["😀",'.encode(), *many(b'"a",', 30), b"1]]}"], TOO_MANY),
        ([HEAD, b"{", *many(b'"a":1,', 30), b'"b":1}]}'], TOO_MANY),
        ([HEAD, '"😀'.encode(), *many(b"a", 40), b'"]}'],
         "This JSON cannot be read: one of its values has more than 4,194,304 characters."),
        ([HEAD, *many(b"[", 30)], "This JSON cannot be read: it is nested too deeply."),
        ([HEAD, *many(b'{"a":', 30)], "This JSON cannot be read: it is nested too deeply."),
        ([HEAD, b"1" * 5_000, b"]}"], "This JSON cannot be read: it holds a number of thousands of digits."),
        ([NOTHING[:-1], *many(b" ", 30)], "This is not JSON: “,” is missing."),
        ([HEAD, b"]}", *many(b" ", 30), b"x"], "This is not JSON: something stands behind its end."),
        ([b"{", *many(b'"a": 1, ', 2), b'"a": 1}'], "This JSON cannot be read: the key “a” comes twice."),
        ([b"{", b",".join(b'"%d": 1' % at for at in range(10**5)), b"}"],
         "This JSON cannot be read: it has more than 100 members."),
        ([HEAD, b'"\xff"]}'], "This JSON cannot be read: it is not text in UTF-8."),
    ],
)  # fmt: skip
def test_a_catalogue_made_to_fill_the_memory_is_refused(catalogue, fault):
    faults, megabytes = refused(packed(catalogue))
    assert f"{CATALOGUE}: {fault}" in faults
    assert megabytes < 100


def test_keys_that_come_twice_and_numbers_that_are_none_are_all_told():
    row = b'{"title": "a", "title": "b", "notes": {"x": NaN, "x": 1}, "volume": Infinity}'
    faults, _ = refused(packed([HEAD, b"{}, ", row, b"]}"]))
    assert {
        "sources[1].title: This key comes twice.",
        "sources[1].notes.x: This key comes twice.",
        "sources[1].volume: Infinity is not a number.",
    } < set(faults)


def test_a_name_of_a_megabyte_is_told_by_its_beginning():
    faults, _ = refused(packed([HEAD, b'{"' + b"k" * MB + b'": 1}]}']))
    assert max(map(len, faults)) < 700
    assert any(fault.startswith("sources[0].kkkk") for fault in faults)


def test_a_size_that_the_directory_lies_about_is_where_reading_stops():
    content = bytes(100 * MB)
    file = packed([NOTHING], {"photographs/0": content})
    octets = file.getvalue().replace(len(content).to_bytes(4, "little"), (10).to_bytes(4, "little"))
    assert octets.count((10).to_bytes(4, "little")) > 1
    faults, megabytes = refused(io.BytesIO(octets))
    assert megabytes < 5
    assert [fault.partition(":")[0] for fault in faults] == ["photographs/0"]


def test_pictures_that_unpack_to_many_times_the_archive_are_not_unpacked(monkeypatch):
    monkeypatch.setattr(opened, "_digest", lambda file: pytest.fail("was unpacked"))
    faults, _ = refused(packed([NOTHING], {f"photographs/{at}": bytes(5 * MB) for at in range(3)}))
    assert faults == ["archive: Its pictures unpack to more than 20 times its size."]


@pytest.mark.parametrize("packing", [zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA])
def test_what_is_packed_in_a_way_that_cannot_be_stopped_is_refused(packing):
    file = packed([NOTHING])
    with zipfile.ZipFile(file, "a", packing) as archive:
        archive.writestr("photographs/0", bytes(MB))
    faults, _ = refused(file)
    assert "photographs/0: This is packed in a way that is not read here: store or deflate it." in faults


def test_a_file_larger_than_any_of_its_kind_is_refused_by_the_directory_alone(monkeypatch):
    monkeypatch.setitem(opened.MOST, CATALOGUE, 2 * MB)
    monkeypatch.setattr(OpenedArchive, "open", lambda self, name: pytest.fail("was opened"))
    faults, _ = refused(packed([HEAD, *many(b" ", 3), b"]}"]))
    assert faults == [f"{CATALOGUE}: This is larger than 2 MB."]


@pytest.mark.parametrize(("bound", "most"), [("MOST_FILES", 9), ("MOST_DIRECTORY_BYTES", 500)])
def test_a_directory_longer_than_any_is_not_taken_apart(monkeypatch, bound, most):
    file = packed([NOTHING], {f"photographs/{at}": b"" for at in range(10)})
    monkeypatch.setattr(opened, bound, most)
    monkeypatch.setattr(zipfile.ZipInfo, "__init__", lambda *given: pytest.fail("was taken apart"))
    with pytest.raises(Faults, match=r"holds more than .* files, or calls them by names too long"):
        OpenedArchive(file)


def test_more_keys_than_any_catalogue_has_end_the_reading(monkeypatch, workroom, empty):
    file = taken_out(workroom)
    monkeypatch.setattr(reading, "MOST_KEYS", 3)
    faults, _ = refused(file, lambda file: take(empty, file))
    assert faults == ["catalogue: This holds more than 3 rows with a key."]


def test_lists_come_in_the_order_in_which_they_are_taken(workroom, empty):
    file = taken_out(workroom)
    said = document(file)
    turned = {name: said[name] for name in ("format", "version", "references", "sources")}
    with pytest.raises(Faults, match=r"sources: This must stand before “references”\."):
        take(empty, with_document(file, turned))


def test_a_file_that_the_manifest_lists_twice_is_named():
    file = packed([NOTHING])
    with zipfile.ZipFile(file) as archive:
        catalogue, manifest = archive.read(CATALOGUE), archive.read(MANIFEST)
    twice = io.BytesIO()
    with zipfile.ZipFile(twice, "w") as archive:
        archive.writestr(CATALOGUE, catalogue)
        archive.writestr(MANIFEST, manifest.replace(b'"files": {', b'"files": {"catalogue.json": {}, '))
    faults, _ = refused(twice)
    assert f"{CATALOGUE}: The manifest lists this file, twice." in faults
