"""Where a workroom is, and its money: said by its keeper, or by the browser that it is first opened in."""

import pytest
from django.test import Client
from django.utils import timezone

from tests.makers.rows import one_time_path


@pytest.fixture
def keeper(client, people):
    client.force_login(people.keeper)
    return client


def place(people) -> str:
    people.workroom.refresh_from_db()
    return people.workroom.time_zone


def test_a_keeper_chooses_the_time_zone_and_the_money(keeper, people):
    assert "Choose its time zone" in keeper.get("/").text
    keeper.post("/workroom/change/", {"time_zone": "Europe/Paris", "currency": "€"})
    assert place(people) == "Europe/Paris"
    page = keeper.get("/workroom/").text
    assert "Hours are those of Europe/Paris." in page
    assert "Money is in €." in page
    assert "Choose its time zone" not in keeper.get("/").text


def test_a_place_that_there_is_not_is_refused_and_the_money_typed_stays(keeper, people):
    answer = keeper.post("/workroom/change/", {"time_zone": "Atlantis/Harbour", "currency": "kr"})
    assert "time_zone" in answer.context["form"].errors
    assert 'value="kr"' in answer.text
    assert place(people) == ""


def test_without_a_script_nothing_is_guessed(people):
    Client().post(one_time_path(people.keeper, by=None), {"time_zone": ""})
    assert place(people) == ""


def test_the_browser_of_the_first_keeper_says_where_it_is(people):
    Client().post(one_time_path(people.keeper, by=None), {"time_zone": "America/New_York"})
    assert place(people) == "America/New_York"


@pytest.mark.parametrize("said", ["Mars/Base", "../etc", "posixrules"])
def test_what_is_no_place_is_not_believed(people, said):
    Client().post(one_time_path(people.keeper, by=None), {"time_zone": said})
    assert place(people) == ""


def test_the_browser_of_a_traveller_moves_nothing_that_was_chosen(keeper, people):
    keeper.post("/workroom/change/", {"time_zone": "Europe/Paris", "currency": ""})
    Client().post(one_time_path(people.keeper, by=None), {"time_zone": "Asia/Tokyo"})
    assert place(people) == "Europe/Paris"


def test_a_makers_browser_does_not_speak_for_the_workroom(people):
    Client().post(one_time_path(people.maker, by=people.keeper), {"time_zone": "Asia/Tokyo"})
    assert place(people) == ""


def test_after_a_page_the_next_person_has_their_own_clock(keeper, people):
    keeper.post("/workroom/change/", {"time_zone": "Pacific/Auckland", "currency": ""})
    keeper.get("/")
    assert timezone.get_current_timezone_name() == "UTC"
