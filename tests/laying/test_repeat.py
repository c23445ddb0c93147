"""A repeat is matched: every matching point lies at one place of it, and what finds none is named."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitting.laying.calculation.cloth import Cloth, Direction
from fitting.laying.calculation.lay_out import Order, lay_out
from fitting.laying.calculation.repeat import Repeat
from fitting.laying.exchange.lay_answer import lay_said
from tests.examples import examples
from tests.makers.lays import assert_matched, assert_sound, make_piece, orders, placed, rectangle

REPEAT_MM = 250


def laid(*pieces, width_mm: float = 1000, repeat: Repeat | None = None, **cloth):
    repeat = repeat or Repeat(along_mm=REPEAT_MM)
    lay = lay_out(Order(cloth=Cloth(width_mm=width_mm, repeat=repeat, unit_mm=10, **cloth), pieces=pieces))
    assert_sound(lay)
    assert_matched(lay)
    return lay


@pytest.mark.parametrize(
    ("wide_mm", "long_mm", "copies", "starts_mm", "bought_mm"),
    [
        # 300 long is two repeats of 250: 0, 500, 1000, and 1300 in six repeats.
        (900, 300, 3, [0, 500, 1000], 1500),
        # 900 long is four repeats: 0, 1000, 2000; 2 × 1000 + 900 = 2900 in twelve repeats.
        (900, 900, 3, [0, 1000, 2000], 3000),
        # Exactly two repeats long, one follows the other; four abreast fill the cloth to its edge.
        (250, 500, 9, [0] * 4 + [500] * 4 + [1000], 1500),
        # Two abreast: 0, 0, 750, 750; 750 + 600 = 1350 in six repeats.
        (500, 600, 4, [0, 0, 750, 750], 1500),
    ],
)
def test_panels_start_at_whole_repeats(wide_mm, long_mm, copies, starts_mm, bought_mm):
    lay = laid(make_piece("panel", rectangle(wide_mm, long_mm), copies=copies))
    assert sorted(one.y_mm for one in lay.placements) == pytest.approx(starts_mm)
    assert lay.length_to_buy_mm == pytest.approx(bought_mm)


def test_one_repeat_more_is_bought_where_the_shop_cuts_anywhere_in_it():
    panel = make_piece("panel", rectangle(900, 300), copies=3)
    lay = laid(panel, repeat=Repeat(along_mm=REPEAT_MM, one_more=True))
    assert lay.length_to_buy_mm == pytest.approx(1750)  # 1500 and one more
    assert "One repeat more is bought" in " ".join(lay_said(lay))


def test_a_repeat_shrinks_with_its_cloth():
    # 250 shrinks by 0.04 to 240: panels of 300 start at 0, 480, 960.
    # 1260 ÷ 0.96 = 1312.5: six repeats of 250.
    lay = laid(make_piece("panel", rectangle(900, 300), copies=3), shrinkage_length=0.04)
    assert sorted(one.y_mm for one in lay.placements) == pytest.approx([0, 480, 960])
    assert lay.length_to_buy_mm == pytest.approx(1500)


def test_pieces_of_unlike_length_meet_at_their_waists():
    # The back's waist lies 400 up, the front's 150: side by side, the back begins 250 lower.
    back = make_piece("back", rectangle(450, 900), match=(0, 400))
    front = make_piece("front", rectangle(450, 650), match=(450, 150))
    lay = laid(back, front)
    starts = {one.piece: one.y_mm for one in lay.placements}
    assert (starts["front"] - starts["back"]) % REPEAT_MM == pytest.approx(0, abs=0.01)
    assert lay.length_mm == pytest.approx(900)


def test_an_allowance_is_not_matched_but_the_stitching_line_is():
    # Cut 20 longer all round: 340 of two repeats, and the lowest point of the outline is 20 above the cut.
    lay = laid(make_piece("panel", rectangle(800, 300), copies=2, allowance_mm=20))
    assert sorted(one.y_mm for one in lay.placements) == pytest.approx([20, 520])


def test_across_every_piece_lies_at_one_place_of_the_repeat():
    # Stripes of 300: two panels of 350 cannot lie edge to edge, but at 0 and 600.
    lay = laid(make_piece("panel", rectangle(350, 400), copies=2), repeat=Repeat(along_mm=250, across_mm=300))
    assert sorted(one.x_mm for one in lay.placements) == pytest.approx([0, 600])
    assert lay.length_mm == pytest.approx(400)


def test_stripes_alone_leave_the_length_free():
    lay = laid(make_piece("panel", rectangle(600, 410), copies=2), repeat=Repeat(across_mm=300))
    assert lay.length_mm == pytest.approx(820)


def test_a_half_drop_counts():
    # At the next repeat across, the pattern stands half a repeat further along: 0 and 125.
    half_drop = Repeat(along_mm=250, across_mm=500, drop_mm=125)
    lay = laid(make_piece("panel", rectangle(500, 400), copies=2), repeat=half_drop)
    assert sorted(one.x_mm for one in lay.placements) == pytest.approx([0, 500])
    assert sorted(one.y_mm for one in lay.placements) == pytest.approx([0, 125])


def test_what_cannot_match_across_is_named_and_still_matched_along():
    # 900 of 1000 moves by 100 at most: its points lie from 0 to 100.
    # Those of the other, set 250 in, lie from 250 on.
    wide = make_piece("wide", rectangle(900, 300), copies=2)
    narrow = make_piece("narrow", rectangle(300, 300), copies=3, match=(250, 0))
    lay = lay_out(
        Order(cloth=Cloth(width_mm=1000, repeat=Repeat(along_mm=250, across_mm=2000)), pieces=(wide, narrow))
    )
    assert_sound(lay)
    assert_matched(lay)
    assert len(lay.unmatched) == 1
    assert any(
        "Not matched across" in sentence and lay.unmatched[0] in sentence for sentence in lay_said(lay)
    )
    along = {round(one.y_mm % 250, 6) % 250 for one in lay.placements}
    assert along == {0}


def test_parts_of_a_piece_wider_than_the_cloth_take_up_the_repeat_where_the_last_leaves_it():
    # 1500 wide on 1000: joined whole repeats of 300 from where the first part ends.
    lay = laid(make_piece("curtain", rectangle(1500, 700)), repeat=Repeat(along_mm=250, across_mm=300))
    assert {part.name for part in lay.piecings[0].parts} == {one.piece for one in lay.placements}
    assert lay.unmatched == ()


@pytest.mark.parametrize("direction", Direction)
def test_on_cloth_that_repeats_along_its_length_all_pieces_lie_one_way_up(direction):
    # Three panels of 300 on a repeat of 250: 0, 500, 1000, though turned ones would lie closer.
    lay = laid(make_piece("panel", rectangle(900, 300), copies=3), direction=direction)
    assert [(one.rotation_deg, one.y_mm) for one in lay.placements] == [(0, 0), (0, 500), (0, 1000)]
    assert lay.length_to_buy_mm == 1500


def test_stripes_along_the_cloth_let_a_piece_be_turned_end_for_end_and_the_condition_is_said():
    gore = make_piece("gore", [(0, 0), (600, 0), (350, 900), (250, 900)], copies=4, match=(300, 450))
    lay = laid(gore, direction=Direction.ANY, repeat=Repeat(across_mm=100))
    assert {one.rotation_deg for one in lay.placements} == {0, 180}
    assert any("the middle of a motif" in sentence for sentence in lay_said(lay))


def test_a_piece_that_matches_one_way_round_is_laid_that_way():
    # 120 wide on 150, its point 20 from its left: as drawn it lies from 20 to 50; turned, from 100 to 130,
    # which no stripe of 130 puts at the same place.
    points = [(0.0, 0.0), (120.0, 0.0), (120.0, 50.0), (60.0, 90.0), (0.0, 50.0)]
    piece = make_piece("pocket", points, copies=4, match=(20, 0))
    lay = laid(piece, width_mm=150, repeat=Repeat(across_mm=130), direction=Direction.TWO_WAY)
    assert len({one.rotation_deg for one in lay.placements}) == 1


def test_halves_at_the_fold_are_matched_too():
    back = make_piece("back", rectangle(200, 600), on_fold=True, match=(0, 100))
    front = make_piece("front", rectangle(280, 500), match=(140, 80))
    cloth = Cloth(width_mm=1000, repeat=Repeat(along_mm=250))
    lay = lay_out(Order(cloth=cloth, pieces=(back, front), is_folded=True))
    assert_sound(lay)
    assert_matched(lay)


def test_one_order_gives_one_lay():
    order = Order(
        cloth=Cloth(width_mm=900, repeat=Repeat(along_mm=REPEAT_MM)),
        pieces=(
            make_piece("gore", [(0, 0), (300, 0), (180, 700), (120, 700)], copies=4),
            make_piece("band", rectangle(200, 90), copies=3),
        ),
        seconds=2,
    )
    first, second = lay_out(order), lay_out(order)
    assert first.placements == second.placements
    assert first.ending == second.ending == "tries"


repeats = st.builds(
    lambda along, across, part: Repeat(
        along_mm=along, across_mm=across, drop_mm=along * part if across else 0.0
    ),
    st.sampled_from((37, 120.5, 250)),
    st.sampled_from((0, 0, 45.7, 130)),
    st.sampled_from((0, 0.5, 1 / 3)),
) | st.builds(lambda across: Repeat(across_mm=across), st.sampled_from((45.7, 130)))


@settings(max_examples=examples(25))
@given(orders(seconds=0.3), repeats)
def test_whatever_the_pieces_they_match(order, repeat):
    lay = lay_out(replace(order, cloth=replace(order.cloth, repeat=repeat)))
    assert_sound(lay)
    assert_matched(lay)
    shapes = [placed(lay.cut_outlines[one.piece], one) for one in lay.placements]
    assert max(shape.bounds[3] for shape in shapes) == pytest.approx(lay.length_mm)
