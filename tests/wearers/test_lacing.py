"""The caution on reducing the waist. Gau, PhD, Iowa State University, 1998 (abstract): 3 in, and a tenth."""

import pytest

from fitting.wearers.calculation.lacing import Lacing


@pytest.mark.parametrize(
    ("natural_in", "inside_in", "is_newcomer", "cautioned"),
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
def test_above_a_tenth_or_three_inches_for_somebody_new(natural_in, inside_in, is_newcomer, cautioned):
    lacing = Lacing(natural_mm=natural_in * 25.4, inside_mm=inside_in * 25.4, is_newcomer=is_newcomer)
    assert lacing.needs_caution is cautioned


def test_a_tenth_in_centimetres_is_a_tenth():
    # 76 cm → 68.4 cm, worked from the same figures.
    assert not Lacing(natural_mm=760, inside_mm=684, is_newcomer=False).needs_caution
    assert Lacing(natural_mm=760, inside_mm=683, is_newcomer=False).needs_caution


def test_it_is_judged_on_what_the_body_gives_and_not_on_the_tape_round_the_stays():
    # 29 in without stays, 26.6 in round them: 2.4 in, 8.3 %. Inside, 1 1/2 in less: 25.1 in, 3.9 in, 13.4 %.
    outside = Lacing(natural_mm=29 * 25.4, inside_mm=26.6 * 25.4, is_newcomer=False)
    lacing = Lacing.over_stays(natural_mm=29 * 25.4, outside_mm=26.6 * 25.4, is_newcomer=False)
    assert (round(outside.percent, 1), outside.needs_caution) == (8.3, False)
    assert (round(lacing.percent, 1), lacing.needs_caution) == (13.4, True)
    assert lacing.inside_mm / 25.4 == pytest.approx(25.1)
