"""Through how many own files a typed reading passes on its way to a verdict."""

import functools
import gc
import sys
from collections.abc import Callable
from types import FrameType

from django.apps import apps
from django.test import Client
from django.urls import reverse

from tests.before_after.boxes import boxes_of
from tests.before_after.stage import TOP

HOUSE = tuple(f"{TOP / name}/" for name in ("catalogue", "fitting"))
LEFT_OUT = f"{TOP / 'fitting' / 'site'}/"  # settings and what stands round every view


def take(keeper: Client) -> list[str]:
    """Readings are sent as they stand, then the garment is compared; the files in the order of entering."""
    garment = apps.get_model("fitting.Comparison").objects.order_by("pk").first().garment
    plate = reverse("plate-detail", args=[garment.plate_id])
    to = reverse("plate-readings", args=[garment.plate_id])
    boxes = boxes_of(keeper.get(plate).content.decode(), action=to)
    answers = []

    def read_and_compare() -> None:
        answers.append(keeper.post(to, boxes))
        answers.append(keeper.post(reverse("comparison-make", args=[garment.pk])))

    passed = files_entered(read_and_compare)
    if [answer.status_code for answer in answers] != [302, 302] or "/comparisons/" not in answers[1][
        "Location"
    ]:
        raise RuntimeError(f"Not read and compared: {answers}")
    return passed


def files_entered(work: Callable[[], None]) -> list[str]:
    """Own files of which a function runs in `work`. What was remembered from before is forgotten first."""
    for one in gc.get_objects():
        if isinstance(one, functools._lru_cache_wrapper) and one.__module__.startswith(
            ("catalogue", "fitting")
        ):
            one.cache_clear()
    entered: dict[str, None] = {}

    def look(frame: FrameType, event: str, _: object) -> None:
        file = frame.f_code.co_filename
        # A module's own lines run once, when it is imported: that says nothing of this way.
        if event == "call" and file.startswith(HOUSE) and frame.f_code.co_name != "<module>":
            entered.setdefault(file)

    sys.setprofile(look)
    try:
        work()
    finally:
        sys.setprofile(None)
    return [file.removeprefix(f"{TOP}/") for file in entered if not file.startswith(LEFT_OUT)]
