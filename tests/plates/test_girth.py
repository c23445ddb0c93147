"""From readings on a page to a girth at full size, with the doubt of each part."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.lengths.calculation.doubt import doubt_parts
from catalogue.plates.calculation.girth import Reckoning
from catalogue.plates.calculation.readings import DrawnPiece, FastenedWidth, PageReading
from catalogue.plates.calculation.scale import Scale
from tests.makers.cases import inches, make_piece, make_plate, make_reading


def girth_in(plate, level="waist", **given):
    return Reckoning.of(plate, **given).girth(level).mm / 25.4


def test_a_half_waist_of_one_and_a_half_inches_at_one_to_eight_is_24_in():
    # Common practice, no source.
    assert girth_in(make_plate(make_piece(waist=1.5))) == pytest.approx(24)


def test_a_draft_by_measure_comes_out_at_its_measures():
    # C. Hecklinger, Handbook on Dress and Cloak Cutting, 1884, pp. 7-12, figs 3-4: breast 36, waist 24, drawn
    # full size without seams. Half the breast is 18; half the waist is 16 before two darts of 2 are taken up.
    half = DrawnPiece(name="half", readings={"bust": make_reading(18), "waist": make_reading(16, 2 * 2)})
    draft = make_plate(half, scale=Scale.of(1))
    assert girth_in(draft, "bust") == pytest.approx(36)
    assert girth_in(draft, "waist") == pytest.approx(24)


@pytest.mark.parametrize(
    ("cut", "on_fold", "edges", "girth"),
    # 8 in drawn each time round, less 1/2 in at each edge that carries allowance.
    [
        (2, False, None, 2 * (8 - 2 * 0.5)),
        (1, True, None, 2 * (8 - 1 * 0.5)),
        (1, False, 0, 8),
        (4, False, 1, 4 * 7.5),
        (2, True, None, 4 * 7.5),
    ],
)
def test_a_piece_goes_round_as_often_as_it_is_cut_and_twice_on_the_fold(cut, on_fold, edges, girth):
    piece = DrawnPiece(name="one", cut=cut, on_fold=on_fold, edges=edges, readings={"waist": make_reading(1)})
    assert girth_in(make_plate(piece, allowance_mm=inches(0.5))) == pytest.approx(girth)


def test_overlap_lies_double_and_a_gap_stays_open():
    plate = make_plate(
        make_piece(waist=1.5, bust=2),
        overlap=FastenedWidth(everywhere_mm=inches(1)),
        lacing_gap=FastenedWidth(at_mm={"waist": inches(2)}),
    )
    assert girth_in(plate) == pytest.approx(24 - 1 + 2)
    assert girth_in(plate, "bust") == pytest.approx(32 - 1)


def test_a_piece_without_a_reading_is_not_at_that_level():
    plate = make_plate(make_piece("front", waist=1), make_piece("back", waist=0.5, hip=1))
    assert girth_in(plate) == pytest.approx(24)
    assert girth_in(plate, "hip") == pytest.approx(16)


def test_girths_run_across_the_page_and_lengths_along_it():
    plate = make_plate(
        scale=Scale(along=10, across=8), lengths={"nape to waist": (make_reading(1), make_reading(0.5))}
    )
    assert girth_in(plate) == pytest.approx(24)
    assert Reckoning.of(plate).length("nape to waist").mm == pytest.approx(inches(15))


def test_a_length_loses_allowance_where_it_crosses_a_seam():
    reading = PageReading(length_mm=inches(2), crossed_ends=2)
    plate = make_plate(lengths={"nape to waist": (reading,)}, allowance_mm=inches(0.5))
    assert Reckoning.of(plate).length("nape to waist").mm == pytest.approx(inches(16 - 1))


def test_an_allowance_that_is_not_known_can_be_tried_both_ways():
    plate = make_plate(allowance_mm=None)
    assert girth_in(plate) == pytest.approx(24)
    assert girth_in(plate, allowance_mm=inches(0.5)) == pytest.approx(22)


def test_one_drawn_piece_errs_as_often_as_it_is_cut():
    # Arithmetic: a girth of 8·(2a + 2b + 2c + 2d), each reading with an error of d/√6 for d = 1 mm. The two
    # of a piece share theirs: 16·√4/√6 mm, and not 8·√8/√6.
    pieces = [make_piece(name, waist=1) for name in "abcd"]
    plate = make_plate(
        *pieces, scale=Scale.of(8, relative_doubt=0.0), rule_division_mm=1.0, drawing_doubt_mm=0.0
    )
    assert Reckoning.of(plate).girth("waist").u_mm == pytest.approx(16 * 2 / math.sqrt(6))


def test_the_error_of_the_scale_is_shared_by_all_readings():
    # 0.5 % of 24 + 8 = 32 in, and not of each piece in quadrature.
    plate = make_plate(make_piece("front", waist=1.5), make_piece("back", waist=0.5), drawing_doubt_mm=0.0)
    girth = Reckoning.of(plate).girth("waist")
    parts = {part.source: part.variance_mm2 for part in doubt_parts(girth.value)}
    assert parts["scale.relative_doubt"] == pytest.approx((0.005 * inches(32)) ** 2)
    assert set(parts) == {
        "scale.relative_doubt", "pieces[0].readings.waist", "pieces[1].readings.waist"
    }  # fmt: skip


def test_what_two_lines_of_a_plate_share_cancels_in_their_difference():
    # Two girths of one size: their scale errs alike, so only readings and drawing are left between them.
    plate = make_plate(make_piece(waist=1.5, bust=1.5))
    reckoning = Reckoning.of(plate)
    apart = reckoning.girth("waist").value - reckoning.girth("bust").value
    assert "scale.relative_doubt" not in {
        part.source for part in doubt_parts(apart) if part.variance_mm2 > 1e-12
    }


readings_in = st.integers(4, 64).map(lambda count: count / 16)


@given(st.lists(readings_in, min_size=1, max_size=8), st.floats(1, 20))
def test_twice_the_scale_is_twice_the_girth(lengths, factor):
    # Without allowance, overlap and gap.
    pieces = [make_piece(str(index), waist=length) for index, length in enumerate(lengths)]
    plate = make_plate(*pieces, scale=Scale.of(factor))
    doubled = replace(plate, scale=Scale.of(2 * factor))
    assert girth_in(doubled) == pytest.approx(2 * girth_in(plate))


@given(st.lists(st.tuples(readings_in, st.booleans(), st.integers(1, 4)), min_size=1, max_size=6))
def test_the_doubt_is_that_of_the_formula(drawn):
    # u² = Σ m²·(k²·d²/6·(1 or 2) + dd²) + (relative · Σ m·k·(ℓ − t))²
    pieces = [
        DrawnPiece(name=str(i), cut=cut, readings={"waist": make_reading(length, 0.125 if taken_up else 0.0)})
        for i, (length, taken_up, cut) in enumerate(drawn)
    ]
    expected, cloth = 0.0, 0.0
    for length, taken_up, cut in drawn:
        expected += cut**2 * (64 * (1 / 16) ** 2 / 6 * (2 if taken_up else 1) + (1 / 16) ** 2)
        cloth += cut * 8 * (length - (0.125 if taken_up else 0.0))
    expected += (0.005 * cloth) ** 2
    assert Reckoning.of(make_plate(*pieces)).girth("waist").u_mm == pytest.approx(inches(math.sqrt(expected)))
