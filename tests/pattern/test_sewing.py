"""Sewing time by hand: stitches to make, over stitches a minute on a seam that was timed."""

import pytest

from catalogue.lengths.calculation.errors import Faults
from fitting.pattern.calculation.sums.sewing import timed

IN = 25.4


def test_a_timed_seam_gives_the_time_of_the_others():
    # By hand: 10 in at 8 to the inch in 16 minutes are 5 stitches a minute; 600 in take 4800, 16 hours.
    stitch = timed(sample_mm=10 * IN, minutes=16, stitches_per_inch=8)
    assert stitch.stitches_per_minute == pytest.approx(5)
    assert stitch.hours([200 * IN, 400 * IN]) == pytest.approx(16)


def test_finer_stitches_at_the_same_pace_take_longer():
    stitch = timed(sample_mm=10 * IN, minutes=16, stitches_per_inch=8)
    finer = type(stitch)(stitches_per_inch=12, stitches_per_minute=stitch.stitches_per_minute)
    assert finer.minutes(100 * IN) == pytest.approx(1.5 * stitch.minutes(100 * IN))


@pytest.mark.parametrize("zero", ["sample_mm", "minutes", "stitches_per_inch"])
def test_a_sample_of_nothing_is_refused(zero):
    with pytest.raises(Faults):
        timed(**({"sample_mm": 100, "minutes": 5, "stitches_per_inch": 8} | {zero: 0}))
