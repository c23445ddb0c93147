"""The caution on reducing the waist. Gau, PhD, Iowa State University, 1998 (abstract): 3 in, and a tenth."""

import pytest

from fitting.wearers.calculation.lacing import Lacing


@pytest.mark.parametrize(
    ("natural_in", "laced_in", "is_newcomer", "cautioned"),
    [
        (30, 27, False, False),  # exactly a tenth
        (30, 27, True, True),  # 3 in, as in the study
        (30, 26.875, False, True),
        (26, 23.5, True, False),
        (40, 36.5, False, False),
        (40, 36.5, True, True),
        (30, 31, True, False),  # over loose stays: no reduction
    ],
)
def test_above_a_tenth_or_three_inches_for_somebody_new(natural_in, laced_in, is_newcomer, cautioned):
    lacing = Lacing(natural_mm=natural_in * 25.4, laced_mm=laced_in * 25.4, is_newcomer=is_newcomer)
    assert lacing.needs_caution is cautioned


def test_a_tenth_in_centimetres_is_a_tenth():
    # 76 cm → 68.4 cm, worked from the same figures.
    assert not Lacing(natural_mm=760, laced_mm=684, is_newcomer=False).needs_caution
    assert Lacing(natural_mm=760, laced_mm=683, is_newcomer=False).needs_caution
