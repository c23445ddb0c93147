"""What is done and what failed is known by its own row; what was at work is not, and failed.

Dossiers lie with all other files.
"""

from pathlib import Path

from django.conf import settings
from django.db import migrations

STOPPED = "The program was brought up to date while it was at work. Try again."


def fill(apps, schema_editor):
    for name, outfit_of, path in (
        ("dossier", lambda row: row.outfit, "outfit"),
        ("lay", lambda row: row.garment.outfit, "garment__outfit"),
    ):
        kind, _ = apps.get_model("contenttypes", "ContentType").objects.get_or_create(app_label="fitting", model=name)
        for row in apps.get_model("fitting", name).objects.select_related(path).iterator():
            is_over = row.state in ("done", "failed")
            apps.get_model("catalogue", "Work").objects.create(
                workroom_id=outfit_of(row).workroom_id,
                row_type=kind,
                row_pk=row.pk,
                state=row.state if is_over else "failed",
                progress=row.progress,
                fault=row.fault if is_over else STOPPED,
                heartbeat=row.heartbeat or row.asked_at,
                asked_at=row.asked_at,
            )
    move_dossiers(Path(settings.DATA_DIR))


def move_dossiers(folder):
    """Once more, where it was cut short, it moves what is left."""
    to = folder / "files" / "dossiers"
    for file in (folder / "dossiers").glob("*.pdf"):
        to.mkdir(mode=0o700, parents=True, exist_ok=True)
        file.replace(to / file.name)


class Migration(migrations.Migration):
    dependencies = (
        ("catalogue", "0022_fill_long_work_and_pack_tiles"),
        ("fitting", "0019_know_long_work_by_its_own_row"),
    )
    operations = (migrations.RunPython(fill, migrations.RunPython.noop),)
