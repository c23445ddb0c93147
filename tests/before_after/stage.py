"""The demo workroom at a moment that never passes, and six people before its doors.

Two takes are equal because the day is that of the demo's story, the clock that bounds a search moves by one
step at each look, what would run in a process of its own runs here, and the solver of lays, whose threads
race, is not there: our own packing answers in its place, the same each time.

Only names that outlast a move of the code are used: commands, addresses, models by their label.
"""

import contextlib
import io
import os
import re
import subprocess
import sys
import time
import uuid
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from itertools import count
from pathlib import Path

import django
from django.apps import apps
from django.core.management import call_command, execute_from_command_line
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from tests.before_after.boxes import boxes_of

TOP = Path(__file__).resolve().parents[2]
NOW = datetime(2026, 11, 25, 12, tzinfo=UTC)
LOOK_S = 0.02  # by which the clock that bounds a search moves, each time that it is looked at
SECRETS = (r"(/sign-in/once/)[\w-]{20,}/", r"(/calendar/)[\w-]{20,}\.ics", r"(/shown/)[\w-]{20,}/")

_popen = subprocess.Popen


def open_in(folder: Path) -> None:
    """Set up the program with its data in `folder`. This process does nothing else afterwards."""
    (folder / "stand-in").mkdir()
    (folder / "stand-in" / "spyrrow.py").write_text("raise SystemExit\n")
    for name in ("DATABASE_URL", "PLATE_HOSTS", "PLATE_HTTPS", "PLATE_DEBUG"):
        os.environ.pop(name, None)
    os.environ |= {
        "PLATE_DATA": str(folder / "demo"),
        "DJANGO_SETTINGS_MODULE": "fitting.site.settings",
        "PYTHONPATH": str(folder / "stand-in"),
        "COLUMNS": "100",
    }
    os.chdir(TOP)
    ticks, looks, keys = count(), count(), count(1)
    timezone.now = lambda: NOW + timedelta(microseconds=next(ticks))
    time.monotonic = lambda: next(looks) * LOOK_S
    uuid.uuid4 = lambda: uuid.UUID(int=next(keys), version=4)  # lists may go by a key: in order of making
    subprocess.Popen = _started
    django.setup()
    for field in _fields_of_today():
        field.default = NOW.date
        vars(field).pop("_get_default", None)


def _started(words: list[str], *rest: object, **named: object) -> subprocess.Popen:
    """A command of this program runs here and now; another program as ever."""
    if words[1:] and Path(words[1]).name == "manage.py":
        call_command(*words[2:])
        words = [sys.executable, "-c", ""]
    return _popen(words, *rest, **named)


def _fields_of_today() -> Iterator:
    for model in apps.get_models():
        yield from (field for field in model._meta.fields if getattr(field, "default", None) == date.today)


def command(*words: str) -> str:
    """Exit code, standard output and standard error of `manage.py WORDS`."""
    out, err, code = io.StringIO(), io.StringIO(), 0
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            execute_from_command_line(["manage.py", *words])
        except SystemExit as end:
            code = end.code
    return plain(f"exit {code}\n--- out\n{out.getvalue()}\n--- err\n{err.getvalue()}")


def plain(text: str) -> str:
    """Without what differs from take to take: tokens, secret addresses, keys, the time of day, folders."""
    text = re.sub(r'(csrfmiddlewaretoken" value="|"token": ")\w{64}', r"\1[token]", text)
    for pattern in SECRETS:
        text = re.sub(pattern, r"\1[secret]/", text)
    text = re.sub(r"(?i)\b[0-9a-f]{8}(-?[0-9a-f]{4}){3}-?[0-9a-f]{12}\b", "[key]", text)
    text = re.sub(r"\b(\d{4}-\d\d-\d\dT)?\d\d:\d\d:\d\d\.\d+", "[time]", text)
    text = re.sub(r"(?m)(TDU?(?:CREATE|UPDATE)\s+40\s+)[\d.]+", r"\1[time]", text)  # of a DXF
    return text.replace(str(Path(os.environ["PLATE_DATA"]).parent), "[folder]")


def visitors() -> dict[str, Client]:
    """A browser for each: the demo's three members, keeper of another workroom, in none, not signed in."""
    User, Member = apps.get_model("catalogue.User"), apps.get_model("catalogue.Member")
    people = {member.role: member.user for member in Member.objects.select_related("user")}
    people |= {who: User.objects.create_user(username=who) for who in ("stranger", "newcomer")}
    elsewhere = apps.get_model("catalogue.Workroom").objects.create(name="Other house")
    Member.objects.create(workroom=elsewhere, user=people["stranger"], role="keeper")
    browsers = {
        who: Client(SERVER_NAME="127.0.0.1", raise_request_exception=False) for who in (*people, "nobody")
    }
    for who, user in people.items():
        browsers[who].force_login(user)
    return browsers


def send(browser: Client, at: str, **given: object) -> str:
    """Send the form of a page as it is offered, but for what is `given`; the page that follows."""
    boxes = boxes_of(browser.get(at).content.decode())
    answer = browser.post(at, boxes | given, follow=True)
    if answer.status_code != 200:
        raise RuntimeError(f"{at} answered {answer.status_code}")
    return answer.content.decode()


def prepare(keeper: Client) -> list[str]:
    """What no link of the demo leads to, made as on its pages. Returns the addresses shown once."""
    outfits = apps.get_model("fitting.Outfit").objects.order_by("pk")
    for outfit in outfits:
        send(keeper, reverse("dossier-add", args=[outfit.pk]))
    first = outfits.first()
    send(keeper, reverse("dossier-add", args=[first.pk]), everything="on")
    question = apps.get_model("catalogue.Question").objects.order_by("pk").last()
    send(keeper, reverse("question-delete", args=[question.pk]))
    reader = apps.get_model("catalogue.Member").objects.get(role="reader")
    log = {
        "entries": list(first.log.values_list("pk", flat=True)),
        "photos": list(first.log.exclude(photos=None).values_list("photos", flat=True)),
    }
    share = {"label": "A friend", "wearer_agrees": "on", **log}
    shown = (
        send(keeper, reverse("member-sign-in-address", args=[reader.pk])),
        send(keeper, reverse("calendar-detail")),
        send(keeper, reverse("share-add", args=[first.pk]), **share),
    )
    return [re.search(pattern, page)[0] for pattern, page in zip(SECRETS, shown, strict=True)]
