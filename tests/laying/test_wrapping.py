"""Outlines of many points wrapped in few: nothing left out, nothing lost on the cloth, the search goes on."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon

from fitting.laying.calculation.cloth import Cloth, Direction
from fitting.laying.calculation.lay_out import Order, lay_out
from fitting.laying.calculation.strip import PlacedCopy, Shape, Strip, too_near
from fitting.laying.calculation.wrapping import CHALK_MM, FEW_POINTS, wrapped
from tests.makers.lays import assert_sound, make_piece, rectangle, until, with_points_between


def scalloped(points: int, width_mm: float, length_mm: float, scallops: int) -> list[tuple[float, float]]:
    """As a traced curve is flattened: hundreds of chords, some of them far shorter than a thread."""
    angles = (2 * math.pi * number / points for number in range(points))
    return [
        (
            width_mm / 2 * (1 + 0.05 * math.sin(scallops * angle)) * math.cos(angle),
            length_mm / 2 * (1 + 0.05 * math.cos(scallops * angle)) * math.sin(angle),
        )
        for angle in angles
    ]


@given(
    points=st.integers(41, 900),
    width_mm=st.floats(0.5, 2000),
    length_mm=st.floats(0.5, 2000),
    scallops=st.integers(0, 12),
)
def test_a_wrapper_holds_the_piece_stays_near_it_and_keeps_its_box(points, width_mm, length_mm, scallops):
    piece = Polygon(scalloped(points, width_mm, length_mm, scallops))
    wrapper = Polygon(wrapped(tuple(piece.exterior.coords)[:-1]))
    assert wrapper.is_valid
    assert piece.difference(wrapper).area < 1e-9
    assert wrapper.difference(piece.buffer(CHALK_MM)).area < 1e-6
    assert wrapper.bounds == pytest.approx(piece.bounds, abs=1e-9)


def test_of_hundreds_of_points_some_tens_are_left():
    assert len(wrapped(tuple(scalloped(900, 300, 500, 5)))) < 200


def test_few_points_stay_as_they_are_and_points_on_a_line_say_nothing():
    square = tuple(rectangle(100, 200))
    assert wrapped(square) == square
    crowded = with_points_between(square, *(part / 20 for part in range(1, 20)))
    assert len(crowded) > FEW_POINTS
    assert set(wrapped(tuple(crowded))) == set(square)


def test_pieces_of_many_points_are_nested_and_not_only_boxed():
    pieces = tuple(
        make_piece(f"piece {number}", scalloped(450, 150 + 40 * number, 250 + 60 * number, 3), copies=4)
        for number in range(3)
    )
    cloth = Cloth(width_mm=900, direction=Direction.TWO_WAY)
    order = Order(cloth=cloth, pieces=pieces)
    lays = []
    lay = lay_out(order, watch=lambda progress: lays.append(progress.lays) or progress.lays < 3)
    assert_sound(lay)
    assert max(lays) > 0
    assert lay.length_mm < lay_out(order, watch=lambda progress: False).length_mm


def test_points_that_single_precision_cannot_tell_apart_do_not_end_the_search():
    crowded = with_points_between([(0.0, 0.0), (200.0, 0.0), (110.0, 900.0), (90.0, 900.0)], 1e-8, 0.5)
    order = Order(
        cloth=Cloth(width_mm=320, direction=Direction.TWO_WAY),
        pieces=(make_piece("gore", crowded, copies=2),),
    )
    assert lay_out(order, watch=until(1)).length_mm < 1000


def test_detailed_pieces_that_fill_the_cloth_side_by_side_still_do():
    half = [
        (250 + 250 * math.cos(angle), 400 * math.sin(angle))
        for angle in (math.pi * n / 300 for n in range(301))
    ]
    panel = make_piece("panel", half, copies=2)
    lay = lay_out(Order(cloth=Cloth(width_mm=1000), pieces=(panel,), seconds=0.3))
    assert_sound(lay)
    assert lay.length_mm == pytest.approx(400, abs=0.5)


def test_a_lay_is_judged_by_every_point_of_its_pieces():
    round_one = Shape(
        name="a", outline=tuple(scalloped(720, 100, 100, 0)), mirrored=False, copies=2, turns_deg=(0,)
    )
    ((one,),) = Strip.of([round_one], width=300, gap=5).shapes
    across = one.right - one.left
    lay = [PlacedCopy(turned=one, x=0, y=0), PlacedCopy(turned=one, x=across + 5, y=0)]
    assert not too_near(lay, 5)
    assert too_near([lay[0], lay[1].at(x=across + 4.99)], 5) == [(0, 1)]
    assert too_near([lay[0], lay[1].at(x=across - 0.01)], 0) == [(0, 1)]
