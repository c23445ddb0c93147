"""From nothing to the newest tables: tests stand on copies of a database migrated from zero in this run."""

import sqlite3
from contextlib import closing
from datetime import date
from importlib import import_module
from pathlib import Path

import psycopg
from django.apps import apps
from django.db import connection
from django.db.migrations.loader import MigrationLoader

from tests import databases
from tests.makers.rows import make_reference

APPLIED = "SELECT app, name FROM django_migrations ORDER BY app, name"
TABLES = {
    "sqlite": "SELECT type, name, sql FROM sqlite_master ORDER BY name",
    "postgresql": """SELECT table_name, column_name, data_type FROM information_schema.columns
        WHERE table_schema = 'public' UNION SELECT tablename, indexname, indexdef FROM pg_indexes
        WHERE schemaname = 'public' ORDER BY 1, 2""",
}[connection.vendor]


def there(place: Path, question: str) -> list[tuple]:
    """What the database in `place` answers."""
    if connection.vendor == "postgresql":
        with psycopg.connect(databases.address_of(databases.kept_name(place))) as kept:
            return kept.execute(question).fetchall()
    with closing(sqlite3.connect(databases.kept_file(place))) as kept:
        return kept.execute(question).fetchall()


def here(question: str) -> list[tuple]:
    with connection.cursor() as cursor:
        cursor.execute(question)
        return cursor.fetchall()


def test_a_database_migrated_from_zero_has_the_tables_that_tests_stand_on(db):
    from_zero = databases.migrated()
    assert {tuple(row) for row in there(from_zero, APPLIED)} >= set(MigrationLoader(None).disk_migrations)
    assert there(from_zero, APPLIED) == here(APPLIED)
    assert there(from_zero, TABLES) == here(TABLES)


def test_a_winter_that_was_taken_for_its_december_ends_in_february(people):
    december = date(1884, 12, 31)
    rows = {
        text: make_reference(people.workroom, date_edtf=text, date_latest=december)
        for text in ("1884-24", "1884-23/1884-24", "1884-12", "1883/1884")
    }
    migration = import_module("catalogue.migrations.0013_let_winters_run_into_the_next_year")
    migration.run_on(apps, schema_editor=None)
    for row in rows.values():
        row.refresh_from_db()
    february = date(1885, 2, 28)
    assert [row.date_latest for row in rows.values()] == [february, february, december, december]
