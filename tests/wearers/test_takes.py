"""Several takes of one measure: their mean and its doubt."""

import statistics

import pytest

from fitting.wearers.calculation.body import LENGTH_TRAINED_HAND_MM, SENT_IN_MM, TRAINED_HAND_MM
from fitting.wearers.calculation.takes import Taking, taken_by_line, takes_far_apart


def takes(line: str, side: str = "", *inches: float) -> list[Taking]:
    return [Taking(line=line, side=side, mm=one * 25.4) for one in inches]


def test_repeated_takes_give_their_mean_and_its_own_doubt():
    # JCGM 100:2008, 4.2.3: s(q̄) = s(q)/√n. By hand: takes 25, 25.5, 26 in, s = 0.5, 0.5/√3 = 0.2887 in.
    waist = taken_by_line(takes("waist", "", 25, 25.5, 26))["waist"]
    assert waist.measure.mm / 25.4 == pytest.approx(25.5)
    assert waist.measure.doubt_mm / 25.4 == pytest.approx(0.2887, abs=5e-5)
    assert waist.count == 3


def test_a_single_take_has_the_doubt_of_the_hand_that_took_it():
    assert taken_by_line(takes("waist", "", 25))["waist"].measure.doubt_mm == TRAINED_HAND_MM
    sent = taken_by_line(takes("waist", "", 25), is_sent_in=True)
    assert sent["waist"].measure.doubt_mm == SENT_IN_MM


@pytest.mark.parametrize(("is_sent_in", "doubt_in"), [(False, 1 / 4), (True, 3 / 8)])
def test_a_length_is_taken_more_surely_than_a_girth(is_sent_in, doubt_in):
    taken = taken_by_line(takes("nape to waist", "", 15), is_sent_in=is_sent_in)
    assert taken["nape to waist"].measure.doubt_mm == pytest.approx(doubt_in * 25.4)


def test_takes_that_agree_are_no_surer_than_the_tape():
    # 1/8 in at both ends: 3.175/√6 = 1.2962 mm.
    same = taken_by_line(takes("waist", "", 25, 25, 25))["waist"]
    assert same.measure.doubt_mm == pytest.approx(1.2962, abs=5e-5)


def test_the_front_and_back_arcs_make_the_girth():
    bust = taken_by_line(takes("bust", "front", 18) + takes("bust", "back", 15.5))["bust"]
    assert bust.measure.mm / 25.4 == pytest.approx(33.5)
    assert bust.measure.doubt_mm == pytest.approx(TRAINED_HAND_MM * 2**0.5)


def test_one_arc_alone_makes_no_girth():
    assert taken_by_line(takes("bust", "front", 18)) == {}


def test_a_garment_must_pass_the_larger_arm():
    arm = taken_by_line(takes("upper arm", "left", 11) + takes("upper arm", "right", 11.5))["upper arm"]
    assert arm.measure.mm / 25.4 == pytest.approx(11.5)
    assert set(arm.sides) == {"left", "right"}


def test_a_left_and_a_right_length_are_averaged():
    shoulder = taken_by_line(takes("shoulder", "left", 5) + takes("shoulder", "right", 4.5))["shoulder"]
    assert shoulder.measure.mm / 25.4 == pytest.approx(4.75)
    assert shoulder.measure.doubt_mm == pytest.approx(LENGTH_TRAINED_HAND_MM / 2**0.5)


def test_takes_of_the_whole_count_before_those_of_its_sides():
    bust = taken_by_line(takes("bust", "front", 18) + takes("bust", "back", 15) + takes("bust", "", 34))
    assert bust["bust"].measure.mm / 25.4 == pytest.approx(34)


def test_lines_come_from_the_head_down_whatever_was_typed_first():
    assert list(taken_by_line(takes("hip", "", 40) + takes("neck", "", 13))) == ["neck", "hip"]


def test_the_mean_and_deviation_are_those_of_the_standard_library():
    inches = [24.75, 25.125, 25.5, 24.875]
    waist = taken_by_line(takes("waist", "", *inches))["waist"].measure
    assert waist.mm == pytest.approx(25.4 * statistics.mean(inches))
    assert waist.doubt_mm == pytest.approx(25.4 * statistics.stdev(inches) / 2)


def test_takes_that_cannot_both_be_right_are_asked_about():
    (fault,) = takes_far_apart(takes("waist", "", 25, 35) + takes("bust", "", 33, 33.5))
    assert fault.where == "waist"
    assert fault.sentence == "25 in and 35 in are far apart for takes: measure once more."
