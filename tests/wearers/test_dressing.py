"""Measures built up over layers that nobody has measured over yet."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.wearers.calculation.body import BodyMeasure, Layer, expected, over_layers
from tests.makers.cases import inches

WAIST = BodyMeasure(mm=inches(26), doubt_mm=inches(3 / 8))


def test_a_layer_adds_2_pi_times_its_thickness():
    # A ring of cloth 1 mm thick round a circle: its outside is 2π mm longer than its inside.
    assert over_layers(WAIST, [Layer(name="linen", thickness_mm=1)]).mm == pytest.approx(
        WAIST.mm + 6.283185, abs=1e-6
    )


def test_a_gathered_band_lies_in_as_many_layers_as_it_is_gathered_by():
    # A petticoat band: 2 layers of 0.5 mm and its cloth gathered 3 : 1 beneath come to 2π·(2·0.5·3).
    band = Layer(name="petticoat", thickness_mm=0.5, layers=2, gather_ratio=3)
    assert band.added_mm == pytest.approx(6 * math.pi)


def test_boned_stays_add_what_is_stated_and_not_their_cloth():
    # 1 1/2 ± 1/2 in outside over inside; common practice, no source.
    stays = Layer(name="stays", thickness_mm=1, layers=3, is_boned=True)
    built_up = over_layers(WAIST, [stays])
    assert built_up.mm == pytest.approx(inches(27.5))
    # √(3/8² + 1/2²) = 5/8.
    assert built_up.doubt_mm == pytest.approx(inches(5 / 8))


def test_stays_that_are_not_made_yet_are_expected_with_more_doubt():
    # √(3/8² + 3/4²) = 0.838526 in.
    inside = expected(WAIST, reduction_mm=inches(2))
    assert inside.mm == pytest.approx(inches(24))
    assert inside.doubt_mm == pytest.approx(inches(0.838526), rel=1e-6)


@given(st.lists(st.floats(0, 5), max_size=6))
def test_every_layer_makes_larger_and_less_sure(thicknesses):
    layers = [Layer(name=str(index), thickness_mm=one) for index, one in enumerate(thicknesses)]
    built_up = over_layers(WAIST, layers)
    assert built_up.mm >= WAIST.mm
    assert built_up.doubt_mm >= WAIST.doubt_mm
    assert built_up.mm == pytest.approx(WAIST.mm + 2 * math.pi * sum(thicknesses))
