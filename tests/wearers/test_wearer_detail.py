"""One person: measures over time, stale or laced too far, and whose they are."""

import datetime

import pytest

from fitting.wearers.models import Measures, Take
from tests.makers.rows import make_garment, make_measures, make_outfit, make_wearer, um


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def days_ago(days: int) -> datetime.date:
    return datetime.date.today() - datetime.timedelta(days=days)


def test_lines_stand_beside_dates_newest_first(maker, people):
    wearer = make_wearer(people.workroom)
    make_measures(wearer, {"waist": "28 in"}, state="undressed", taken_on=days_ago(40))
    make_measures(wearer, {"waist": "25 1/2 in", "hip": "38 in"}, taken_on=days_ago(2))
    table = maker.get(wearer.get_absolute_url()).context["table"]
    assert [line.key for line, _ in table.rows] == ["waist", "hip"]
    waist, hip = ([cell and round(cell.measure.mm / 25.4, 4) for cell in cells] for _, cells in table.rows)
    assert waist == [25.5, 28]
    assert hip == [38, None]


def test_only_the_newest_set_of_a_state_of_dress_can_be_stale(maker, people):
    wearer = make_wearer(people.workroom)
    for state, days in (("undressed", 300), ("over stays", 200), ("over stays", 10)):
        make_measures(wearer, state=state, taken_on=days_ago(days))
    table = maker.get(wearer.get_absolute_url()).context["table"]
    assert [column.why_stale for column in table.columns] == ["", "", "300 days old"]


def test_a_garment_changed_since_makes_the_set_stale(maker, people):
    wearer = make_wearer(people.workroom)
    stays = make_garment(make_outfit(people.workroom, wearer=wearer), name="stays", made_on=days_ago(1))
    make_measures(wearer, taken_on=days_ago(5)).worn.add(stays)
    assert "stays changed since" in maker.get(wearer.get_absolute_url()).content.decode()


@pytest.mark.parametrize(("over_stays", "cautioned"), [("26 5/8 in", False), ("26 1/4 in", True)])
def test_lacing_in_by_three_inches_calls_for_a_caution_to_somebody_new(maker, people, over_stays, cautioned):
    """Inside, there is 1 1/2 in less than round the stays: 27 3/4 − 25 1/8 = 2 5/8, and − 24 3/4 = 3 in."""
    wearer = make_wearer(people.workroom)
    make_measures(wearer, {"waist": "27 3/4 in"}, state="undressed", taken_on=days_ago(3))
    make_measures(wearer, {"waist": over_stays}, taken_on=days_ago(1))
    assert ("Gau" in maker.get(wearer.get_absolute_url()).content.decode()) is cautioned


def test_a_waist_without_stays_is_never_called_laced(maker, people):
    wearer = make_wearer(people.workroom)
    make_measures(wearer, {"waist": "28 in"}, state="undressed", taken_on=days_ago(3))
    loose = make_measures(wearer, {"waist": "22 in"}, state=Measures.State.OVER_SHIFT)
    assert maker.get(loose.get_absolute_url()).context["lacing"] is None


def test_left_and_right_are_shown_apart(maker, people):
    wearer = make_wearer(people.workroom)
    measures = make_measures(wearer, {"waist": "25 in"})
    for side, text in (("left", "10 3/4 in"), ("right", "11 1/4 in")):
        Take.objects.create(
            measures=measures, line="upper arm", side=side, value_um=um(text), value_text=text
        )
    page = maker.get(wearer.get_absolute_url()).content.decode()
    assert "left 10 3/4 in" in page
    assert "right 11 1/4 in" in page


def test_the_table_takes_the_same_queries_however_many_sets(maker, people, django_assert_max_num_queries):
    wearer = make_wearer(people.workroom)
    for days in range(20):
        make_measures(wearer, taken_on=days_ago(days), state="undressed" if days % 2 else "over stays")
    with django_assert_max_num_queries(11):
        maker.get(wearer.get_absolute_url())


def test_only_a_keeper_is_shown_the_way_to_export_and_erase(client, people):
    wearer = make_wearer(people.workroom)
    client.force_login(people.maker)
    assert "/erase/" not in client.get(wearer.get_absolute_url()).content.decode()
    client.force_login(people.keeper)
    assert "/erase/" in client.get(wearer.get_absolute_url()).content.decode()
