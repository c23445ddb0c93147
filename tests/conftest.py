"""What every test stands on: folders of its own, Debian's browser, a calm clock for property tests."""

import os
import tempfile
from pathlib import Path

import hypothesis
import pytest
from django.db import connection

from fitting.site import provision
from tests import databases
from tests.makers import People, make_people

# Playwright keeps an event loop running in the tests' own thread, which Django takes for asynchronous code.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "1"
# On a machine with other work a slow example is no fault. CI tries the same examples each time, so that what
# it says is about the change; people's own runs go on looking.
hypothesis.settings.register_profile(
    "plate",
    deadline=None,
    derandomize="CI" in os.environ,
    suppress_health_check=[hypothesis.HealthCheck.too_slow],
)
hypothesis.settings.load_profile("plate")

def pytest_configure(config: pytest.Config) -> None:
    # The first process makes a folder for the run; those that it starts see the same one.
    if not hasattr(config, "workerinput"):
        os.environ[databases.RUN_FOLDER] = tempfile.mkdtemp()
        config.add_cleanup(databases.forget_run)


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if {"page", "context", "browser"} & set(getattr(item, "fixturenames", ())):
            item.add_marker("browser")


def pytest_report_header() -> str:
    return f"database: {connection.vendor}"


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    if checks := os.environ.get("PLATE_CHECKS"):
        terminalreporter.section("before the tests")
        terminalreporter.write_line(checks)


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
    settings.STORAGES = {
        **settings.STORAGES,
        "default": {**settings.STORAGES["default"], "OPTIONS": {"location": tmp_path / "files"}},
    }
    return tmp_path


@pytest.fixture(autouse=True)
def quick_passwords(settings) -> None:
    """A password is slow to check on purpose; a test that makes four people need not wait for it."""
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


@pytest.fixture
def people(db) -> People:
    """Keeper, maker and reader of one workroom, and the keeper of another, a stranger here."""
    return make_people()


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
