"""The people of a workroom, with the newest measures of each."""

import datetime

import pytest

from fitting.wearers.models import Maker
from tests.makers.rows import make_garment, make_measures, make_outfit, make_wearer


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def long_ago(days: int) -> datetime.date:
    return datetime.date.today() - datetime.timedelta(days=days)


def test_an_empty_list_says_what_a_wearer_is_for(maker):
    assert "Nobody yet" in maker.get("/wearers/").content.decode()


def test_measures_older_than_the_maker_trusts_are_marked_stale(maker, people):
    make_measures(make_wearer(people.workroom, name="Fresh"), taken_on=long_ago(89))
    make_measures(make_wearer(people.workroom, name="Old"), taken_on=long_ago(95))
    page = maker.get("/wearers/")
    assert [why for _, _, why in page.context["rows"]] == ["", "95 days old"]
    Maker.objects.create(user=people.maker, stale_days=200)
    assert [why for _, _, why in maker.get("/wearers/").context["rows"]] == ["", ""]


def test_another_workrooms_wearers_are_not_on_the_list(client, people):
    make_wearer(people.workroom, name="Ottilie")
    client.force_login(people.stranger)
    assert "Ottilie" not in client.get("/wearers/").content.decode()


@pytest.mark.parametrize("count", [1, 50])
def test_the_list_takes_the_same_queries_at_any_length(maker, people, django_assert_num_queries, count):
    for number in range(count):
        wearer = make_wearer(people.workroom, name=f"Wearer {number}")
        worn = make_garment(make_outfit(people.workroom, wearer=wearer), name="stays")
        make_measures(wearer).worn.add(worn)
        make_measures(wearer)
    with django_assert_num_queries(8):
        maker.get("/wearers/")
