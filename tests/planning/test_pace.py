import pytest

from fitting.planning.calculation.pace import pace_of


def test_the_middle_half_of_what_tasks_took_beside_their_estimates():
    # Ratios 1, 1.5, 2, 2.5, 3; quartiles as in R's default (type 7) and numpy.percentile: 1.5, 2, 2.5.
    found = pace_of([(2, 2), (2, 3), (1, 2), (4, 10), (1, 3)])
    assert (found.low, found.middle, found.high, found.tasks) == (1.5, 2.0, 2.5, 5)
    assert not found.is_guessed


@pytest.mark.parametrize("finished", [[], [(1, 3)], [(1, 3), (1, 4)], [(1, 3), (1, 4), (0, 2), (2, 0)]])
def test_until_three_tasks_say_something_the_pace_is_our_guess(finished):
    found = pace_of(finished)
    assert found.is_guessed
    assert (found.low, found.middle, found.high) == (1.0, 1.25, 1.5)
