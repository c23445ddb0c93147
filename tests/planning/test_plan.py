"""The plan: worked by hand on a calendar, at 7 hours a week, an hour a day."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.planning.calculation.critical_path import GoesRound
from fitting.planning.calculation.pace import Pace
from fitting.planning.calculation.plan import OpenTask, plan

MONDAY = date(2026, 11, 2)


def a_plan(*tasks, occasion_on=None, hours_a_week=7.0):
    return plan(tasks, today=MONDAY, occasion_on=occasion_on, hours_a_week=hours_a_week)


def days(found):
    return {one.task.key: (one.done_on - MONDAY).days for one in found.tasks}


def test_tasks_follow_one_another_at_so_many_hours_a_week():
    found = a_plan(
        OpenTask(key="cut", estimate_hours=2),
        OpenTask(key="sew", estimate_hours=3, waits_for=("cut",)),
    )
    # Two hours: done on Tuesday evening. Three more: on Friday.
    assert days(found) == {"cut": 1, "sew": 4}
    assert [(one.begins_on - MONDAY).days for one in found.tasks] == [0, 2]
    assert found.ready_on() == date(2026, 11, 6)


def test_backward_from_the_occasion_each_must_be_done_in_time_for_the_next():
    found = a_plan(
        OpenTask(key="cut", estimate_hours=2),
        OpenTask(key="sew", estimate_hours=3, waits_for=("cut",)),
        occasion_on=date(2026, 11, 12),
    )
    # Worn on Thursday the 12th: sewn by Wednesday; that takes Monday to Wednesday, so cut by Sunday.
    assert {one.task.key: one.must_be_done_by.day for one in found.tasks} == {"cut": 8, "sew": 11}
    assert found.slack_days == 5


def test_too_much_work_has_less_than_no_slack():
    found = a_plan(OpenTask(key="sew", estimate_hours=10), occasion_on=date(2026, 11, 5))
    assert found.tasks[0].must_be_done_by == date(2026, 11, 4)
    assert found.slack_days == -7
    assert found.days_late == 7
    assert [one.task.key for one in found.late] == ["sew"]


def test_without_an_occasion_nothing_presses():
    found = a_plan(OpenTask(key="sew", estimate_hours=10))
    assert found.tasks[0].must_be_done_by is None
    assert found.slack_days is None


def test_what_is_due_first_is_done_first_and_so_is_what_it_waits_for():
    found = a_plan(
        OpenTask(key="hem", estimate_hours=1),
        OpenTask(key="cut", estimate_hours=1),
        OpenTask(key="fit", estimate_hours=1, waits_for=("cut",), due_on=date(2026, 11, 6)),
    )
    assert list(days(found)) == ["cut", "fit", "hem"]
    # Due on Friday means by Friday evening; then the cutting by Thursday's.
    assert [one.must_be_done_by and one.must_be_done_by.day for one in found.tasks] == [5, 6, None]


def test_the_longest_way_to_the_end_goes_first_where_nothing_else_decides():
    found = a_plan(
        OpenTask(key="kerchief", estimate_hours=1),
        OpenTask(key="stays", estimate_hours=1),
        OpenTask(key="jacket", estimate_hours=4, waits_for=("stays",)),
    )
    assert list(days(found)) == ["stays", "jacket", "kerchief"]
    assert found.chain == ("stays", "jacket")
    assert found.chain_hours == 5
    assert {one.task.key: one.can_wait_hours for one in found.tasks}["kerchief"] == 4


def test_what_was_done_is_no_longer_left_and_never_less_than_nothing_is():
    tasks = (
        OpenTask(key="a", estimate_hours=3, done_hours=1),
        OpenTask(key="b", estimate_hours=3, done_hours=5),
    )
    assert a_plan(*tasks).hours_left == 2
    # At twice the estimate: 6 − 1 and 6 − 5.
    assert a_plan(*tasks).ready_on(2.0) == MONDAY + timedelta(days=5)


def test_ready_between_the_days_that_the_makers_own_pace_gives():
    found = a_plan(OpenTask(key="sew", estimate_hours=10))
    pace = Pace(low=0.8, middle=1.2, high=2.0, tasks=9, is_guessed=False)
    assert [(day - MONDAY).days for day in found.ready_between(pace)] == [7, 11, 19]


def test_another_pace_gives_another_day():
    found = a_plan(OpenTask(key="sew", estimate_hours=10))
    assert found.ready_on(hours_a_week=14) == MONDAY + timedelta(days=4)


def test_nothing_left_is_ready_today():
    assert a_plan().ready_on() == MONDAY
    assert a_plan(occasion_on=MONDAY + timedelta(days=3)).slack_days == 2


def test_a_ring_of_tasks_is_no_plan():
    with pytest.raises(GoesRound):
        a_plan(
            OpenTask(key="a", estimate_hours=1, waits_for=("b",)),
            OpenTask(key="b", estimate_hours=1, waits_for=("a",)),
        )


def test_two_short_tasks_fit_into_one_day():
    found = a_plan(
        OpenTask(key="thread", estimate_hours=0.25),
        OpenTask(key="buttons", estimate_hours=0.25),
        occasion_on=MONDAY + timedelta(days=1),
    )
    assert [one.must_be_done_by for one in found.tasks] == [MONDAY, MONDAY]


def test_an_occasion_far_off_keeps_its_day():
    found = a_plan(OpenTask(key="sew", estimate_hours=2), occasion_on=date(2099, 5, 1))
    assert found.tasks[0].must_be_done_by == date(2099, 4, 30)


def test_an_hour_in_a_century_is_a_day_far_off_and_no_fault():
    assert a_plan(OpenTask(key="sew", estimate_hours=1e6), hours_a_week=0.01).ready_on() > MONDAY


@given(
    st.lists(st.tuples(st.integers(0, 60), st.integers(0, 60)), min_size=1, max_size=8), st.integers(1, 400)
)
def test_who_has_slack_to_the_end_is_in_time_for_every_task(hours, days_left):
    tasks = [
        OpenTask(
            key=str(at), estimate_hours=estimate / 4, waits_for=(str(back % at),) if at and back % 3 else ()
        )
        for at, (estimate, back) in enumerate(hours)
    ]
    found = a_plan(*tasks, occasion_on=MONDAY + timedelta(days=days_left))
    in_time = found.ready_on() < MONDAY + timedelta(days=days_left)
    assert all(one.slack_days >= 0 for one in found.tasks) == in_time
    order = [one.task.key for one in found.tasks]
    assert all(order.index(other) < order.index(task.key) for task in tasks for other in task.waits_for)
