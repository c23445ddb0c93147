"""Which measures apply to a garment, and what they come to over the layers beneath. Inches; 25.4 mm each."""

import datetime
import math

import pytest

from fitting.comparing.loading.body import MeasureOrigin
from fitting.comparing.loading.case import outfit_rows
from fitting.outfits.models.garment import Ease
from tests.makers.rows import (
    NOON,
    make_garment,
    make_measures,
    make_outfit,
    make_wearer,
    um,
)

INCH = 25.4
TODAY = NOON.date()


@pytest.fixture
def wearer(people):
    return make_wearer(people.workroom)


@pytest.fixture
def outfit(people, wearer):
    return make_outfit(people.workroom, wearer=wearer)


def used_by(garment, at=NOON):
    rows = outfit_rows(garment.outfit, by=None, at=at)
    return rows.used(rows.garment(garment.pk))


def day(number: int) -> datetime.date:
    return TODAY - datetime.timedelta(days=number)


def test_the_set_taken_over_just_what_is_beneath_is_used(outfit, wearer):
    shift, stays = make_garment(outfit, name="shift"), make_garment(outfit, name="stays", is_boned=True)
    bodice = make_garment(outfit)
    make_measures(wearer, state="undressed", taken_on=day(1))
    over = make_measures(wearer, state="over layers", taken_on=day(20))
    over.worn.set([shift, stays])
    assert used_by(bodice).measures == over
    assert used_by(bodice).how is MeasureOrigin.TAKEN


def test_of_two_such_sets_the_newest_is_used(outfit, wearer):
    bodice = make_garment(outfit)
    make_measures(wearer, state="undressed", taken_on=day(30))
    newer = make_measures(wearer, state="undressed", taken_on=day(3))
    assert used_by(bodice).measures == newer


def test_measures_over_stays_count_for_all_up_to_the_stays(outfit, wearer):
    make_garment(outfit, name="shift", thickness_um=300)
    make_garment(outfit, name="stays", is_boned=True)
    make_measures(wearer, {"waist": "25 in"}, taken_on=day(5))
    used = used_by(make_garment(outfit))
    assert used.lines["waist"].measure.mm == pytest.approx(25 * INCH)
    assert used.how is MeasureOrigin.TAKEN


def test_measures_over_stays_do_not_suit_a_garment_worn_without_them(outfit, wearer):
    make_measures(wearer, taken_on=day(5))
    assert used_by(make_garment(outfit, name="shirt")) is None


def test_measures_taken_over_the_garment_itself_are_not_used(outfit, wearer):
    bodice = make_garment(outfit)
    make_measures(wearer, state="over layers", taken_on=day(5)).worn.set([bodice])
    assert used_by(bodice) is None


def test_layers_left_out_are_added_all_round(outfit, wearer):
    """A band of two over 2.5 to 1 is 4.5 thicknesses of 0.4 mm: 2π × 1.8 mm more, half of it in doubt."""
    make_garment(outfit, name="stays", is_boned=True)
    make_garment(
        outfit, name="petticoat", thickness_um=400, thickness_text="0.4 mm", layers=2, gather_ratio=2.5
    )
    make_measures(wearer, {"waist": "25 in", "nape to waist": "15 in", "upper arm": "11 in"}, taken_on=day(5))
    used = used_by(make_garment(outfit))
    waist = used.lines["waist"]
    assert used.how is MeasureOrigin.BUILT_UP
    assert waist.measure.mm == pytest.approx(25 * INCH + 3.6 * math.pi)
    assert waist.measure.doubt_mm == pytest.approx(math.hypot(3 / 8 * INCH, 1.8 * math.pi))
    assert used.tied == ("petticoat",)
    assert used.lines["nape to waist"].measure.mm == pytest.approx(15 * INCH)
    assert used.lines["upper arm"].how is MeasureOrigin.TAKEN


def test_a_layer_lies_only_where_it_says(outfit, wearer):
    petticoat = make_garment(outfit, name="petticoat", thickness_um=1000, thickness_text="1 mm")
    Ease.objects.create(garment=petticoat, line="hip", ease_um=0)
    make_measures(wearer, {"bust": "33 in", "hip": "38 in"}, state="undressed", taken_on=day(5))
    used = used_by(make_garment(outfit))
    assert used.lines["bust"].how is MeasureOrigin.TAKEN
    assert used.lines["hip"].measure.mm == pytest.approx(38 * INCH + 2 * math.pi)


