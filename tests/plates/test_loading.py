"""Rows of a plate as values: what is exact stays exact, and each shape goes round what it goes round."""

import pytest

from catalogue.plates.loading import plate_findings, plate_values
from catalogue.plates.models.plate import Fastening, Plate
from tests.makers.rows import make_bodice_plate, make_piece, make_plate, make_reference, um

INCH = 25.4


def reckoned(plate: Plate, line: str) -> float:
    return plate_findings(plate)["outer"].by_line[line].full_size.mm / INCH


@pytest.fixture
def plate(people) -> Plate:
    return make_plate(make_reference(people.workroom))


def test_sixteenths_lose_nothing_on_their_way_through_micrometres(people):
    values = plate_values(make_bodice_plate(people.workroom))
    assert values.rule_division_mm == INCH / 16
    make_sure = make_piece(make_plate(make_reference(people.workroom)), "front", {"waist": "1/32 in"})
    assert plate_values(make_sure.plate).pieces[0].readings["waist"].length_mm == INCH / 32


def test_a_sleeve_goes_once_round_one_arm(plate):
    make_piece(plate, "upper sleeve", {"upper arm": "1 in"})
    make_piece(plate, "under sleeve", {"upper arm": "1/2 in"})
    assert reckoned(plate, "upper arm") == pytest.approx(12)


def test_breeches_go_twice_round_the_waist_and_once_round_each_thigh(plate):
    make_piece(plate, "front", {"waist": "1 in", "thigh": "1 1/2 in"})
    make_piece(plate, "back", {"waist": "1 in", "thigh": "1 1/2 in"})
    assert reckoned(plate, "waist") == pytest.approx(32)
    assert reckoned(plate, "thigh") == pytest.approx(24)


def test_the_front_fastening_is_none_of_the_sleeves(plate):
    make_piece(plate, "front", {"bust": "2 in"})
    make_piece(plate, "sleeve", {"upper arm": "1 1/2 in"})
    Fastening.objects.create(plate=plate, overlap_um=um("1 in"), overlap_text="1 in")
    assert reckoned(plate, "bust") == pytest.approx(31)
    assert reckoned(plate, "upper arm") == pytest.approx(12)


def test_a_level_says_one_width_and_takes_the_other_from_every_level(plate):
    make_piece(plate, "front", {"bust": "2 in", "waist": "1 1/2 in"})
    Fastening.objects.create(plate=plate, overlap_um=um("1 in"), overlap_text="1 in")
    Fastening.objects.create(plate=plate, line="waist", gap_um=um("2 in"), gap_text="2 in")
    assert reckoned(plate, "waist") == pytest.approx(24 - 1 + 2)


def test_pieces_of_one_length_are_added_end_to_end_never_doubled(plate):
    make_piece(plate, "yoke", {"nape to waist": "1/2 in"})
    make_piece(plate, "back", {"nape to waist": "1 1/2 in"})
    assert reckoned(plate, "nape to waist") == pytest.approx(16)


def test_a_plate_of_a_lining_only_is_read_as_it_is(plate):
    make_piece(plate, "front", {"waist": "1 1/2 in"}, cloth="lining")
    assert plate_values(plate).pieces[0].name == "front"


@pytest.mark.parametrize(
    ("allowance", "typed", "mm"),
    [("none", None, 0.0), ("not known", None, None), ("included", "3/8 in", 9.525)],
)
def test_an_allowance_is_none_not_known_or_a_width(plate, allowance, typed, mm):
    plate.allowance = allowance
    plate.allowance_um, plate.allowance_text = (um(typed), typed) if typed else (None, "")
    assert plate_values(plate).allowance_mm == mm
