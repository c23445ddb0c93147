"""What an archive points to, or knows again, has a key.

The keys follow from what the older archives say of these rows, so that one taken in again finds them.
"""

import uuid

from django.conf import settings
from django.db import migrations, models


def give_keys(apps, schema_editor):
    """A default would be asked once, and every row would get the same key."""
    PlateScan, Calibration, Seam = (
        apps.get_model("catalogue", name) for name in ("PlateScan", "Calibration", "Seam")
    )
    scans = list(PlateScan.objects.select_related("plate").only("plate__key"))
    for row in scans:
        row.key = uuid.uuid5(row.plate.key, "scan")
    PlateScan.objects.bulk_update(scans, ["key"], batch_size=500)
    calibrations = list(Calibration.objects.select_related("scan__plate").only("number", "scan__plate__key"))
    for row in calibrations:
        row.key = uuid.uuid5(row.scan.plate.key, f"calibration {row.number}")
    Calibration.objects.bulk_update(calibrations, ["key"], batch_size=500)
    seams = list(Seam.objects.select_related("plate", "piece_a", "piece_b").order_by("plate", "pk"))
    met = {}
    for row in seams:
        said = (row.plate_id, str(row.piece_a.key), row.edge_a, str(row.piece_b.key), row.edge_b)
        met[said] = met.get(said, 0) + 1
        row.key = uuid.uuid5(row.plate.key, "seam " + " ".join([*said[1:], str(met[said])]))
    Seam.objects.bulk_update(seams, ["key"], batch_size=500)


KEY = models.UUIDField(db_index=True, default=uuid.uuid4, editable=False)
NAMES = ("calibration", "platescan", "seam")


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0015_tell_who_changed_a_row_last")]

    operations = [
        *(
            migrations.AddField(
                model_name=name,
                name="changed_by",
                field=models.ForeignKey(
                    settings.AUTH_USER_MODEL,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                ),
            )
            for name in NAMES
        ),
        *(
            migrations.AddField(
                model_name=name, name="key", field=models.UUIDField(editable=False, null=True)
            )
            for name in NAMES
        ),
        migrations.RunPython(give_keys, migrations.RunPython.noop),
        *(migrations.AlterField(model_name=name, name="key", field=KEY.clone()) for name in NAMES),
    ]
