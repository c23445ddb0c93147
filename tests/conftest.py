"""What every test stands on: folders of its own, Debian's browser, a calm clock for property tests."""

import os
import tempfile
from collections.abc import Iterator
from pathlib import Path

import hypothesis
import pytest
from django.apps import apps
from django.contrib.contenttypes.models import ContentType
from django.db import connection
from django.test import override_settings

from catalogue.workroom.work import engine
from fitting.site import provision
from tests import databases
from tests.demo import WRITTEN, Demo, demo_told_at
from tests.examples import ALL, FOR_EACH_CHANGE
from tests.makers.rows import People, make_people
from tests.statements import Statements, left_out

# Playwright keeps an event loop running in the tests' own thread, which Django takes for asynchronous code.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "1"
# On a machine with other work a slow example is no fault. CI tries the same examples each time, so that what
# it says is about the change; people's own runs go on looking.
for profile, number in (("thorough", ALL), ("for each change", FOR_EACH_CHANGE)):
    hypothesis.settings.register_profile(
        profile,
        max_examples=number,
        deadline=None,
        derandomize="CI" in os.environ,
        suppress_health_check=[hypothesis.HealthCheck.too_slow],
    )

# What a test asks for tells what it is, wherever it lies.
BROWSER = {"page", "context", "browser"}
DATABASE = {"db", "transactional_db", "django_db_setup"}
COUNTS = pytest.StashKey[dict[str, int]]()


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--thorough", action="store_true", help="all examples of properties, as before landing")
    parser.addoption("--note-statements", type=Path, help="write here what each test says in SQL")
    parser.addoption("--say-all-of", type=Path, help="leave out tests that say nothing new of it")


def pytest_configure(config: pytest.Config) -> None:
    hypothesis.settings.load_profile("thorough" if config.getoption("thorough") else "for each change")
    config.stash[COUNTS] = {"collected": 0, "deselected": 0}
    if file := config.getoption("note_statements"):
        config.pluginmanager.register(Statements(file))
    # The first process makes a folder for the run; those that it starts see the same one.
    if not hasattr(config, "workerinput"):
        os.environ[databases.RUN_FOLDER] = tempfile.mkdtemp()
        config.add_cleanup(databases.forget_run)


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    for item in items:
        asked = set(getattr(item, "fixturenames", ()))
        if asked & BROWSER:
            # All in one process: they share one demo that is being served.
            item.add_marker("browser")
            item.add_marker(pytest.mark.xdist_group("browser"))
        if "egg_seller" in asked:
            item.add_marker(pytest.mark.xdist_group("egg-seller"))  # printed once
        if config.getoption("loadgroup", False):
            stay_together(item)
        if asked & DATABASE or item.get_closest_marker("django_db"):
            item.add_marker("database")
    config.stash[COUNTS]["collected"] = len(items)
    if (file := config.getoption("say_all_of")) and (needless := left_out(items, file)):
        config.hook.pytest_deselected(items=needless)
        items[:] = [item for item in items if item not in needless]


def stay_together(item: pytest.Item) -> None:
    """Name the group of a test behind its address, where pytest-xdist looks for it.

    pytest-xdist 3.8 writes it where pytest looked before 9.2, and groups nothing, without a word:
    https://github.com/pytest-dev/pytest-xdist/issues/1386
    """
    for mark in item.iter_markers("xdist_group"):
        item._id = item.id.parse(f"{item.nodeid}@{mark.args[0]}")


def pytest_deselected(items: list[pytest.Item]) -> None:
    for item in items:
        item.config.stash[COUNTS]["deselected"] += 1


def pytest_sessionfinish(session: pytest.Session) -> None:
    if hasattr(session.config, "workeroutput"):
        session.config.workeroutput["counts"] = session.config.stash[COUNTS]


@pytest.hookimpl(optionalhook=True)
def pytest_testnodedown(node) -> None:
    """Each of several processes collects all tests and runs some; the first, which tells of it, has none."""
    if counts := getattr(node, "workeroutput", {}).get("counts"):
        node.config.stash[COUNTS] = counts


def pytest_report_header() -> str:
    return f"database: {connection.vendor}"


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    terminalreporter.section("what was run")
    if checks := os.environ.get("PLATE_CHECKS"):
        terminalreporter.write_line(checks)
    counts = config.stash[COUNTS]
    terminalreporter.write_line(
        f"tests on {connection.vendor}: {counts['collected']} collected, {counts['deselected']} deselected"
    )


@pytest.fixture(scope="session")
def django_db_modify_db_settings(django_db_modify_db_settings_parallel_suffix: None) -> None:
    """Django makes the test database without migrating it, since a migrated one is copied over it."""
    connection.settings_dict["TEST"]["MIGRATE"] = False


@pytest.fixture(scope="session")
def django_db_setup(django_db_setup: None, django_db_blocker) -> None:
    with django_db_blocker.unblock():
        databases.become(databases.migrated())


@pytest.fixture(autouse=True)
def data_folder(settings, tmp_path: Path) -> Path:
    """What a test uploads or prints goes to a folder of its own, never to a person's."""
    settings.DATA_DIR = tmp_path
    return tmp_path


@pytest.fixture(autouse=True)
def no_process(request: pytest.FixtureRequest, monkeypatch) -> None:
    """None is started for a test: it would know nothing of the test's rows. A browser's server may."""
    if not BROWSER & set(request.fixturenames):
        monkeypatch.setattr(engine, "start_command", lambda *words: None)


@pytest.fixture
def started(monkeypatch) -> list[int]:
    """The keys of long work for which a process was started, none of which runs."""
    keys: list[int] = []
    monkeypatch.setattr(engine, "start_command", lambda _, *words: keys.extend(map(int, words)))
    return keys


@pytest.fixture
def done_at_once(monkeypatch) -> None:
    """Long work is done where the test stands, by nobody else."""
    monkeypatch.setattr(engine, "start_command", lambda _, *words: engine.do_in_turn(list(map(int, words))))


@pytest.fixture(scope="session", autouse=True)
def quick_passwords() -> Iterator[None]:
    """A password is slow to check on purpose; a test that makes four people need not wait for it."""
    with override_settings(PASSWORD_HASHERS=["django.contrib.auth.hashers.MD5PasswordHasher"]):
        yield


@pytest.fixture
def people(db) -> People:
    """Keeper, maker and reader of one workroom, and the keeper of another, a stranger here."""
    # Django asks once in a process for the keys of models; a test may count queries.
    ContentType.objects.get_for_models(*apps.get_models())
    return make_people()


@pytest.fixture(scope="module")
def demo(request: pytest.FixtureRequest, django_db_setup, django_db_blocker) -> Iterator[Demo]:
    """The demo's workroom and nothing else, told on the day it was written or on one that is asked for."""
    with django_db_blocker.unblock(), demo_told_at(getattr(request, "param", WRITTEN)) as demo:
        yield demo


@pytest.fixture(scope="session")
def browser_type_launch_args() -> dict:
    """The system's Chromium; silent about updates, and never asking anything of the network."""
    return {
        "executable_path": provision.chromium(),
        "args": [
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
        ],
    }
