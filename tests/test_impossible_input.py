"""Numbers that Python or a database refuses to read, and JSON nested past all reach, are never an error.

Python reads no number of more than 4,300 digits (https://docs.python.org/3/library/stdtypes.html, “Integer
string conversion length limitation”), and a database none beyond 64 bits.
"""

from types import SimpleNamespace

import pytest
from django.test import Client
from django.urls import reverse

from catalogue.workroom.guard import key_of
from tests.doors import TABLE
from tests.makers.one_of_each import one_of_each

IMPOSSIBLE = {"5,000 digits": "9" * 5_000, "30 digits": "9" * 30}
# Pages that are asked for a number after the question mark: of a row, of a page, a year.
ASKED = {
    "side-by-side": ("garment",),
    "source-list": ("page",),
    "source-export": ("source",),
    "reference-list": ("page", "garment", "year_from", "year_to"),
    "plate-trace": ("piece",),
    "measures-add": ("from",),
    "fitting-plan": ("garment",),
    "alteration-add": ("observation",),
    "work-sheet": ("from",),
    "lay-add": ("cloth",),
    "log-list": ("page", "garment"),
    "log-add": ("garment", "task"),
}
# Pages that are sent one, and what they answer.
SENT = [
    ("workroom-choose", "workroom", 404),
    ("share-add", "entries", 200),
    ("share-add", "photos", 200),
    ("outline-change", "count", 302),
]


@pytest.fixture
def ours(people) -> SimpleNamespace:
    return one_of_each(people, name="Ours", waist="27 in")


@pytest.fixture
def maker(client: Client, people) -> Client:
    client.force_login(people.maker)
    return client


def address(name: str, ours: SimpleNamespace) -> str:
    door = TABLE[name]
    return reverse(name, args=[*([getattr(ours, door.row).pk] if door.row else []), *door.more])


@pytest.mark.parametrize("number", IMPOSSIBLE.values(), ids=IMPOSSIBLE)
def test_a_page_that_is_asked_for_an_impossible_number_answers(ours, maker, number):
    for name, asked in ASKED.items():
        answer = maker.get(address(name, ours), dict.fromkeys(asked, number), follow=True)
        assert answer.status_code == 200, name


@pytest.mark.parametrize(("name", "box", "status"), SENT)
def test_a_page_that_is_sent_an_impossible_number_answers(ours, maker, name, box, status):
    assert maker.post(address(name, ours), {box: "9" * 5_000}).status_code == status


@pytest.mark.parametrize("number", IMPOSSIBLE.values(), ids=IMPOSSIBLE)
def test_no_address_has_a_row_of_an_impossible_number(client, people, number):
    client.force_login(people.keeper)
    for name, door in TABLE.items():
        if door.row and not door.only_post:
            more = [number if isinstance(one, int) else one for one in door.more]
            assert client.get(reverse(name, args=[number, *more])).status_code == 404, name


@pytest.mark.parametrize("typed", [*IMPOSSIBLE.values(), "-1", "1.0", "x", ""])
def test_what_is_no_key_is_the_key_of_no_row(typed):
    assert key_of(typed) == 0


def test_a_key_of_the_most_digits_is_read():
    assert key_of("9" * 18) == 10**18 - 1


@pytest.mark.parametrize("name", ["trace-keep", "outline-onto-line"])
def test_json_nested_past_all_reach_is_refused_with_a_sentence(ours, maker, name):
    deep = '{"nodes":' + "[" * 100_000 + "]" * 100_000 + "}"
    answer = maker.post(address(name, ours), deep, content_type="application/json")
    assert answer.status_code == 400
    assert "could not be read" in answer.json()["sentence"]


@pytest.mark.parametrize(
    "body",
    [
        '{"as_of": null, "as_of": null, "pieces": [], "levels": []}',
        '{"as_of": null, "pieces": [], "levels": [NaN]}',
        b'{"as_of": "\xff", "pieces": [], "levels": []}',
    ],
)
def test_a_drawing_that_means_two_things_or_none_is_not_kept(ours, maker, body):
    answer = maker.post(address("trace-keep", ours), body, content_type="application/json")
    assert answer.status_code == 400
    assert "could not be read" in answer.json()["sentence"]
