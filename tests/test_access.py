"""Who may open what: every row of the table in tests/doors.py, and six people at each door.

A new address fails the first test until it is said there whom it answers.
"""

import shutil
from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path
from types import SimpleNamespace

import pytest
from django.db import transaction
from django.http import HttpResponse
from django.test import Client, override_settings
from django.urls import URLPattern, get_resolver, reverse

from catalogue.workroom.guard import OPEN_VIEWS
from catalogue.workroom.models import User
from fitting.planning.actions import give_address
from tests.doors import ANYBODY, SIGNED_IN, TABLE, Door
from tests.makers.one_of_each import one_of_each
from tests.makers.rows import People, make_people, one_time_path

OURS = "Ourselves Alone"  # part of every name in the workroom: no page of a stranger's may hold it
WAIST = "27 7/16 in"  # no page of a reader's may hold it


def names(patterns: list) -> Iterator[str]:
    for pattern in patterns:
        if isinstance(pattern, URLPattern):
            yield pattern.name or f"{pattern.pattern} has no name"
        else:
            yield from names(pattern.url_patterns)


@pytest.fixture(scope="module")
def kept_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("kept")


@pytest.fixture(scope="module")
def kept(django_db_setup, django_db_blocker, kept_folder: Path) -> Iterator[SimpleNamespace]:
    """One of each, and six people signed in, for the whole module; what a test does is undone after it."""
    with django_db_blocker.unblock(), transaction.atomic():
        with override_settings(DATA_DIR=kept_folder):
            people = make_people()
            rows = one_of_each(people, name=OURS, waist=WAIST)
        yield SimpleNamespace(people=people, rows=rows, visitors=sign_in(people))
        transaction.set_rollback(True)


def sign_in(people: People) -> dict[str, Client]:
    clients = {who: Client() for who in ANYBODY}
    for who in SIGNED_IN - {"newcomer"}:
        clients[who].force_login(getattr(people, who))
    clients["newcomer"].force_login(User.objects.create_user(username="newcomer"))
    return clients


@pytest.fixture
def data_folder(settings, data_folder: Path, kept_folder: Path) -> Path:
    """With the files that the rows have."""
    shutil.copytree(kept_folder, data_folder, dirs_exist_ok=True)
    return data_folder


# Each test gets copies: what it changes in one, the next does not see.


@pytest.fixture
def people(kept: SimpleNamespace, db) -> People:
    return deepcopy(kept.people)


@pytest.fixture
def ours(kept: SimpleNamespace, data_folder, db) -> SimpleNamespace:
    return deepcopy(kept.rows)


@pytest.fixture
def visitors(kept: SimpleNamespace, db) -> dict[str, Client]:
    clients = {who: Client() for who in kept.visitors}
    for who, client in clients.items():
        client.cookies = deepcopy(kept.visitors[who].cookies)
    return clients


def address(name: str, ours: SimpleNamespace, people: People) -> str:
    if name == "sign-in-once":
        return one_time_path(people.maker)
    if name == "invitation-open":
        return ours.invited_at
    if name == "calendar-feed":
        return reverse(name, args=[give_address(people.workroom, user=people.maker)])
    if name == "shared-log":
        return reverse(name, args=[ours.secret])
    if name == "shared-photo":
        return reverse(name, args=[ours.secret, ours.log_photo.pk, 320])
    door = TABLE[name]
    rows = [getattr(ours, door.row).pk] if door.row else []
    return reverse(name, args=[*rows, *door.more])


def is_answered(who: str, door: Door) -> bool:
    """A stranger is answered too, where the page is of whatever workroom they have."""
    return who in door.answers or (who == "stranger" and not door.row)


def check_refusal(who: str, answer: HttpResponse) -> None:
    if who == "nobody":
        assert answer["Location"].startswith(reverse("sign-in"))
    else:
        # Which of the two a newcomer meets tells them nothing.
        owed = {"stranger": (404,), "newcomer": (403, 404)}.get(who, (403,))
        assert answer.status_code in owed, who


def check_answer(who: str, answer: HttpResponse, door: Door) -> None:
    """A page that only takes what is sent may lead to the one it is sent from."""
    assert answer.status_code in ((405,) if door.only_post else (200, 302)), who
    assert not answer.get("Location", "").startswith(reverse("sign-in")), who
    shown = (b"".join(answer) if answer.streaming else answer.content).decode(errors="replace")
    assert who not in {"stranger", "newcomer"} or OURS not in shown
    assert who != "reader" or WAIST not in shown


def test_every_address_has_its_row_and_every_row_an_address():
    assert sorted(names(get_resolver().url_patterns)) == sorted(TABLE)


def test_what_is_open_to_anybody_is_the_one_list():
    assert {name for name, door in TABLE.items() if "nobody" in door.answers} == set(OPEN_VIEWS)


@pytest.mark.parametrize("name", TABLE)
def test_a_page_answers_those_it_is_for_and_nobody_else(people, ours, visitors, name):
    door, at = TABLE[name], address(name, ours, people)
    for who, client in visitors.items():
        if is_answered(who, door):
            check_answer(who, client.get(at), door)
        else:
            check_refusal(who, client.post(at))
            if not door.only_post:
                check_refusal(who, client.get(at))


def test_a_measure_is_where_this_table_says_it_is_hidden(ours, visitors):
    """Without this the search for it on a reader's pages could not fail."""
    for row in (ours.wearer, ours.measures, ours.garment):
        assert WAIST in visitors["maker"].get(row.get_absolute_url()).content.decode()
