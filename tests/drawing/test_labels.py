"""Labels keep off each other, and move no more than they must."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize

from catalogue.drawing.calculation import kept_apart, kept_apart_in_columns

PLACES = st.floats(-500, 500)
LABELS = st.lists(st.tuples(PLACES, st.floats(0, 60)), max_size=12)


@pytest.mark.parametrize(
    ("wanted", "sizes", "placed"),
    [
        ([], [], []),
        ([40], [10], [40]),
        ([0, 30, 60], [10, 10, 10], [0, 30, 60]),  # none meets another: none moves
        ([0, 10], [10, 10], [0, 10]),  # they touch: none moves
        ([50, 50], [10, 10], [45, 55]),  # either gives way by half
        ([50, 54], [10, 10], [47, 57]),  # about the middle of what they want: 52 ± 5
        ([54, 50], [10, 10], [57, 47]),  # in the order of what they want, whatever order they are told in
        # 40 in all about the middle: begins at ((0−5) + (2−20) + (4−35)) / 3 = −18; middles +5, +20, +35.
        ([0, 2, 4], [10, 20, 10], [-13, 2, 17]),
        # The pair takes −2 and 8, which meets the third: (0 + (6−10) + (14−20)) / 3 = −3 1/3, then 10 apart.
        ([0, 6, 14], [10, 10, 10], [-10 / 3, 20 / 3, 50 / 3]),
    ],
)
def test_labels_that_would_meet_stand_side_by_side_about_what_they_want(wanted, sizes, placed):
    assert kept_apart(wanted, sizes) == pytest.approx(placed)


@pytest.mark.parametrize(
    ("wanted", "placed"),
    [
        ([-3, 50], [5, 50]),
        ([50, 99], [50, 95]),
        ([92, 98], [85, 95]),
        ([95, 95, 95], [75, 85, 95]),
    ],
)
def test_labels_stay_between_the_edges(wanted, placed):
    assert kept_apart(wanted, [10] * len(wanted), low=0, high=100) == pytest.approx(placed)


def test_without_room_for_all_they_begin_at_the_low_edge_and_still_do_not_meet():
    assert kept_apart([5, 5, 5], [10, 10, 10], low=0, high=20) == pytest.approx([5, 15, 25])


def test_only_labels_of_one_column_move_for_each_other():
    # The first two overlap across, the third meets the first through the second, the fourth lies aside.
    spans, wanted = [(0, 10), (8, 20), (19, 30), (30, 40)], [50, 50, 50, 50]
    assert kept_apart_in_columns(spans, wanted, [10] * 4) == pytest.approx([40, 50, 60, 50])
    assert kept_apart_in_columns([], [], []) == []


@given(LABELS)
def test_no_two_labels_meet_and_their_order_stays(labels):
    wanted, sizes = [place for place, _ in labels], [size for _, size in labels]
    placed = kept_apart(wanted, sizes)
    order = sorted(range(len(labels)), key=lambda at: wanted[at])
    for one, other in pairwise(order):
        assert placed[other] - placed[one] >= (sizes[one] + sizes[other]) / 2 - 1e-6
    # What is moved is moved for others: all moves together come to nothing.
    assert sum(placed) == pytest.approx(sum(wanted), abs=1e-6)


@pytest.mark.parametrize(
    ("wanted", "sizes"),
    [([3, 1, 4, 1.5, 9, 2.6], [2, 1, 3, 1, 2, 2]), ([0, 0, 7, 8, 8.5], [4, 1, 1, 2, 3])],
)
def test_no_other_places_move_them_less(wanted, sizes):
    """Against a solver that knows nothing of pooling."""
    order = sorted(range(len(wanted)), key=lambda at: wanted[at])
    apart = [
        {"type": "ineq", "fun": lambda x, a=a, b=b: x[b] - x[a] - (sizes[a] + sizes[b]) / 2}
        for a, b in pairwise(order)
    ]
    found = minimize(
        lambda x: sum((x[at] - wanted[at]) ** 2 for at in order), wanted, constraints=apart, method="SLSQP"
    )
    assert kept_apart(wanted, sizes) == pytest.approx(found.x, abs=1e-4)
