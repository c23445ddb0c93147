"""Measures built up over layers that nobody has measured over yet."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.wearers.calculation.body import BodyMeasure, expected
from fitting.wearers.calculation.layers import (
    LAYER_KINDS,
    Layer,
    layer_kind_named,
    over_layers,
    thicknesses_at,
)
from tests.makers.cases import inches

WAIST = BodyMeasure(mm=inches(26), doubt_mm=inches(3 / 8))


def test_a_layer_adds_2_pi_times_its_thickness():
    # A ring of cloth 1 mm thick round a circle: its outside is 2π mm longer than its inside.
    assert over_layers(WAIST, [Layer(name="linen", thickness_mm=1)]).mm == pytest.approx(
        WAIST.mm + 6.283185, abs=1e-6
    )


def at_band(*, layers: int, gather_ratio: float, is_gauged: bool = False) -> float:
    return thicknesses_at(
        layers=layers, gather_ratio=gather_ratio, has_band=True, is_at_band=True, is_gauged=is_gauged
    )


def test_a_band_lies_over_the_cloth_gathered_into_it():
    # A band of two over 3 : 1 gathers is five thicknesses, not six.
    assert at_band(layers=2, gather_ratio=3) == 5
    # Two such petticoats of 0.3 mm and a skirt band of 2.5 mm: 2 × 0.3 × 5 + 2.5 = 5.5 mm, 34.6 mm round.
    petticoat = Layer(name="petticoat", thickness_mm=0.3, thicknesses=at_band(layers=2, gather_ratio=3))
    skirt = Layer(name="skirt", thickness_mm=2.5, thicknesses=at_band(layers=1, gather_ratio=1))
    built_up = over_layers(WAIST, [petticoat, petticoat, skirt])
    assert built_up.mm - WAIST.mm == pytest.approx(34.5575, abs=1e-4)


def test_gauged_cloth_stands_outside_its_band_and_does_not_count_in_it():
    assert at_band(layers=2, gather_ratio=6, is_gauged=True) == 2


@pytest.mark.parametrize(
    ("gather_ratio", "widening", "thicknesses"),
    [
        (3, 1.5, 2),  # 3 : 1 on a waist of 26 in is 2 : 1 on a hip of 39
        (1.2, 1.5, 1),  # never less than the cloth itself
        (1, 1.5, 2),  # plain, and lined
    ],
)
def test_away_from_its_band_the_fullness_there_counts(gather_ratio, widening, thicknesses):
    assert thicknesses_at(
        layers=2 if gather_ratio == 1 else 3,
        gather_ratio=gather_ratio,
        has_band=True,
        is_at_band=False,
        is_gauged=False,
        widening=widening,
    ) == pytest.approx(thicknesses)


def test_a_pad_adds_over_its_own_arc():
    # 30 mm over the back half: its angle π times 30 mm.
    assert Layer(name="roll", thickness_mm=30, arc=0.5).added_mm == pytest.approx(94.2478, abs=1e-4)


def test_the_garments_own_thickness_adds_half_a_turn():
    # Its pattern lies in the middle of its cloth: π times 3 mm.
    assert Layer(name="coat", thickness_mm=3, is_own=True).added_mm == pytest.approx(9.42478, abs=1e-5)


def test_half_of_what_a_cloth_adds_is_in_doubt():
    linen = Layer(name="linen", thickness_mm=1)
    assert linen.doubt_mm == pytest.approx(math.pi)


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("Quilted petticoat", "petticoat"),
        ("Gown petticoat", "petticoat"),
        ("Linen shift", "shift or shirt"),
        ("Breeches", "trousers or breeches"),
        ("Second-best stays", "stays or corset"),
        ("Cork rump", "pad or bum roll"),
        ("Fichu", "kerchief"),
        ("The green one", None),
        ("skirtboard", None),
    ],
)
def test_a_garment_is_of_the_kind_that_its_name_says_last(name, kind):
    assert layer_kind_named(name) == (LAYER_KINDS[kind] if kind else None)


def test_what_hangs_from_the_waist_never_lies_on_the_chest():
    for key in ("petticoat", "skirt", "trousers or breeches", "drawers", "apron", "pad or bum roll"):
        assert not {"high bust", "bust", "under bust"} & set(LAYER_KINDS[key].covers)


def test_boned_stays_add_what_is_stated_and_not_their_cloth():
    # 1 1/2 ± 1/2 in outside over inside; common practice, no source.
    stays = Layer(name="stays", thickness_mm=1, thicknesses=3, is_boned=True)
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
