"""Enlarging is not grading."""

from dataclasses import replace

import pytest

from catalogue.plates.calculation.readings import FastenedWidth
from fitting.comparing.calculation.comparison import compare
from fitting.comparing.calculation.enlargement import plain_enlargement
from fitting.outfits.calculation.garment import Fit
from fitting.wearers.calculation.body import Body, BodyMeasure
from tests.makers.cases import inches, make_case, make_piece, make_plate, make_reading


def enlarged(case, made_to_fit=None):
    return plain_enlargement(compare(case), made_to_fit)


def two_levels(**given):
    return make_case(make_plate(make_piece(waist=1.5, bust=2), **given), waist_in=25, bust_in=36)


def test_the_level_farthest_off_is_made_to_fit_and_the_others_follow():
    # Waist 24 for 25, bust 32 for 36: 36/32 = 1.125; the waist becomes 27, 2 too wide.
    plain = enlarged(two_levels())
    assert (plain.made_to_fit, plain.factor) == ("bust", pytest.approx(1.125))
    assert plain.levels["bust"].difference_mm == pytest.approx(0, abs=1e-9)
    assert plain.levels["waist"].difference_mm == pytest.approx(inches(2))


def test_only_drawn_cloth_is_enlarged():
    # Bust 32 − 2·2·1/2 − 1 + 2 = 31 for 36. Drawn cloth must come to 36 + 2 + 1 − 2 = 37 of 32.
    plain = enlarged(
        two_levels(
            allowance_mm=inches(0.5),
            overlap=FastenedWidth(everywhere_mm=inches(1)),
            lacing_gap=FastenedWidth(everywhere_mm=inches(2)),
        )
    )
    assert plain.factor == pytest.approx(37 / 32)
    assert plain.levels["waist"].garment_mm == pytest.approx(inches(24 * 37 / 32 - 2 - 1 + 2))


def test_any_level_may_be_asked_for():
    assert enlarged(two_levels(), "waist").factor == pytest.approx(25 / 24)


def test_lengths_grow_with_it():
    plate = make_plate(make_piece(waist=1.5), lengths={"nape to waist": (make_reading(2),)})
    body = Body(
        girths={"waist": BodyMeasure(mm=inches(30))}, lengths={"nape to waist": BodyMeasure(mm=inches(16))}
    )
    plain = enlarged(make_case(plate, body=body))
    assert plain.lengths["nape to waist"].difference_mm == pytest.approx(inches(4))


def test_a_gathered_level_is_enlarged_but_not_made_to_fit():
    plain = enlarged(replace(two_levels(), fit={"bust": Fit.GATHERED}))
    assert plain.made_to_fit == "waist"
    assert plain.levels["bust"].garment_mm == pytest.approx(inches(32 * 25 / 24))
    assert plain.levels["bust"].difference_mm is None


def test_without_a_level_compared_there_is_nothing_to_enlarge_to():
    assert enlarged(make_case(hip_in=36)) is None


def test_a_gap_wider_than_what_is_wanted_leaves_no_cloth_to_enlarge():
    gap = FastenedWidth(everywhere_mm=inches(26))
    assert enlarged(make_case(make_plate(lacing_gap=gap), waist_in=24)) is None
