from datetime import timedelta

import pytest

from fitting.dossier.loading.snapshot import snapshot_now
from tests.makers.rows import NOON, make_dossier, make_entry, make_garment, make_outfit, make_wearer


@pytest.fixture
def outfit(people, client):
    client.force_login(people.maker)
    outfit = make_outfit(people.workroom, wearer=make_wearer(people.workroom))
    make_garment(outfit)
    return outfit


def kept(outfit, days_ago: int, **given):
    snapshot = snapshot_now(outfit, by=None, at=NOON)
    asked_at = NOON - timedelta(days=days_ago)
    return make_dossier(outfit, asked_at=asked_at, snapshot=snapshot, **given)


def words_of(answer) -> str:
    return " ".join(answer.content.decode().split())


def test_each_tells_what_changed_until_the_next_and_the_last_what_changed_since(client, outfit):
    kept(outfit, 9, mark="0badcafe")
    make_entry(outfit, hours=2)
    kept(outfit, 5)
    make_entry(outfit, hours=1)
    page = words_of(client.get(f"/outfits/{outfit.pk}/dossiers/"))
    assert "mark 0badcafe" in page
    assert page.index("Changed since") < page.index("1 h of work logged")
    assert page.index("1 h of work logged") < page.index("Changed until 15 November 2026")
    assert page.index("Changed until 15 November 2026") < page.index("2 h of work logged")


def test_one_that_failed_or_kept_no_figures_is_listed_without_a_tale(client, outfit):
    make_dossier(outfit, {"state": "failed", "fault": "Pango is missing."})
    make_dossier(outfit, pages=8)
    page = words_of(client.get(f"/outfits/{outfit.pk}/dossiers/"))
    assert "failed" in page
    assert "Changed" not in page


def test_an_outfit_without_any_says_what_one_is_for(client, outfit):
    assert "None printed yet" in words_of(client.get(f"/outfits/{outfit.pk}/dossiers/"))


@pytest.mark.parametrize("count", [1, 50])
def test_it_asks_as_often_for_many_as_for_one(client, outfit, count, django_assert_num_queries):
    for days in range(count):
        kept(outfit, days)
    with django_assert_num_queries(28):
        client.get(f"/outfits/{outfit.pk}/dossiers/")
