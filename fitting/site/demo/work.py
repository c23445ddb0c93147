"""Half a year of work on the demo outfits, as `work.json` tells it: tasks, materials, the log."""

from collections.abc import Iterable, Mapping
from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile

from catalogue.lengths.models import TypedLength
from catalogue.photographs.actions import SentPicture
from catalogue.photographs.imaging import read_upload
from catalogue.workroom.models import User
from fitting.outfits.actions import keep_photo
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogEntry
from fitting.outfits.models.material import Material
from fitting.outfits.models.outfit import Outfit
from fitting.planning.models import Task
from fitting.site.demo.told import Told, given

Row = Mapping[str, Any]
LENGTHS = ("width", "needed", "on_hand", "bought")


def load_work(told: Told, garments: Mapping[str, Garment]) -> None:
    """`garments` by `outfit/garment`, at the stage to which the log has brought them."""
    for key, row in told.work().items():
        own = {name.split("/")[1]: one for name, one in garments.items() if name.startswith(f"{key}/")}
        outfit = next(iter(own.values())).outfit
        Outfit.objects.filter(pk=outfit.pk).update(**given(row, "currency", "budget", "hours_a_week"))
        tasks = _tasks(told, outfit, own, row["tasks"])
        for material in row["materials"]:
            _material(outfit, own, material)
        _log(told, outfit, own, tasks, row["log"])


def _tasks(
    told: Told, outfit: Outfit, garments: Mapping[str, Garment], rows: Iterable[Row]
) -> dict[str, Task]:
    tasks: dict[str, Task] = {}
    for row in rows:
        task = tasks[row["key"]] = Task.objects.create(
            outfit=outfit,
            garment=garments.get(row.get("garment")),
            due_on=told.day(row.get("due_on")),
            done_on=told.day(row.get("done_on")),
            **given(row, "name", "leads_to", "estimate_hours"),
        )
        task.waits_for.set(tasks[key] for key in row.get("waits_for", ()))
    return tasks


def _material(outfit: Outfit, garments: Mapping[str, Garment], row: Row) -> Material:
    counts = ("needed_count", "on_hand_count", "bought_count")
    return Material.objects.create(
        outfit=outfit,
        garment=garments.get(row.get("garment")),
        **{name: TypedLength.of(row.get(name)) for name in LENGTHS},
        **given(row, "kind", "name", *counts, "price", "cost", "supplier", "notes"),
    )


def _log(
    told: Told,
    outfit: Outfit,
    garments: Mapping[str, Garment],
    tasks: Mapping[str, Task],
    rows: Iterable[Row],
) -> None:
    """Rows as they were written, oldest first: the garments are where the last of them brought them."""
    stages: dict[str, str] = dict.fromkeys(garments, Garment.Stage.STUDIED)
    for row in rows:
        garment = row.get("garment")
        entry = LogEntry.objects.create(
            outfit=outfit,
            garment=garments.get(garment),
            task=tasks.get(row.get("task")),
            day=told.day(row["day"]),
            stage_before=stages[garment] if "stage" in row else "",
            by=User.objects.get(username=row["by"]) if "by" in row else outfit.maker,
            seam=TypedLength.of(row.get("seam")),
            **given(row, "text", "hours", "cost", "stage", "seam_minutes"),
        )
        if "stage" in row:
            stages[garment] = row["stage"]
        for photo in row.get("photos", ()):
            sent = SimpleUploadedFile(photo["file"], (told.folder / "pictures" / photo["file"]).read_bytes())
            picture = SentPicture(file=sent, prepared=read_upload(sent))
            shows_wearer = photo.get("shows_wearer", False)
            keep_photo(entry, picture, shows_wearer=shows_wearer, caption=photo["caption"])
