"""A workroom's custom: by whose clock its hours are. What was noted by that clock stays at its hour."""

from functools import cache
from zoneinfo import available_timezones

from django.db import transaction

from catalogue.workroom.models import Workroom, WorkroomModel

# Regions of places that people live in; the other names of the database are older words for the same.
REGIONS = (
    "Africa", "America", "Antarctica", "Arctic", "Asia",
    "Atlantic", "Australia", "Europe", "Indian", "Pacific",
)  # fmt: skip
# Columns that hold an appointment: filled by the subjects when the app starts.
_by_the_clock: list[tuple[type[WorkroomModel], str]] = []


@cache
def time_zones() -> dict[str, list[str]]:
    """Names of time zones, by region."""
    names = sorted(available_timezones())
    return {region: [name for name in names if name.startswith(f"{region}/")] for region in REGIONS}


def is_time_zone(name: str) -> bool:
    return name == "UTC" or name in time_zones().get(name.partition("/")[0], ())


def keep_by_the_clock(model: type[WorkroomModel], column: str) -> None:
    """Register a column of hours that are said by the clock on the wall, as an appointment is."""
    if (model, column) not in _by_the_clock:
        _by_the_clock.append((model, column))


@transaction.atomic
def move_workroom(workroom: Workroom, *, time_zone: str) -> None:
    """Say where a workroom is. A fitting noted for noon is at noon there too."""
    before, workroom.time_zone = workroom.zone, time_zone
    workroom.save(update_fields=["time_zone"])
    for model, column in _by_the_clock:
        for row in model.objects.of_workroom(workroom):
            by_the_clock = getattr(row, column).astimezone(before)
            setattr(row, column, by_the_clock.replace(tzinfo=workroom.zone))
            row.save(update_fields=[column, "changed_at"])
