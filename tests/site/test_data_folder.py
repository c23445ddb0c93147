"""What people enter lies where its owner alone may read it, under a key of its own."""

import stat
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from fitting.site.data_folder import _place_key, open_data_folder, secret_key


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def test_only_the_owner_may_look_inside(tmp_path):
    folder = open_data_folder(tmp_path / "a" / "workroom")
    secret_key(folder)
    assert mode(folder) == 0o700
    assert mode(folder / "secret_key") == 0o600


def test_a_folder_that_others_could_read_is_closed(tmp_path):
    (tmp_path / "open").mkdir(mode=0o755)
    assert mode(open_data_folder(tmp_path / "open")) == 0o700


def test_the_key_is_made_once(tmp_path):
    assert secret_key(tmp_path) == secret_key(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["secret_key"]


def test_two_folders_have_two_keys(tmp_path):
    first, second = (open_data_folder(tmp_path / name) for name in ("one", "two"))
    assert secret_key(first) != secret_key(second)


def test_of_many_first_runs_one_places_the_key(tmp_path):
    with ThreadPoolExecutor(16) as runs:
        keys = set(runs.map(lambda _: secret_key(tmp_path), range(64)))
    assert len(keys) == 1


def test_a_key_that_came_second_is_thrown_away(tmp_path):
    key = secret_key(tmp_path)
    _place_key(tmp_path / "secret_key")
    assert secret_key(tmp_path) == key
    assert [path.name for path in tmp_path.iterdir()] == ["secret_key"]


def test_a_key_cut_short_is_refused_in_words(tmp_path):
    (tmp_path / "secret_key").write_text("short")
    with pytest.raises(RuntimeError, match="Delete that file"):
        secret_key(tmp_path)