def test_over_stays_not_made_yet_the_waist_is_expected(outfit, wearer):
    """27 in, less 2 ± 3/4 in that they take in, and 1 1/2 ± 1/2 in of stays outside."""
    make_garment(outfit, name="stays", is_boned=True, reduction_um=um("2 in"), reduction_text="2 in")
    make_measures(wearer, {"waist": "27 in", "bust": "33 in"}, state="undressed", taken_on=day(5))
    used = used_by(make_garment(outfit))
    assert used.how is MeasureOrigin.EXPECTED
    assert used.lines["waist"].measure.mm == pytest.approx(26.5 * INCH)
    assert used.lines["waist"].measure.doubt_mm == pytest.approx(INCH * math.hypot(3 / 8, 3 / 4, 1 / 2))
    assert used.lines["bust"].how is MeasureOrigin.BUILT_UP


def test_without_a_stated_reduction_the_waist_is_left_out(outfit, wearer):
    stays = make_garment(outfit, name="stays", is_boned=True)
    make_measures(wearer, {"waist": "27 in", "bust": "33 in"}, state="undressed", taken_on=day(5))
    used = used_by(make_garment(outfit))
    assert set(used.lines) == {"bust"}
    assert used.not_over == (stays,)


def test_the_set_a_maker_chose_comes_before_any_other(outfit, wearer):
    chosen = make_measures(wearer, {"waist": "26 in"}, state="over stays", taken_on=day(60))
    make_measures(wearer, state="undressed", taken_on=day(1))
    assert used_by(make_garment(outfit, measures=chosen)).measures == chosen


@pytest.mark.parametrize(("age", "stale"), [(90, ""), (91, "91 days old")])
def test_measures_grow_stale_with_age(outfit, wearer, age, stale):
    make_measures(wearer, state="undressed", taken_on=day(age))
    assert used_by(make_garment(outfit)).stale == stale


def test_a_change_beneath_makes_them_stale_until_somebody_checks(outfit, wearer):
    make_garment(outfit, name="stays", is_boned=True, made_on=day(3))
    measures = make_measures(wearer, taken_on=day(10))
    bodice = make_garment(outfit)
    assert used_by(bodice).stale == "stays changed since"
    measures.still_good_on = day(1)
    measures.save()
    assert used_by(bodice).stale == ""


def test_a_change_on_the_day_of_the_check_counts_by_what_was_said_later(outfit, wearer):
    """The stays are taken in on the afternoon of the day on which the measures were found good."""
    morning, afternoon = (NOON + datetime.timedelta(hours=by) for by in (-2, 2))
    stays = make_garment(outfit, name="stays", is_boned=True, made_on=TODAY, made_said_at=afternoon)
    measures = make_measures(wearer, taken_on=day(10), still_good_on=TODAY, still_good_at=morning)
    bodice = make_garment(outfit)
    assert used_by(bodice).stale == "stays changed since"
    measures.still_good_at = afternoon + datetime.timedelta(hours=1)
    measures.save()
    assert used_by(bodice).stale == ""
    stays.made_on = day(1)
    stays.save()
    assert used_by(bodice).stale == ""


def test_measures_over_a_shift_are_over_what_is_a_shift_wherever_it_stands(outfit, wearer):
    """Stockings come first here, and a kerchief is no shift."""
    make_garment(outfit, name="stockings", thickness_um=500, thickness_text="0.5 mm")
    make_garment(outfit, name="shift", thickness_um=300, thickness_text="0.3 mm")
    make_garment(outfit, name="waistcoat", thickness_um=1000, thickness_text="1 mm")
    make_measures(wearer, {"bust": "34 in"}, state="over shift", taken_on=day(5))
    used = used_by(make_garment(outfit, name="coat"))
    assert [layer.name for layer in used.lines["bust"].layers] == ["waistcoat"]


def test_a_set_chosen_by_hand_over_stays_in_an_outfit_without_stays_says_so(outfit, wearer):
    make_garment(outfit, name="shift")
    chosen = make_measures(wearer, {"waist": "26 in"}, state="over stays", taken_on=day(6))
    used = used_by(make_garment(outfit, name="gown", measures=chosen))
    assert used.unsuited == "They were taken over stays, and no stays are worn beneath gown."
