"""What is done and what failed is known by its own row; what was at work is not, and failed.

The tiles of a picture, until now files of their own in a folder, lie in one file. Where it is there already, or
a tile is missing, the folder is left as it is.
"""

import os
import shutil
import struct
from pathlib import Path

from django.conf import settings
from django.db import migrations

SIDE = 512
PLACE = struct.Struct("<Q")
STOPPED = "The program was brought up to date while it was at work. Try again."


def fill(apps, schema_editor):
    for name, scan_of, reference_of in (
        ("platescan", lambda row: row, "plate__reference"),
        ("calibration", lambda row: row.scan, "scan__plate__reference"),
    ):
        rows = apps.get_model("catalogue", name).objects.select_related(reference_of)
        kind, _ = apps.get_model("contenttypes", "ContentType").objects.get_or_create(app_label="catalogue", model=name)
        for row in rows.iterator():
            is_over = row.state in ("done", "failed")
            apps.get_model("catalogue", "Work").objects.create(
                workroom_id=scan_of(row).plate.reference.workroom_id,
                row_type=kind,
                row_pk=row.pk,
                state=row.state if is_over else "failed",
                progress=row.progress,
                fault=row.fault if is_over else STOPPED,
                heartbeat=row.heartbeat or row.created_at,
                asked_at=row.created_at,
            )
            if row.state == "done":
                pack(folder_of(scan_of(row)) / str(getattr(row, "number", 0)), row.width, row.height)


def folder_of(scan):
    return Path(settings.DATA_DIR) / "files" / "scans" / scan.stem


def pack(folder, width, height):
    """One file of all tiles: where each begins and the last one ends, then the tiles, the deepest level first."""
    files = [folder / f"{level}-{column}-{row}.jpg" for level, row, column in tiles_of(width, height)]
    if all(file.is_file() for file in files):
        packed, part = folder.with_suffix(".tiles"), folder.with_suffix(".part")
        place = PLACE.size * (len(files) + 1)
        with part.open("wb") as to:
            to.write(PLACE.pack(place))
            for file in files:
                place += file.stat().st_size
                to.write(PLACE.pack(place))
            for file in files:
                to.write(file.read_bytes())
            to.flush()
            os.fsync(to.fileno())
        part.replace(packed)
        shutil.rmtree(folder)


def tiles_of(width, height):
    level = 0
    while SIDE << level < max(width, height):
        level += 1
    for one in range(level, -1, -1):
        for row in range(-(-height // SIDE)):
            for column in range(-(-width // SIDE)):
                yield one, row, column
        width, height = -(-width // 2), -(-height // 2)


class Migration(migrations.Migration):
    dependencies = (("catalogue", "0021_do_long_work_in_one_way"),)
    operations = (migrations.RunPython(fill, migrations.RunPython.noop),)
