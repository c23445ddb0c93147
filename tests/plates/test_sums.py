"""Sums are written as a person would write them."""

from catalogue.plates.calculation.girth import Reckoning
from catalogue.plates.calculation.readings import DrawnPiece, FastenedWidth, PageReading
from catalogue.plates.calculation.scale import Scale
from catalogue.plates.calculation.sums import sum_text
from tests.makers.cases import inches, make_piece, make_plate, make_reading


def waist_sum(plate, system="in"):
    return sum_text(Reckoning.of(plate).girth("waist"), system)


def test_one_piece_needs_no_name():
    assert waist_sum(make_plate(make_piece(waist=1.5))) == "2 × 8 × 1 1/2 in = 24 in"


def test_a_sum_shows_take_up_allowance_overlap_and_gap():
    plate = make_plate(
        DrawnPiece(name="front", readings={"waist": make_reading(0.75, 0.0625)}),
        DrawnPiece(name="back", cut=1, on_fold=True, readings={"waist": make_reading(1)}),
        allowance_mm=inches(0.25),
        overlap=FastenedWidth(everywhere_mm=inches(0.5)),
        lacing_gap=FastenedWidth(everywhere_mm=inches(1)),
    )
    assert waist_sum(plate) == (
        "front 2 × (8 × (3/4 in − 1/16 in) − 2 × 1/4 in) + back 2 × (8 × 1 in − 1/4 in)"
        " − overlap 1/2 in + gap 1 in = 26 in"
    )


def test_a_sum_that_was_rounded_says_so():
    # 2 · 7.9 · 1 1/2 = 23.7 in.
    plate = make_plate(scale=Scale(along=7.9, across=7.9))
    assert waist_sum(plate) == "2 × 7.9 × 1 1/2 in ≈ 23 11/16 in"


def test_readings_to_a_thirty_second_are_shown_as_read():
    assert waist_sum(make_plate(make_piece(waist=1 + 15 / 32))) == "2 × 8 × 1 15/32 in = 23 1/2 in"


def test_in_centimetres_the_page_is_read_to_a_tenth_of_a_millimetre():
    piece = DrawnPiece(name="half", readings={"waist": PageReading(length_mm=38.5)})
    assert waist_sum(make_plate(piece), "cm") == "2 × 8 × 3.85 cm = 61.6 cm"


def test_the_sum_of_a_length_is_never_doubled():
    plate = make_plate(
        lengths={"sleeve": (make_reading(2), PageReading(length_mm=inches(1), crossed_ends=1))},
        allowance_mm=inches(0.5),
    )
    assert (
        sum_text(Reckoning.of(plate).length("sleeve"))
        == "sleeve 8 × 2 in + sleeve 8 × 1 in − 1/2 in = 23 1/2 in"
    )
