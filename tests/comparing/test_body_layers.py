"""What garments beneath add to a girth: where each lies, and how thick it is there. Inches; 25.4 mm each."""

import datetime
import math

import pytest

from fitting.comparing.loading.body import MeasureOrigin
from fitting.comparing.loading.case import outfit_rows
from tests.makers.rows import (
    NOON,
    make_garment,
    make_measures,
    make_outfit,
    make_plate,
    make_reference,
    make_wearer,
)

INCH = 25.4


@pytest.fixture
def wearer(people):
    return make_wearer(people.workroom)


@pytest.fixture
def outfit(people, wearer):
    return make_outfit(people.workroom, wearer=wearer)


def used_by(garment):
    rows = outfit_rows(garment.outfit, by=None, at=NOON)
    return rows.used(rows.garment(garment.pk))


def day(number: int) -> datetime.date:
    return NOON.date() - datetime.timedelta(days=number)


@pytest.mark.parametrize("name", ["petticoat", "trousers", "skirt", "apron"])
def test_what_hangs_from_the_waist_never_thickens_the_chest(outfit, wearer, name):
    make_garment(outfit, name=name, thickness_um=1000, thickness_text="1 mm")
    make_garment(outfit, name="waistcoat", thickness_um=1000, thickness_text="1 mm")
    make_measures(wearer, {"bust": "40 in", "waist": "36 in"}, state="undressed", taken_on=day(5))
    used = used_by(make_garment(outfit, name="coat"))
    assert [layer.name for layer in used.lines["bust"].layers] == ["waistcoat"]
    assert used.lines["bust"].measure.mm == pytest.approx(40 * INCH + 2 * math.pi)
    assert [layer.name for layer in used.lines["waist"].layers] == [name, "waistcoat"]


def test_two_petticoats_and_a_skirt_band_are_35_mm_round_the_waist(outfit, wearer):
    """2 × 0.3 mm × (2 + 3) and a band of 2.5 mm: 5.5 mm, 2π × 5.5 = 34.6 mm. On the hip of 39 in, where
    3 : 1 on 26 in is 2 : 1, the petticoats are 2 × 0.3 mm × 2 and the skirt 2.5 mm: 3.7 mm, 23.2 mm."""
    for name in ("under petticoat", "upper petticoat"):
        make_garment(outfit, name=name, thickness_um=300, thickness_text="0.3 mm", layers=2, gather_ratio=3)
    make_garment(outfit, name="skirt", thickness_um=2500, thickness_text="2.5 mm")
    make_measures(wearer, {"waist": "26 in", "hip": "39 in"}, state="undressed", taken_on=day(5))
    used = used_by(make_garment(outfit, name="jacket"))
    assert used.lines["waist"].measure.mm == pytest.approx(26 * INCH + 2 * math.pi * 5.5)
    assert used.lines["hip"].measure.mm == pytest.approx(39 * INCH + 2 * math.pi * 3.7)


def test_the_garments_own_cloth_adds_half_a_turn_where_the_measure_is_built_up(outfit, wearer):
    make_garment(outfit, name="shirt", thickness_um=1000, thickness_text="1 mm")
    make_measures(wearer, {"bust": "40 in"}, state="undressed", taken_on=day(5))
    coat = make_garment(outfit, name="coat", thickness_um=3000, thickness_text="3 mm")
    assert used_by(coat).lines["bust"].measure.mm == pytest.approx(40 * INCH + 2 * math.pi + 3 * math.pi)
    assert used_by(coat).layers == ("shirt",)


def test_a_pad_adds_over_its_own_arc_and_a_maker_can_say_another(outfit, wearer):
    pad = make_garment(outfit, name="bum roll", thickness_um=30_000, thickness_text="30 mm")
    make_measures(wearer, {"waist": "26 in", "hip": "39 in"}, state="undressed", taken_on=day(5))
    skirt = make_garment(outfit, name="skirt")
    assert used_by(skirt).lines["hip"].measure.mm == pytest.approx(39 * INCH + math.pi * 30)
    assert used_by(skirt).lines["waist"].how is MeasureOrigin.TAKEN
    pad.arc_percent = 25
    pad.save()
    assert used_by(skirt).lines["hip"].measure.mm == pytest.approx(39 * INCH + math.pi / 2 * 30)


def test_over_hoops_one_tapes(outfit, wearer):
    hoop = make_garment(outfit, name="hoop petticoat hoops", thickness_um=2000, thickness_text="2 mm")
    make_measures(wearer, {"waist": "26 in", "hip": "39 in"}, state="undressed", taken_on=day(5))
    used = used_by(make_garment(outfit, name="skirt"))
    assert set(used.lines) == {"waist"}
    assert used.to_tape == (hoop,)


def test_a_petticoat_of_1805_hangs_from_a_band_under_the_bust(outfit, wearer, people):
    reference = make_reference(
        people.workroom, kind="petticoat", date_earliest=datetime.date(1805, 1, 1), dress="women's"
    )
    plate = make_plate(reference)
    make_garment(outfit, name="the white one", plate=plate, thickness_um=1000, thickness_text="1 mm")
    make_measures(wearer, {"bust": "34 in", "under bust": "30 in"}, state="undressed", taken_on=day(5))
    used = used_by(make_garment(outfit, name="gown"))
    assert used.lines["under bust"].measure.mm == pytest.approx(30 * INCH + 2 * math.pi)
    assert used.lines["bust"].how is MeasureOrigin.TAKEN


def test_cloth_that_nothing_places_is_left_out_and_asked_about(outfit, wearer):
    thing = make_garment(outfit, name="the green one", thickness_um=1000, thickness_text="1 mm")
    make_measures(wearer, {"bust": "34 in", "waist": "26 in"}, state="undressed", taken_on=day(5))
    bodice = make_garment(outfit)
    assert used_by(bodice).unplaced == (thing,)
    assert used_by(bodice).how is MeasureOrigin.TAKEN
    thing.lies_at = ["waist"]
    thing.save()
    assert used_by(bodice).unplaced == ()
    assert used_by(bodice).lines["waist"].how is MeasureOrigin.BUILT_UP
