"""The one door to files: whole or not at all, for their owner alone, and gone with their rows."""

import io
import os
from pathlib import Path

import pytest
from django.apps import apps
from django.core.exceptions import SuspiciousFileOperation
from django.db import transaction
from django.db.models.signals import post_delete
from django.http import Http404

from catalogue.photographs.models import SIZES, Photo
from catalogue.workroom.files import (
    file_answer,
    files_stay,
    half_made,
    names_in,
    open_file,
    put,
    remove,
    scratch,
    size_of,
    sweep_files,
    written_whole,
)
from catalogue.workroom.models import UnwantedFile, WithFiles
from tests.makers.rows import make_photo, make_reference


def content(name: str) -> bytes:
    with open_file(name) as opened:
        return opened.read()


@pytest.mark.parametrize("given", ["octets", "opened", "path"])
def test_what_is_put_is_there_for_its_owner_alone(data_folder: Path, tmp_path, given):
    file = tmp_path / "sent"
    file.write_bytes(b"a picture")
    put(
        "scans/one/original",
        {"octets": b"a picture", "opened": io.BytesIO(b"a picture"), "path": file}[given],
    )
    assert content("scans/one/original") == b"a picture"
    assert size_of("scans/one/original") == 9
    kept = data_folder / "files" / "scans" / "one" / "original"
    assert kept.stat().st_mode & 0o777 == 0o600
    assert list(half_made().iterdir()) == []


def test_what_is_put_again_takes_the_place_of_what_was_there():
    put("a", b"first")
    put("a", b"second")
    assert (content("a"), names_in("")) == (b"second", ["a"])


def test_what_breaks_off_leaves_what_was_there():
    class Broken(io.BytesIO):
        def read(self, *given):
            raise OSError("the telephone is gone")

    put("a", b"whole")
    with pytest.raises(OSError, match="telephone"):
        put("a", Broken(b"half"))
    assert content("a") == b"whole"
    assert list(half_made().iterdir()) == []


def test_a_file_and_its_folder_are_on_the_disk_before_it_is_there(data_folder, monkeypatch):
    """So that a row, which comes after, never says after a power cut that a file is there, and none is."""
    happened = []
    real_sync, real_replace = os.fsync, Path.replace

    def sync(number: int) -> None:
        happened.append(("synced", os.readlink(f"/proc/self/fd/{number}")))
        real_sync(number)

    def replace(path: Path, to: Path) -> None:
        happened.append(("named", str(to)))
        real_replace(path, to)

    monkeypatch.setattr(os, "fsync", sync)
    monkeypatch.setattr(Path, "replace", replace)
    put("scans/one/original", b"a picture")
    seen = [(what, os.path.relpath(path, data_folder / "files")) for what, path in happened]
    new_folders, (part, named, entry) = seen[:-3], seen[-3:]
    assert set(new_folders) == {("synced", "scans"), ("synced", "."), ("synced", "..")}
    assert part[0] == "synced"
    assert part[1].startswith("half made/")
    assert (named, entry) == (("named", "scans/one/original"), ("synced", "scans/one"))


def test_no_name_leads_out_of_the_folder():
    with pytest.raises(SuspiciousFileOperation):
        put("../outside", b"x")
    with pytest.raises(SuspiciousFileOperation):
        open_file("../secret_key")


def test_a_folder_is_listed_and_removed_with_all_in_it():
    for name in ("scans/one/original", "scans/one/0.tiles", "scans/other/original"):
        put(name, b"x")
    assert names_in("scans/one/") == ["scans/one/0.tiles", "scans/one/original"]
    remove("scans/one/")
    assert names_in("scans/") == ["scans/other/original"]
    for gone in ("scans/one/", "scans/one/original", "nowhere/"):
        remove(gone)


def test_scratch_is_gone_at_the_end_whatever_happens():
    with pytest.raises(IsADirectoryError), scratch() as folder:
        folder.write_bytes(b"a folder is no file")
    assert list(half_made().iterdir()) == []


def test_a_file_that_a_person_names_is_written_whole(tmp_path):
    with written_whole(tmp_path / "a.pdf") as file:
        file.write(b"%PDF")
        assert not (tmp_path / "a.pdf").exists()
    assert os.listdir(tmp_path) == ["a.pdf"]
    with pytest.raises(TypeError), written_whole(tmp_path / "a.pdf") as file:
        file.write("text, not octets")
    assert (tmp_path / "a.pdf").read_bytes() == b"%PDF"


def test_a_file_is_answered_as_it_may_be_kept_and_one_that_is_missing_is_not_found():
    put("a.pdf", b"%PDF")
    answer = file_answer("a.pdf", missing="Gone.", cache="private, no-store", content_type="application/pdf")
    assert (answer.getvalue(), answer["Cache-Control"]) == (b"%PDF", "private, no-store")
    with pytest.raises(Http404, match="Gone"):
        file_answer("b.pdf", missing="Gone.", cache="private")


@pytest.fixture
def photo(people) -> Photo:
    photo = make_photo(make_reference(people.workroom))
    for name in photo.files():
        put(name, b"a picture")
    assert len(names_in("photos/")) == len(SIZES) + 2  # the file that was sent, and its one part
    return photo


def test_files_go_with_a_row_that_goes_by_a_cascade(photo, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True):
        photo.reference.delete()
    assert names_in("photos/") == []
    assert not UnwantedFile.objects.exists()


def test_what_the_bin_holds_keeps_its_files(photo, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True), files_stay():
        photo.delete()
    assert len(names_in("photos/")) == len(SIZES) + 2


def test_files_of_a_row_that_stays_after_all_stay(photo, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True), transaction.atomic():
        photo.delete()
        transaction.set_rollback(True)
    assert Photo.objects.exists()
    assert len(names_in("photos/")) == len(SIZES) + 2


def test_what_a_killed_process_left_to_be_taken_away_the_next_sweep_takes(photo):
    # Nothing is done on commit, as if the process were killed at that moment.
    photo.delete()
    assert len(names_in("photos/")) == len(SIZES) + 2
    sweep_files()
    assert names_in("photos/") == []
    assert not UnwantedFile.objects.exists()


def test_every_model_with_files_is_watched():
    with_files = {model for model in apps.get_models() if issubclass(model, WithFiles)}
    assert {model.__name__ for model in with_files} == {
        "ArchiveExport", "ArchiveImport", "Dossier", "LogPhoto", "ObservationPhoto", "Photo", "PlateScan",
    }  # fmt: skip
    assert all(post_delete.has_listeners(model) for model in with_files)


def test_another_storage_of_djangos_may_stand_behind_the_door(settings):
    memory = {"BACKEND": "django.core.files.storage.InMemoryStorage"}
    settings.STORAGES = {**settings.STORAGES, "default": memory}
    put("scans/one/original", b"x")
    put("scans/one/0.tiles", b"y")
    assert names_in("scans/one/") == ["scans/one/0.tiles", "scans/one/original"]
    assert (content("scans/one/original"), size_of("scans/one/original")) == (b"x", 1)
    remove("scans/one/")
    assert names_in("scans/") == []
