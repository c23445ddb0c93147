import pytest

from fitting.comparing.calculation.routes import GUESSED_HOURS, Route
from fitting.planning.calculation.plan import OpenTask
from fitting.planning.calculation.work_left import planned_left, work_left


def reckoned(*routes, days_left=None, hours_a_day=2.0):
    return work_left(routes, hours=GUESSED_HOURS, days_left=days_left, hours_a_day=hours_a_day)


def test_the_hours_of_the_chosen_routes_add_up():
    assert reckoned(Route.ALTER, Route.DRAPE).hours == 6 + 8


def test_a_garment_without_a_route_is_counted_apart_and_adds_no_hours():
    work = reckoned(Route.ALTER, None, None)
    assert (work.hours, work.uncounted) == (6, 2)


@pytest.mark.parametrize(
    ("days_left", "is_too_much"), [(4, True), (5, False), (0, True), (-3, True), (None, False)]
)
def test_ten_hours_at_two_a_day_need_five_days(days_left, is_too_much):
    work = reckoned(Route.GRADE, days_left=days_left)
    assert work.days_needed == 5
    assert work.is_too_much is is_too_much


def test_nothing_left_to_do_is_never_too_much():
    assert not reckoned(days_left=-3).is_too_much


def test_a_plan_counts_what_is_left_of_each_task_and_never_less_than_nothing():
    tasks = [
        OpenTask(key="cut", estimate_hours=4, done_hours=1.5),
        OpenTask(key="sew", estimate_hours=6, done_hours=9),
    ]
    work = planned_left(tasks, uncounted=1, days_left=1, hours_a_day=2.0)
    assert (work.hours, work.is_planned, work.is_too_much) == (2.5, True, True)
