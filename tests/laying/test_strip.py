"""Shapes on the strip, by hand: none of them drawn from nought."""

import pytest

from fitting.laying.calculation.strip import PlacedCopy, Shape, Strip, TurnedShape

# 30 across and 70 along, 10 and 20 from nought.
OUTLINE = ((10.0, 20.0), (40.0, 20.0), (40.0, 90.0), (10.0, 90.0))


def shape(*turns: int, copies: int = 1) -> Shape:
    return Shape(name="cuff", outline=OUTLINE, mirrored=False, copies=copies, turns_deg=turns)


@pytest.mark.parametrize(("turn", "width", "height"), [(0, 30, 70), (90, 70, 30), (180, 30, 70)])
def test_a_shape_is_as_wide_and_as_high_wherever_it_was_drawn(turn, width, height):
    turned = TurnedShape(shape(turn), turn, 0)
    assert (turned.width, turned.height) == (width, height)


def test_a_copy_lies_as_far_along_as_it_was_moved():
    copy = PlacedCopy(turned=TurnedShape(shape(0), 0, 0), x=5, y=100)
    assert (copy.bottom, copy.top) == (120, 190)


def test_no_lay_is_shorter_than_its_longest_piece_or_its_cloth():
    # One piece: 70 one way, 30 where it may be turned; eight: 8 × 2100 ÷ 60 = 280.
    assert Strip.of([shape(0)], width=60, gap=0).least_length == 70
    assert Strip.of([shape(0, 90)], width=70, gap=0).least_length == 30
    assert Strip.of([shape(0, copies=8)], width=60, gap=0).least_length == pytest.approx(280)
