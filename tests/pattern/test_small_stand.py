"""The ratio of a miniature for a small stand; by hand."""

import pytest

from catalogue.lengths.calculation.errors import Faults
from fitting.pattern.calculation.small_stand import ratio_for_stand

FULL = {"bust": 900.0, "waist": 660.0, "hip": 960.0, "nape to waist": 400.0}


def test_the_miniature_goes_round_the_stand_at_every_level():
    ratio = ratio_for_stand(FULL, {"bust": 300, "waist": 240, "nape to waist": 130})
    assert ratio.one_to == 2.75  # at the waist; by the bust it would be 3, and the waist would not close
    assert {level.line: level.spare_mm(ratio.one_to) for level in ratio.levels} == pytest.approx(
        {"bust": 900 / 2.75 - 300, "waist": 0}
    )


@pytest.mark.parametrize(
    ("stand", "word"), [({}, "no girth"), ({"thigh": 100}, "no girth"), ({"bust": 950}, "larger")]
)
def test_a_stand_that_cannot_be_used_is_named(stand, word):
    with pytest.raises(Faults, match=word):
        ratio_for_stand(FULL, stand)
