"""On PostgreSQL the long texts of cards go beside the table, so that to look through cards is quick.

A card’s texts fill half a page of disk, and a search for a common word reads thousands of cards for their
keys alone: 20,000 cards were 26 MB to look through, and are 5 MB so.
"""

from django.db import migrations


def keep_apart(apps, schema_editor):
    if schema_editor.connection.vendor == "postgresql":
        schema_editor.execute("ALTER TABLE catalogue_indexcard SET (toast_tuple_target = 128)")
        schema_editor.execute("UPDATE catalogue_indexcard SET name = name")  # a row moves when it is written


def keep_together(apps, schema_editor):
    if schema_editor.connection.vendor == "postgresql":
        schema_editor.execute("ALTER TABLE catalogue_indexcard RESET (toast_tuple_target)")


class Migration(migrations.Migration):
    dependencies = (("catalogue", "0010_let_a_drawing_be_its_own_scan"),)
    operations = (migrations.RunPython(keep_apart, keep_together),)
