"""The critical path method against a worked example, and against networkx on networks of any shape."""

from itertools import pairwise

import networkx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.planning.calculation.critical_path import (
    GoesRound,
    critical_chain,
    in_order,
    task_times,
    without_detours,
)

# "Example 1: Draw the network for the events in Table 1", a course handout on the critical path method,
# https://studylib.net/doc/8378728, tables 1 and 2: hours, what comes immediately before, and the answer.
HOURS = {"A": 6, "B": 2, "C": 2, "D": 3, "F": 2, "E": 4, "G": 1}
BEFORE = {"A": "", "B": "A", "C": "A", "D": "B", "F": "C", "E": "DF", "G": "E"}
ANSWER = {  # earliest start and finish, latest start and finish, slack
    "A": (0, 6, 0, 6, 0),
    "B": (6, 8, 6, 8, 0),
    "D": (8, 11, 8, 11, 0),
    "E": (11, 15, 11, 15, 0),
    "G": (15, 16, 15, 16, 0),
    "C": (6, 8, 7, 9, 1),
    "F": (8, 10, 9, 11, 1),
}


@pytest.mark.parametrize("task", ANSWER)
def test_the_times_of_a_worked_example(task):
    times = task_times(HOURS, BEFORE)[task]
    found = (
        times.earliest_start,
        times.earliest_finish,
        times.latest_start,
        times.latest_finish,
        times.slack,
    )
    assert found == ANSWER[task]
    assert times.is_critical == (ANSWER[task][-1] == 0)


def test_the_critical_chain_of_a_worked_example():
    assert critical_chain(HOURS, BEFORE) == ["A", "B", "D", "E", "G"]


@st.composite
def networks(draw):
    """Durations, and for each task some of those drawn before it: no ring can come of that."""
    names = [f"task {number}" for number in range(draw(st.integers(1, 9)))]
    hours = {name: draw(st.integers(0, 40)) / 4 for name in names}
    before = {
        name: sorted(draw(st.sets(st.sampled_from(names[:at])))) if at else []
        for at, name in enumerate(names)
    }
    return hours, before


@given(networks())
def test_the_chain_is_as_long_as_the_longest_path_that_networkx_finds(network):
    hours, before = network
    graph = networkx.DiGraph()
    for task, others in before.items():
        # The length of a task lies on the way into it; the first has a way in from the start.
        graph.add_edge("start", task, weight=hours[task])
        graph.add_weighted_edges_from((other, task, hours[task]) for other in others)
    chain = critical_chain(hours, before)
    assert sum(hours[task] for task in chain) == networkx.dag_longest_path_length(graph)
    assert all(one in before[after] for one, after in pairwise(chain))
    times = task_times(hours, before)
    assert max(one.earliest_finish for one in times.values()) == networkx.dag_longest_path_length(graph)
    for task, one in times.items():
        onward = graph.subgraph({task, *networkx.descendants(graph, task)})
        assert one.tail == hours[task] + networkx.dag_longest_path_length(onward)
        assert one.slack >= 0
        assert one.is_critical or task not in chain


@given(networks())
def test_what_is_left_without_detours_is_what_networkx_leaves(network):
    _, before = network
    graph = networkx.DiGraph((other, task) for task, others in before.items() for other in others)
    left = {(other, task) for task, others in without_detours(before).items() for other in others}
    assert left == set(networkx.transitive_reduction(graph).edges)


def test_a_task_after_all_that_it_waits_for():
    order = in_order(BEFORE)
    assert all(order.index(other) < order.index(task) for task, others in BEFORE.items() for other in others)


def test_tasks_that_wait_in_a_ring_are_named_in_order():
    with pytest.raises(GoesRound) as fault:
        task_times({"cut": 1, "fit": 1, "sew": 1}, {"cut": ["fit"], "fit": ["sew"], "sew": ["cut"]})
    ring = fault.value.ring
    waits = {"cut": "fit", "fit": "sew", "sew": "cut"}
    assert sorted(ring) == sorted(waits)
    assert all(waits[one] == after for one, after in zip(ring, (*ring[1:], ring[0]), strict=True))


def test_no_tasks_have_no_chain():
    assert critical_chain({}, {}) == []
