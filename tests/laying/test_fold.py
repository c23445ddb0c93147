"""Folded cloth: halves lie at the fold, the rest beside them; nothing wider than half the cloth is laid."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from catalogue.lengths.calculation.errors import Faults
from fitting.laying.calculation.cloth import Cloth, Direction
from fitting.laying.calculation.lay_out import Order, lay_out
from fitting.laying.calculation.piece import LayPiece, OutlineNotUsable
from tests.examples import examples
from tests.makers.lays import assert_sound, make_piece, outlines, placed, rectangle, until

FOLD_MM = 0.02


def folded(*pieces: LayPiece, width_mm: float = 1000, seconds: float = 5, **cloth) -> Order:
    return Order(cloth=Cloth(width_mm=width_mm, **cloth), pieces=pieces, seconds=seconds, is_folded=True)


def assert_at_fold(lay) -> None:
    halves = {piece.name for piece in lay.order.pieces if piece.on_fold}
    there = [one for one in lay.placements if one.piece in halves]
    assert len(there) == sum(piece.copies for piece in lay.order.pieces if piece.on_fold)
    for one in there:
        assert placed(lay.cut_outlines[one.piece], one).bounds[0] == pytest.approx(0, abs=FOLD_MM)


def test_halves_lie_at_the_fold_and_pairs_beside_them():
    back = make_piece("back", rectangle(200, 600), on_fold=True)
    front = make_piece("front", rectangle(290, 600))
    lay = lay_out(folded(back, front), watch=until(9))
    assert_sound(lay)
    assert_at_fold(lay)
    # 200 + 290 of the 500 mm that lie on the table; as on open cloth, 400 + 2 × 290 of 1000.
    assert lay.length_mm == pytest.approx(600)
    assert lay.density == pytest.approx((200 + 290) / 500)


def test_halves_lie_one_after_another_along_the_fold():
    back = make_piece("back", rectangle(240, 500), copies=2, on_fold=True)
    lay = lay_out(folded(back), watch=until(9))
    assert_at_fold(lay)
    assert lay.length_mm == pytest.approx(1000)


def test_what_is_left_beside_a_tapering_half_is_used():
    # A gore on the fold, 80 to 400 wide, and the same upside down: 500 is too narrow for two of 400.
    gore = make_piece("gore", [(0, 0), (400, 0), (80, 800), (0, 800)], on_fold=True)
    beside = make_piece("beside", [(0, 800), (400, 800), (400, 0), (320, 0)])
    lay = lay_out(folded(gore, beside), watch=until(20))
    assert_sound(lay)
    assert lay.length_mm < 1000


def test_turned_round_on_two_way_cloth_a_half_still_has_its_fold_at_the_fold():
    wedge = make_piece("gore", [(0, 0), (400, 0), (50, 900), (0, 900)], copies=2, on_fold=True)
    filler = make_piece("side", [(0, 0), (430, 0), (430, 900), (380, 900)], copies=2)
    lay = lay_out(folded(wedge, filler, width_mm=1000, direction=Direction.TWO_WAY), watch=until(20))
    assert_sound(lay)
    assert_at_fold(lay)


def test_without_halves_folded_cloth_is_cloth_of_half_the_width():
    pair = make_piece("front", [(0, 0), (200, 0), (150, 500), (40, 480)], copies=3)
    lay = lay_out(folded(pair), watch=until(1))
    assert_sound(lay)
    assert lay.order.width_mm == 500
    assert 500 - max(placed(lay.cut_outlines["front"], one).bounds[2] for one in lay.placements) > -FOLD_MM


def test_a_piece_wider_than_the_cloth_lies_is_named():
    with pytest.raises(Faults) as refused:
        lay_out(folded(make_piece("front", rectangle(400, 600)), make_piece("skirt", rectangle(501, 600))))
    assert [str(fault) for fault in refused.value.faults] == [
        "pieces[1].outline: This is wider than the cloth lies when folded: lay the cloth open."
    ]


def test_the_search_is_told_of_and_stops_when_asked():
    back = make_piece("back", [(0, 0), (300, 0), (120, 700), (0, 600)], on_fold=True)
    side = make_piece("side", [(0, 0), (260, 0), (150, 600), (0, 300)], copies=4)
    seen = []
    lay = lay_out(
        folded(back, side, seconds=60), watch=lambda progress: seen.append(progress) or len(seen) < 4
    )
    assert_sound(lay)
    assert_at_fold(lay)
    assert [progress.lays for progress in seen] == [1, 2, 3, 4]


@settings(max_examples=examples(40))
@given(data=st.data())
def test_whatever_the_pieces_halves_are_at_the_fold_and_nothing_lies_over_anything(data):
    pieces = []
    for number in range(data.draw(st.integers(1, 5))):
        try:
            piece = make_piece(
                f"piece {number}",
                data.draw(outlines()),
                copies=data.draw(st.integers(1, 3)),
                allowance_mm=data.draw(st.sampled_from((0, 10))),
                on_fold=number == 0 or data.draw(st.booleans()),
            )
        except OutlineNotUsable:
            assume(False)
        pieces.append(piece)
    lay = lay_out(
        folded(
            *pieces,
            width_mm=data.draw(st.integers(1700, 3000)),
            direction=data.draw(st.sampled_from(tuple(Direction))),
            gap_mm=data.draw(st.sampled_from((0, 6))),
        ),
        watch=until(5),
    )
    assert_sound(lay)
    assert_at_fold(lay)
