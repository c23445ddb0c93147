"""Rows of outfits and people have keys that are the same wherever they are taken.

What was kept as JSON named rows by the numbers of this database; it names them by these keys from now on.
"""

import re
import uuid
from urllib.parse import parse_qsl, urlencode

from django.conf import settings
from django.db import migrations, models

NAMES = (
    "Alteration", "Comparison", "Dossier", "Fitting", "Garment", "Lay", "LogEntry", "LogPhoto", "Material",
    "Measures", "Observation", "ObservationPhoto", "Outfit", "PatternInHand", "RouteChoice", "Stand", "Task",
    "Trial", "Wearer", "WorkNote",
)  # fmt: skip
# The parts of a dossier's figures, by the model whose rows they name.
PARTS = {"garments": "Garment", "alterations": "Alteration", "fittings": "Fitting", "trials": "Trial", "done": "Task"}


def give_keys(apps, schema_editor):
    """A default would be asked once, and every row would get the same key."""
    for name in NAMES:
        model = apps.get_model("fitting", name)
        rows = list(model.objects.filter(key=None).only("pk"))
        for row in rows:
            row.key = uuid.uuid4()
        model.objects.bulk_update(rows, ["key"], batch_size=500)


class Keys:
    """The key of a row by its number; one that is gone has a key of its own, the same each time it is asked."""

    def __init__(self, apps):
        self.apps, self.known, self.gone = apps, {}, uuid.uuid4()

    def of(self, name, number, app="fitting"):
        if name not in self.known:
            rows = self.apps.get_model(app, name).objects.values_list("pk", "key")
            self.known[name] = {str(pk): str(key) for pk, key in rows}
        return self.known[name].get(str(number)) or str(uuid.uuid5(self.gone, f"{name} {number}"))


def name_rows_by_keys(apps, schema_editor):
    keys = Keys(apps)
    for row in _rows(apps, "Dossier", "snapshot"):
        if row.snapshot:
            row.snapshot = _figures(row.snapshot, keys)
            row.save(update_fields=["snapshot"])
    for row in _rows(apps, "Comparison", "inputs"):
        if "set" in row.inputs.get("measures", {}):
            row.inputs["measures"]["set"] = keys.of("Measures", row.inputs["measures"]["set"])
            row.save(update_fields=["inputs"])
    for row in _rows(apps, "WorkNote", "inputs").filter(kind="sheets"):
        if "boxes" in row.inputs:
            row.inputs["boxes"] = _boxes(row.inputs["boxes"], keys)
            row.save(update_fields=["inputs"])
    for row in _rows(apps, "Lay", "results", "key"):
        for laid in row.results:
            drawings = laid.get("drawings", {})
            for system, drawing in drawings.items():
                drawings[system] = re.sub(rf"\blay-{row.pk}-(?=\d)", f"lay-{row.key}-", drawing)
        row.save(update_fields=["results"])


def _rows(apps, name, *columns):
    return apps.get_model("fitting", name).objects.only(*columns)


def _figures(kept, keys):
    named = {
        part: {keys.of(model, number): said for number, said in kept[part].items()}
        for part, model in PARTS.items()
        if part in kept
    }
    for garment in named.get("garments", {}).values():
        if garment.get("comparison"):
            garment["comparison"] = keys.of("Comparison", garment["comparison"])
    for taken in kept.get("measures", {}).values():
        taken["key"] = keys.of("Measures", taken["key"])
    return kept | named


def _boxes(query, keys):
    def named(name, value):
        if name == "pieces":
            return keys.of("Piece", value, app="catalogue")
        return keys.of("Stand", value) if name == "stand" and value else value

    pairs = parse_qsl(query, keep_blank_values=True)
    return urlencode([(name, named(name, value)) for name, value in pairs])


class Migration(migrations.Migration):
    dependencies = [
        ("fitting", "0009_page_plans_can_be_kept"),
        ("catalogue", "0016_key_seams_scans_and_calibrations"),
    ]

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
        *(
            migrations.AlterField(
                model_name=name,
                name="key",
                field=models.UUIDField(db_index=True, default=uuid.uuid4, editable=False),
            )
            for name in NAMES
        ),
        migrations.RunPython(name_rows_by_keys, migrations.RunPython.noop),
    ]
