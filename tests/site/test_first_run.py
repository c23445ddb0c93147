"""The first run, on copies of the project with tiny packages of the same names in place of the real ones.

The folder has a space, an ampersand and an apostrophe in its name; no test uses a network.
"""

import ast
import hashlib
import os
import shutil
import subprocess
import sys
import time
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
BASE_PYTHON = getattr(sys, "_base_executable", sys.executable)
DJANGO = """
import sys
def execute_from_command_line(argv):
    print(argv[1:], sys.prefix)
"""
PARTS = ("__init__", "first_run", "provision")
OLD_GRAMMAR_LACKS = (
    ast.AnnAssign,
    ast.AsyncFunctionDef,
    ast.JoinedStr,
    ast.Match,
    ast.NamedExpr,
    ast.Nonlocal,
    ast.YieldFrom,
)

pytestmark = pytest.mark.xdist_group("first-run")  # they share a project that had its first run


def write_wheel(folder: Path, name: str, files: dict[str, str]) -> str:
    """Write a wheel and return its line among the pins."""
    path = folder / f"{name}-1-py3-none-any.whl"
    files |= {
        f"{name}-1.dist-info/METADATA": f"Metadata-Version: 2.1\nName: {name}\nVersion: 1\n",
        f"{name}-1.dist-info/WHEEL": "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    record = "".join(f"{file},,\n" for file in [*files, f"{name}-1.dist-info/RECORD"])
    with zipfile.ZipFile(path, "w") as wheel:
        for file, text in {**files, f"{name}-1.dist-info/RECORD": record}.items():
            wheel.writestr(file, text)
    return f"{name}==1 --hash=sha256:{hashlib.sha256(path.read_bytes()).hexdigest()}\n"


@pytest.fixture(scope="module")
def pins(tmp_path_factory) -> dict[str, str]:
    wheels = tmp_path_factory.mktemp("wheels")
    management = {"django/__init__.py": "", "django/core/__init__.py": ""}
    run = write_wheel(wheels, "django", {**management, "django/core/management/__init__.py": DJANGO})
    return {"run": run, "test": run + write_wheel(wheels, "pytest", {"pytest.py": ""}), "wheels": str(wheels)}


def copy_project(folder: Path, pins: dict[str, str]) -> Path:
    """A project folder with a first run but no program; returns its manage.py."""
    project = folder / "a maker's table & chair"
    site = project / "fitting" / "site"
    (site / "pins").mkdir(parents=True)
    for name in ("manage.py", "fitting/__init__.py", *(f"fitting/site/{part}.py" for part in PARTS)):
        shutil.copy(ROOT / name, project / name)
    for name in ("run", "test"):
        (site / "pins" / f"{name}.txt").write_text(pins[name])
    return project / "manage.py"


@pytest.fixture
def manage(tmp_path: Path, pins) -> Path:
    return copy_project(tmp_path, pins)


@pytest.fixture(scope="module")
def made(tmp_path_factory, pins) -> Path:
    """A project that has had its first run."""
    manage = copy_project(tmp_path_factory.mktemp("made"), pins)
    assert start(manage, "check", wheels=pins["wheels"]).wait() == 0
    return manage


def start(manage: Path, *arguments: str, wheels: str, python: str = BASE_PYTHON) -> subprocess.Popen[str]:
    """Type a command in another folder, with pip told by its own settings where packages are."""
    settings = {"PIP_NO_INDEX": "1", "PIP_FIND_LINKS": wheels, "PIP_CONFIG_FILE": os.devnull}
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("PIP_", "VIRTUAL_ENV"))}
    return subprocess.Popen(
        [python, str(manage), *arguments],
        cwd=manage.parents[1],
        env=kept | settings,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def answer(*arguments: str, manage: Path) -> str:
    return f"{list(arguments)} {manage.parent / '.venv'}\n"


def test_the_first_run_makes_the_environment_and_goes_on_inside(manage, pins):
    run = start(manage, "lay", "file with space.json", wheels=pins["wheels"])
    out, err = run.communicate()
    assert run.returncode == 0, err
    assert out == answer("lay", "file with space.json", manage=manage)
    assert "Making the environment" in err
    assert {path.name for path in manage.parent.iterdir()} == {".venv", ".venv.lock", "fitting", "manage.py"}


def test_the_second_run_needs_no_packages_and_says_nothing(made, tmp_path):
    assert start(made, "check", wheels=str(tmp_path)).communicate() == (answer("check", manage=made), "")


def test_it_can_be_started_through_a_link(made, tmp_path):
    (tmp_path / "folder").mkdir()
    link = tmp_path / "folder" / "plate"
    link.symlink_to(made)
    assert start(link, "check", wheels=str(tmp_path)).communicate() == (answer("check", manage=made), "")


def test_the_test_command_adds_what_tests_need(made, pins):
    run = start(made, "test", "-k", "waist", wheels=pins["wheels"])
    out, err = run.communicate()
    assert out == answer("test", "-k", "waist", manage=made), err
    assert "Making the environment" not in err
    assert list((made.parent / ".venv").rglob("site-packages/pytest.py"))


def test_of_two_runs_at_once_one_installs(manage, pins):
    runs = [start(manage, "check", wheels=pins["wheels"]) for _ in range(2)]
    said = [run.communicate() for run in runs]
    assert [out for out, _ in said] == [answer("check", manage=manage)] * 2
    assert sum(err.count("Making the environment") for _, err in said) == 1


@pytest.mark.parametrize("moment", ["bin/python", "lib/python*/site-packages/pip/__init__.py"])
def test_a_run_killed_midway_is_made_good_by_the_next(manage, pins, moment):
    run = start(manage, "check", wheels=pins["wheels"])
    while run.poll() is None and not list((manage.parent / ".venv").glob(moment)):
        time.sleep(0.01)
    run.kill()
    assert run.communicate()[0] == ""
    assert start(manage, "check", wheels=pins["wheels"]).communicate()[0] == answer("check", manage=manage)


def test_new_pins_make_the_environment_anew(manage, pins):
    start(manage, "check", wheels=pins["wheels"]).wait()
    leftover = manage.parent / ".venv" / "leftover"
    leftover.touch()
    (manage.parent / "fitting/site/pins/run.txt").write_text("# changed\n" + pins["run"])
    inside = str(manage.parent / ".venv/bin/python")
    out, err = start(manage, "check", wheels=pins["wheels"], python=inside).communicate()
    assert out == answer("check", manage=manage), err
    assert not leftover.exists()


def test_a_package_that_is_not_the_pinned_one_is_refused_in_words(manage, pins):
    (manage.parent / "fitting/site/pins/run.txt").write_text("django==1 --hash=sha256:" + "0" * 64)
    run = start(manage, "check", wheels=pins["wheels"])
    out, err = run.communicate()
    assert (run.returncode, out) == (1, "")
    assert "Type the same command again" in err
    assert "Traceback" not in err


def test_another_environment_is_used_as_it_is(manage, pins, tmp_path):
    other = tmp_path / "other"
    subprocess.run([BASE_PYTHON, "-m", "venv", "--without-pip", other], check=True)
    python = str(other / "bin" / "python")
    run = start(manage, "check", wheels=pins["wheels"], python=python)
    err = run.communicate()[1]
    assert run.returncode == 1
    assert f"{python} -m pip install --require-hashes -r" in err
    (site_packages,) = other.glob("lib/python*/site-packages")
    with zipfile.ZipFile(Path(pins["wheels"]) / "django-1-py3-none-any.whl") as wheel:
        wheel.extractall(site_packages)
    run = start(manage, "check", wheels=pins["wheels"], python=python)
    assert run.communicate() == (f"['check'] {other}\n", "")
    assert not (manage.parent / ".venv").exists()


@pytest.mark.parametrize("version", [(2, 7), (3, 6), (3, 10), (3, 14)])
def test_another_python_is_told_in_a_sentence(manage, version):
    pretend = f"import sys; sys.version_info = {version}; from fitting.site.first_run import enter; enter([])"
    run = subprocess.run(
        [BASE_PYTHON, "-c", pretend], cwd=manage.parent, capture_output=True, text=True, check=False
    )
    assert run.returncode == 1
    this = ".".join(map(str, version))
    assert run.stderr.startswith(f"Plate & Toile needs Python 3.11, 3.12 or 3.13; this is {this}.")


@pytest.mark.parametrize("name", ["manage.py", "fitting/site/first_run.py"])
def test_an_old_python_can_read_what_it_has_to_run(name):
    source = (ROOT / name).read_bytes()
    assert source.isascii()
    nodes = list(ast.walk(ast.parse(source)))
    assert not [node for node in nodes if isinstance(node, OLD_GRAMMAR_LACKS)]
    assert not [node for node in nodes if getattr(node, "annotation", None) or getattr(node, "returns", None)]
    assert not [node for node in nodes if isinstance(node, ast.arguments) and node.kwonlyargs]
    displays = [node for node in nodes if isinstance(node, ast.List | ast.Tuple | ast.Set)]
    assert not [node for node in displays if any(isinstance(part, ast.Starred) for part in node.elts)]


def test_a_debian_without_ensurepip_is_told_what_to_type(manage):
    pretend = (
        "import sys; sys.modules['ensurepip'] = None; from fitting.site import first_run, provision;"
        "provision.os.geteuid = lambda: 1000; provision._is_debian = lambda: True; first_run.enter([])"
    )
    run = subprocess.run(
        [BASE_PYTHON, "-c", pretend], cwd=manage.parent, capture_output=True, text=True, check=False
    )
    assert run.returncode == 1
    major, minor = sys.version_info[:2]
    assert f"type: sudo apt-get install python{major}.{minor}-venv" in run.stderr
