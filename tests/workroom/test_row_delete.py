"""One page asks before a row of any kind is deleted; then one lands where the row was, with the way back."""

import html
import re

import pytest
from django.db import transaction
from django.urls import resolve, reverse

from catalogue.workroom.deletions import DELETIONS
from tests.doors import TABLE
from tests.makers.one_of_each import one_of_each

ADDRESSES = [name for name in TABLE if name.endswith("-delete")]


@pytest.fixture
def asked(client, people, data_folder) -> dict[str, str]:
    """The address at which each kind is deleted, by its name."""
    client.force_login(people.maker)
    rows = one_of_each(people, name="ours {row}", waist="27 in")
    return {name: reverse(name, args=[getattr(rows, TABLE[name].row).pk]) for name in ADDRESSES}


def heading(page: str) -> str:
    return html.unescape(re.search("<h1>(.*?)</h1>", page)[1])


def test_every_kind_has_its_row_and_its_address(asked):
    assert {resolve(path).kwargs["model"] for path in asked.values()} == DELETIONS.keys()


def test_every_page_asks_and_says_for_how_long_it_can_be_brought_back(client, asked):
    pages = {name: client.get(path).content.decode() for name, path in asked.items()}
    assert {name for name, page in pages.items() if not heading(page).endswith("?")} == set()
    kept = "For thirty days it can be brought back"
    assert {name for name, page in pages.items() if kept not in page} == set()
    assert heading(pages["measures-delete"]) == "Delete the measures of 2 November 2026?"
    assert heading(pages["material-delete"]).startswith("Take “")
    assert heading(pages["outfit-delete"]) == "Delete “ours {row}”?"


def test_one_lands_where_it_was_with_the_button_that_brings_it_back(client, asked):
    fates = {}
    for name, path in asked.items():
        with transaction.atomic():
            answer = client.post(path, follow=True)
            fates[name] = (answer.status_code, "Bring it back" in answer.content.decode())
            transaction.set_rollback(True)
    assert fates == dict.fromkeys(asked, (200, True))
