"""Done once for every process of a run: a database is migrated. Each test database becomes a copy of it.

A process that comes second waits for the first and copies. SQLite is copied page by page into the database in
memory; PostgreSQL makes databases after the pattern of one. So the tables that migrations write by hand, such
as those of the search, are there as people have them.
"""

import os
import re
import shutil
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from urllib.parse import urlsplit

import psycopg
from django.conf import settings
from django.contrib.contenttypes.models import ContentType
from django.db import connection, transaction

from fitting.site.first_run import taken

RUN_FOLDER = "PLATE_TEST_RUN"  # the name under which every process of a run is told its folder


def once(name: str, make: Callable[[Path], None]) -> Path:
    """The place `name` in the folder of the run, filled by whichever process comes first."""
    place = run_folder() / name
    done = place.with_suffix(".done")
    with place.with_suffix(".lock").open("w") as lock:
        while not taken(lock):
            time.sleep(0.1)
        if not done.exists():
            shutil.rmtree(place, ignore_errors=True)
            place.mkdir()
            make(place)
            done.touch()
    return place


def migrated() -> Path:
    return once("migrated", migrate_from_zero)


def migrate_from_zero(place: Path) -> None:
    """Migrate a database that did not exist, by the command that a person types, and keep it in `place`."""
    if connection.vendor == "postgresql":
        make_empty(kept_name(place))
        _migrate(place, DATABASE_URL=address_of(kept_name(place)))
    else:
        _migrate(place)


def lay_in(folder: Path) -> None:
    """Put a migrated database where a program with `folder` for its data looks: a server, or a demo."""
    migrated_file = once("migrated_file", _migrate) if connection.vendor == "postgresql" else migrated()
    folder.mkdir(parents=True, exist_ok=True)
    shutil.copy(kept_file(migrated_file), kept_file(folder))


def _migrate(place: Path, **surroundings: str) -> None:
    given = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    command = [sys.executable, str(settings.BASE_DIR / "manage.py"), "migrate", "--verbosity=0"]
    subprocess.run(command, env={**given, "PLATE_DATA": str(place), **surroundings}, check=True)


def become(place: Path) -> None:
    """The test database is from now on a copy of the one kept in `place`."""
    # It knows the models by keys of its own.
    ContentType.objects.clear_cache()
    if connection.vendor == "postgresql":
        connection.close()
        make_empty(connection.settings_dict["NAME"], after=kept_name(place))
    else:
        connection.ensure_connection()
        with closing(sqlite3.connect(kept_file(place))) as kept:
            kept.backup(connection.connection)


def become_empty() -> None:
    """The test database has no table any more."""
    ContentType.objects.clear_cache()
    if connection.vendor == "postgresql":
        connection.close()
        make_empty(connection.settings_dict["NAME"])
    else:
        connection.ensure_connection()
        with closing(sqlite3.connect(":memory:")) as empty:
            empty.backup(connection.connection)


def put_in(rows: str) -> None:
    """Put rows into the test database: statements as both databases read them, an empty line after each."""
    # A row may name one that comes after it: they are held against each other at the end.
    with transaction.atomic(), connection.cursor() as cursor:
        for statement in rows.strip().split(";\n\n"):
            cursor.execute(statement)
        if connection.vendor == "postgresql":
            for table in tables_in(rows):
                counted = f"pg_get_serial_sequence('{table}', 'id')"
                cursor.execute(f"SELECT setval({counted}, max(id)) FROM {table}")  # noqa: S608  our own names


def tables_in(rows: str) -> list[str]:
    return re.findall(r'(?m)^INSERT INTO "(\w+)"', rows)


def keep(place: Path) -> None:
    """Keep a copy of the test database, as it is, in `place`."""
    if connection.vendor == "postgresql":
        connection.close()
        make_empty(kept_name(place), after=connection.settings_dict["NAME"])
    else:
        with closing(sqlite3.connect(kept_file(place))) as kept:
            connection.connection.backup(kept)


def run_folder() -> Path:
    return Path(os.environ[RUN_FOLDER])


def forget(place: Path) -> None:
    if connection.vendor == "postgresql":
        drop(kept_name(place))
    shutil.rmtree(place, ignore_errors=True)


def forget_run() -> None:
    for lock in run_folder().glob("*.lock"):
        forget(lock.with_suffix(""))
    shutil.rmtree(run_folder())


def kept_file(place: Path) -> Path:
    """Where the program itself puts its database in a folder of data."""
    return place / "workroom.sqlite3"


# PostgreSQL alone: a database is made by words said to another one, outside any transaction.


def kept_name(place: Path) -> str:
    return f"kept_{place.name}"


def address_of(name: str) -> str:
    return urlsplit(os.environ["DATABASE_URL"])._replace(path=f"/{name}").geturl()


def make_empty(name: str, after: str = "template0") -> None:
    drop(name)
    _tell("CREATE DATABASE {} TEMPLATE {}", name, after)


def drop(name: str) -> None:
    _tell("DROP DATABASE IF EXISTS {} WITH (FORCE)", name)


def _tell(words: str, *names: str) -> None:
    with psycopg.connect(os.environ["DATABASE_URL"], autocommit=True) as server:
        server.execute(psycopg.sql.SQL(words).format(*map(psycopg.sql.Identifier, names)))
