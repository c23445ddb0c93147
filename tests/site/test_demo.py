"""The demo as a newcomer runs it: one command, from nothing, then again."""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from django.conf import settings
from pypdf import PdfReader

PROJECT = Path(settings.BASE_DIR)

pytestmark = pytest.mark.xdist_group("newcomer")


@pytest.fixture(scope="module")
def fresh_copy(tmp_path_factory):
    copy = tmp_path_factory.mktemp("newcomer") / "a fresh copy & more"
    copy.mkdir()
    shutil.copy(PROJECT / "manage.py", copy)
    for part in ("catalogue", "fitting", "templates", "fixtures"):
        shutil.copytree(PROJECT / part, copy / part, ignore=shutil.ignore_patterns("__pycache__"))
    return copy


def run_demo(project: Path) -> subprocess.CompletedProcess[str]:
    """From another folder, on a machine set to a workroom in use, which the demo leaves alone."""
    environment = os.environ | {"DATABASE_URL": "sqlite:////nowhere/in_use.sqlite3", "PLATE_DATA": "/nowhere"}
    line = [sys.executable, str(project / "manage.py"), "demo", "--no-serve"]
    return subprocess.run(line, capture_output=True, text=True, env=environment, cwd="/", check=False)


@pytest.fixture(scope="module")
def runs(fresh_copy) -> list[subprocess.CompletedProcess[str]]:
    return [run_demo(fresh_copy), run_demo(fresh_copy)]


def test_the_demo_compares_and_prints_the_first_time_and_again(fresh_copy, runs):
    for done in runs:
        assert done.returncode == 0, done.stderr
        assert re.search(r"^bust .* add \(\d+ %\)$", done.stdout, re.M)
        assert "→ enlarge and alter" in done.stdout
        pdf = Path(re.search(r"pages: (.*dossier\.pdf)$", done.stdout, re.M)[1])
        assert pdf == fresh_copy / ".demo" / "dossier.pdf"
        assert len(PdfReader(pdf).pages) >= 7


def test_the_demo_folder_is_its_owners_alone(fresh_copy, runs):
    assert (fresh_copy / ".demo").stat().st_mode & 0o777 == 0o700
    assert (fresh_copy / ".demo" / "secret_key").stat().st_mode & 0o777 == 0o600
