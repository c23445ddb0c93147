"""Lays judged from outside: nothing over anything, nothing off the cloth, none shorter than can be."""

import pytest
from hypothesis import given, settings

from catalogue.lengths.calculation.errors import Faults
from fitting.laying.calculation import nesting
from fitting.laying.calculation.cloth import Cloth, Direction
from fitting.laying.calculation.lay_out import Order, lay_out
from fitting.laying.calculation.strip import Shape, Strip, bounds, grown
from fitting.laying.exchange.lay_file import read_lay
from tests.examples import examples
from tests.makers.lays import (
    INCH_MM,
    LAYS,
    YARD_MM,
    assert_sound,
    least_distance_mm,
    make_piece,
    orders,
    placed,
    rectangle,
    until,
)


def laid_yards(width_in: float, wide_in: float, long_in: float, copies: int) -> float:
    piece = make_piece("panel", rectangle(wide_in * INCH_MM, long_in * INCH_MM), copies=copies)
    lay = lay_out(Order(cloth=Cloth(width_mm=width_in * INCH_MM), pieces=(piece,)))
    assert_sound(lay)
    return lay.length_mm / YARD_MM


@pytest.mark.parametrize(
    ("wide_in", "long_in", "copies", "width_in", "yards", "other_width_in", "other_yards"),
    [
        # Yards × width ÷ other width, as yardage is converted by area; here with panels that fill both.
        (9, 12, 60, 45, 4, 54, 3.33),
        (9, 7.2, 120, 54, 4, 45, 4.80),
        (6, 18, 90, 54, 5, 60, 4.50),
        (15, 36, 12, 60, 3, 45, 4.00),
    ],
)
def test_panels_that_fill_the_cloth_take_what_the_widths_say(
    wide_in, long_in, copies, width_in, yards, other_width_in, other_yards
):
    assert laid_yards(width_in, wide_in, long_in, copies) == pytest.approx(yards)
    assert laid_yards(other_width_in, wide_in, long_in, copies) == pytest.approx(other_yards, abs=0.005)


def test_wide_cloth_saves_what_the_shops_table_says_it_saves():
    # Table of equal yardage circulated from Rutgers Cooperative Extension (three copies agree): what takes
    # 1 3/4 to 5 yd of 35-36 in cloth takes 0.56 to 0.65 of that in 58-60 in. Plausibility: hence the margin.
    pieces = read_lay((LAYS / "walking_dress.json").read_text(encoding="utf-8")).order.pieces
    narrow, wide = (
        lay_out(Order(cloth=Cloth(width_mm=width_in * INCH_MM), pieces=pieces), watch=until(5)).length_mm
        for width_in in (36, 60)
    )
    assert 0.53 < wide / narrow < 0.68


@pytest.mark.parametrize(
    ("direction", "length_mm"), [(Direction.ONE_WAY, 400), (Direction.TWO_WAY, 400), (Direction.ANY, 300)]
)
def test_quarter_turns_are_made_only_where_the_cloth_allows_them(direction, length_mm):
    cloth = Cloth(width_mm=400, direction=direction)
    lay = lay_out(Order(cloth=cloth, pieces=(make_piece("band", rectangle(300, 400)),)), watch=until(1))
    assert_sound(lay)
    assert lay.length_mm == pytest.approx(length_mm)


def test_two_way_cloth_lets_wedges_lie_head_to_foot():
    wedge = make_piece("gore", [(0.0, 0.0), (200.0, 0.0), (110.0, 900.0), (90.0, 900.0)], copies=2)
    lengths = {
        direction: lay_out(
            Order(cloth=Cloth(width_mm=320, direction=direction), pieces=(wedge,)), watch=until(1)
        ).length_mm
        for direction in (Direction.ONE_WAY, Direction.TWO_WAY)
    }
    assert lengths[Direction.TWO_WAY] < 1000 < lengths[Direction.ONE_WAY]


def test_neighbours_keep_the_gap_and_the_cloths_edge_does_not():
    squares = make_piece("square", rectangle(100, 100), copies=4)
    lay = lay_out(Order(cloth=Cloth(width_mm=210, gap_mm=10), pieces=(squares,)), watch=until(1))
    assert_sound(lay)
    assert lay.length_mm == pytest.approx(210)


def test_a_lay_that_cannot_be_shorter_is_not_searched_for(monkeypatch):
    monkeypatch.setattr(nesting, "_run", pytest.fail)
    squares = make_piece("square", rectangle(100, 100), copies=9)
    assert lay_out(Order(cloth=Cloth(width_mm=300), pieces=(squares,))).density == pytest.approx(1)


def test_the_least_length_counts_area_and_the_longest_piece():
    long = Shape(name="a", outline=tuple(rectangle(10, 500)), mirrored=False, copies=1, turns_deg=(0,))
    flat = Shape(name="b", outline=tuple(rectangle(100, 100)), mirrored=False, copies=3, turns_deg=(0, 90))
    assert Strip.of([long], width=100, gap=0).least_length == 500
    assert Strip.of([flat], width=100, gap=0).least_length == pytest.approx(300)


@pytest.mark.parametrize("name", ["walking_dress", "bedgown_of_narrow_silk"])
def test_garments_are_laid_soundly(name):
    order = read_lay((LAYS / f"{name}.json").read_text(encoding="utf-8")).order
    assert_sound(lay_out(Order(cloth=order.cloth, pieces=order.pieces), watch=until(2)))


@settings(max_examples=examples(25))
@given(orders())
def test_whatever_the_pieces_the_lay_is_sound(order):
    assert_sound(lay_out(order, watch=until(1)))


def test_pieces_rest_on_one_another_without_touching():
    # Long slanted sides that lie along each other: shapely 2.2 (GEOS 3.14.1) took two of these that touched
    # for one whole overlap once they had been turned by 180°.
    points = [(-45, 100), (-45, -72), (146, -140), (146, -100), (38, 1), (69, 37)]
    cloth = Cloth(width_mm=191, direction=Direction.TWO_WAY)
    lay = lay_out(Order(cloth=cloth, pieces=(make_piece("a", points, copies=6),)), watch=until(1))
    shapes = [placed(lay.cut_outlines["a"], one) for one in lay.placements]
    assert 0 < least_distance_mm(shapes) < 0.1


def test_pointed_pieces_as_wide_as_the_cloth_are_nested():
    kite = make_piece("kite", [(0, 60), (120, 0), (400, 90), (150, 300)], copies=4)
    lays = []
    order = Order(cloth=Cloth(width_mm=400), pieces=(kite,))
    lay = lay_out(order, watch=lambda progress: lays.append(progress.lays) or progress.lays == 0)
    assert_sound(lay)
    assert max(lays) > 0


def test_a_grown_outline_stays_within_its_grown_box():
    # Cut square across their bisectors, the corners of a kite would reach beyond it.
    kite = ((0.0, 60.0), (120.0, 0.0), (400.0, 90.0), (150.0, 300.0))
    assert bounds(grown(kite, 15)) == (-15, -15, 415, 315)


def test_a_lay_longer_than_any_cloth_is_refused_at_once(monkeypatch):
    monkeypatch.setattr(nesting, "_run", pytest.fail)
    # 300 panels of 4 m, one abreast: 1200 m.
    panel = make_piece("panel", rectangle(500, 4000), copies=300)
    with pytest.raises(Faults, match="more than a kilometre"):
        lay_out(Order(cloth=Cloth(width_mm=500), pieces=(panel,)))
