"""Outlines that can be cut, and sentences about those that cannot."""

import pytest
from shapely import Polygon

from fitting.laying.calculation.piece import OutlineNotUsable, cut_outline, read_outline
from tests.makers.lays import rectangle


def test_an_outline_may_run_either_way_and_be_closed_or_not():
    square = rectangle(100, 100)
    assert set(read_outline(square)) == set(read_outline([*square[::-1], square[-1]]))
    assert Polygon(read_outline(square[::-1])).exterior.is_ccw


@pytest.mark.parametrize(
    ("points", "said"),
    [
        ([(0, 0), (10, 0)], "three points"),
        ([(0, 0), (10, 0), (10, 0), (0, 0)], "three points"),
        ([(0, 0), (5, 5), (10, 10)], "one line"),
        ([(0, 0), (10, 10), (10, 0), (0, 10)], "point 1 to point 2 meets the edge from point 3 to point 4"),
        (
            [(0, 0), (9, 0), (9, 9), (5, 0), (0, 9)],
            "point 1 to point 2 meets the edge from point 3 to point 4",
        ),
        ([(0, 0), (9, 0), (9, 0), (9, 20), (9, 4), (0, 4)], "doubles back: the edge from point 2 to point 4"),
    ],
)
def test_an_outline_that_encloses_no_piece_is_refused_by_its_points(points, said):
    with pytest.raises(OutlineNotUsable) as refused:
        read_outline(points)
    assert said in refused.value.sentence


def test_the_allowance_of_a_rectangle_keeps_its_corners():
    cut = Polygon(cut_outline(read_outline(rectangle(100, 50)), 10))
    assert cut.bounds == (-10, -10, 110, 60)
    assert cut.area == pytest.approx(120 * 70)


def test_a_sharp_point_is_cut_off_at_five_times_the_allowance():
    point = [(0.0, 0.0), (100.0, -2.0), (100.0, 2.0)]
    # Uncut, the mitre of a 2 in 100 wedge would reach 10 / sin(atan(0.02)) = 500 mm beyond its point.
    left, _, _, _ = Polygon(cut_outline(read_outline(point), 10)).bounds
    assert left == pytest.approx(-50, abs=0.5)


def test_an_allowance_that_closes_a_hollow_into_a_hole_is_refused():
    hook = [
        (0, 0),
        (100, 0),
        (100, 100),
        (55, 100),
        (55, 20),
        (20, 20),
        (20, 90),
        (53, 90),
        (53, 100),
        (0, 100),
    ]
    outline = read_outline([(float(x), float(y)) for x, y in hook])
    with pytest.raises(OutlineNotUsable, match="hole"):
        cut_outline(outline, 5)
