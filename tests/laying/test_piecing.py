"""Pieces wider than the cloth: as few parts as it allows, each with its allowance, nothing lost."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, union_all

from fitting.laying.calculation.cloth import Cloth, Direction
from fitting.laying.calculation.lay_out import Order, lay_out
from fitting.laying.calculation.piece import OutlineNotUsable
from fitting.laying.calculation.piecing import LEAST_PART_MM, pieced
from tests.makers.lays import assert_sound, make_piece, outlines, rectangle


def widths(piecing) -> list[float]:
    spans = [Polygon(part.cut_outline).bounds for part in piecing.parts]
    return [right - left for left, _, right, _ in spans]


def test_a_panel_twice_the_cloth_is_joined_along_the_warp_with_its_allowance():
    # By hand: 900 of panel and 2 × 10 of allowance on cloth of 500. The first part is all the cloth, its line
    # 10 inside its edge: from −10 to 490, the line at 480. The second: 480 to 910, 10 at the join, 440 wide.
    piecing = pieced(make_piece("panel", rectangle(900, 700), allowance_mm=10), 500)
    assert piecing.lines_x_mm == (480,)
    assert widths(piecing) == pytest.approx([500, 440])
    assert [part.name for part in piecing.parts] == ["panel part 1", "panel part 2"]


def test_the_small_part_comes_at_the_side_that_takes_less_cloth():
    # A gore that tapers to the left: the corner cut off there holds less than one at the right would.
    gore = [(0.0, 300.0), (600.0, 0.0), (600.0, 700.0), (0.0, 400.0)]
    assert pieced(make_piece("gore", gore), 500).lines_x_mm == (100,)
    mirrored = [(-x, y) for x, y in gore]
    assert pieced(make_piece("gore", mirrored), 500).lines_x_mm == (-100,)


def test_no_part_is_too_narrow_to_sew_where_the_piece_can_spare_it():
    piecing = pieced(make_piece("panel", rectangle(501, 700)), 500)
    assert min(widths(piecing)) == pytest.approx(LEAST_PART_MM)


def test_a_hollow_leaves_two_parts_on_one_side_of_a_line():
    # Two legs to the right of a body: the line crosses both.
    legs = [(0, 0), (600, 0), (600, 100), (200, 100), (200, 300), (600, 300), (600, 400), (0, 400)]
    piecing = pieced(make_piece("breeches", [(float(x), float(y)) for x, y in legs]), 400)
    assert len(piecing.parts) == 3


def test_cloth_too_narrow_for_the_joins_is_refused():
    with pytest.raises(OutlineNotUsable, match="too narrow"):
        pieced(make_piece("panel", rectangle(900, 100), allowance_mm=12.7), 26)


@given(outlines(), st.sampled_from((0, 5, 12)), st.integers(60, 300))
def test_parts_fit_the_cloth_and_together_are_the_piece(points, allowance_mm, width):
    try:
        piece = make_piece("piece", points, allowance_mm=allowance_mm)
        piecing = pieced(piece, width)
    except OutlineNotUsable:
        return
    parts = [Polygon(part.cut_outline) for part in piecing.parts]
    net, cut = Polygon(piece.outline), Polygon(piece.cut_outline)
    assert max(widths(piecing)) <= width + 0.01
    assert net.difference(union_all(parts).buffer(1e-6)).area < 0.01
    assert union_all(parts).difference(cut.buffer(1e-6)).area < 0.01


def test_a_piece_that_fits_in_another_turn_is_not_joined():
    order = Order(
        cloth=Cloth(width_mm=400, direction=Direction.ANY), pieces=(make_piece("band", rectangle(900, 300)),)
    )
    lay = lay_out(order)
    assert not lay.piecings
    assert lay.length_mm == pytest.approx(900)


def test_joined_pieces_are_laid_in_their_parts_and_not_whole():
    panel = make_piece("panel", rectangle(900, 700), copies=2, paired=True, allowance_mm=10)
    lay = lay_out(Order(cloth=Cloth(width_mm=500), pieces=(panel,), seconds=0.5))
    assert_sound(lay)
    assert {one.piece for one in lay.placements} == {"panel part 1", "panel part 2"}
    assert lay.length_mm == pytest.approx(4 * 720)


def test_no_part_is_called_by_the_name_of_another_piece():
    wide, other = make_piece("back", rectangle(400, 100)), make_piece("back part 1", rectangle(90, 50))
    lay = lay_out(Order(cloth=Cloth(width_mm=250), pieces=(wide, other), seconds=0.3))
    assert_sound(lay)
    assert [part.name for part in lay.piecings[0].parts] == ["back part 2", "back part 3"]
