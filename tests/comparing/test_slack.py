"""How much it could matter that a body has changed."""

import pytest

from fitting.comparing.calculation.comparison import compare, slack
from tests.makers.cases import inches, off_by


def slack_of(difference_in):
    return slack(compare(off_by(difference_in)).levels[0])


def test_a_garment_that_fits_leaves_half_an_inch_each_way():
    # It fits up to ±1/2 in; on that edge, without doubt to speak of, it is half fitting and half not.
    room = slack_of(0)
    assert (room.grown_mm, room.shrunk_mm) == (pytest.approx(inches(0.5)), pytest.approx(inches(0.5)))


def test_a_garment_to_take_off_bears_more_growing_than_shrinking():
    # 2 in too wide: 1 1/2 in of growing to fit, 1 in of shrinking to too large.
    room = slack_of(2)
    assert (room.grown_mm, room.shrunk_mm) == (pytest.approx(inches(1.5)), pytest.approx(inches(1)))


def test_a_garment_far_too_small_stays_so():
    assert slack_of(-20).grown_mm is None
    assert slack_of(-20).shrunk_mm is None
