"""A full-text index over the folded columns of index cards, kept by each database itself.

SQLite: triggers. Whoever alters the table of cards later makes them again, for SQLite drops them when Django
rebuilds a table. PostgreSQL: a generated column, which no model names.
"""

from django.db import migrations

COLUMNS = ("name", "place", "materials", "technique", "fastening", "facts", "notes", "around")
NEW, OLD = (", ".join(f"{row}.{column}" for column in COLUMNS) for row in ("new", "old"))
LISTED = ", ".join(COLUMNS)
PUT = f"INSERT INTO catalogue_index_words (rowid, {LISTED}) VALUES (new.id, {NEW});"
TAKE = (
    f"INSERT INTO catalogue_index_words (catalogue_index_words, rowid, {LISTED}) "
    f"VALUES ('delete', old.id, {OLD});"
)
SQLITE = (
    # The words are folded and parted before they come here: every letter beyond ASCII stays as it is.
    f"""CREATE VIRTUAL TABLE catalogue_index_words USING fts5({LISTED},
        content='catalogue_indexcard', content_rowid='id', tokenize='ascii', prefix='2 3')""",
    # A word in the name counts for more than one in the notes. The figures are our own.
    """INSERT INTO catalogue_index_words (catalogue_index_words, rank)
        VALUES ('rank', 'bm25(10.0, 4.0, 4.0, 4.0, 4.0, 4.0, 2.0, 1.0)')""",
    f"CREATE TRIGGER catalogue_card_put AFTER INSERT ON catalogue_indexcard BEGIN {PUT} END",
    f"CREATE TRIGGER catalogue_card_taken AFTER DELETE ON catalogue_indexcard BEGIN {TAKE} END",
    f"CREATE TRIGGER catalogue_card_changed AFTER UPDATE ON catalogue_indexcard BEGIN {TAKE} {PUT} END",
)
SQLITE_BACK = (
    "DROP TRIGGER catalogue_card_changed",
    "DROP TRIGGER catalogue_card_taken",
    "DROP TRIGGER catalogue_card_put",
    "DROP TABLE catalogue_index_words",
)
POSTGRESQL = (
    """ALTER TABLE catalogue_indexcard ADD COLUMN words tsvector GENERATED ALWAYS AS (
        setweight(to_tsvector('simple'::regconfig, name), 'A') ||
        setweight(to_tsvector('simple'::regconfig,
            place || materials || technique || fastening || facts), 'B') ||
        setweight(to_tsvector('simple'::regconfig, notes), 'C') ||
        setweight(to_tsvector('simple'::regconfig, around), 'D')) STORED""",
    "CREATE INDEX catalogue_index_words ON catalogue_indexcard USING gin (words)",
)
POSTGRESQL_BACK = ("ALTER TABLE catalogue_indexcard DROP COLUMN words",)


def run(schema_editor, *, sqlite, postgresql):
    for statement in {"sqlite": sqlite, "postgresql": postgresql}[schema_editor.connection.vendor]:
        schema_editor.execute(statement)


def index(apps, schema_editor):
    run(schema_editor, sqlite=SQLITE, postgresql=POSTGRESQL)


def forget(apps, schema_editor):
    run(schema_editor, sqlite=SQLITE_BACK, postgresql=POSTGRESQL_BACK)


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0003_describe_tag_and_index_garments")]
    operations = [migrations.RunPython(index, forget)]
