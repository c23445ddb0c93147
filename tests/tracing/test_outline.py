"""Outlines. Oracles: shapely 2.2 for areas, svgpathtools 1.8 for perimeters, triangles worked by hand."""

import random
from cmath import rect
from math import pi

import pytest
from shapely.geometry import LineString, Polygon
from svgpathtools import CubicBezier, Path

from catalogue.tracing.calculation.outline import Node, Outline

TRIANGLE = (0j, 4 + 0j, 4 + 3j)


def outline(*points, **given) -> Outline:
    return Outline(nodes=tuple(Node(at=complex(at), **given) for at in points))


def blob(seed: int, points: int = 11, **given) -> Outline:
    draw = random.Random(seed)  # noqa: S311  a shape, no secret
    return outline(
        *(rect(draw.uniform(120, 200), 2 * pi * n / points) for n in range(points)),
        corner=False,
        curved=True,
        **given,
    )


def test_a_triangle_of_3_4_5_has_its_area_and_perimeter():
    assert (outline(*TRIANGLE).area, outline(*TRIANGLE).perimeter) == (6, 12)


@pytest.mark.parametrize("seed", range(5))
def test_area_and_perimeter_agree_with_shapely_and_svgpathtools(seed):
    drawn = blob(seed)
    flat = Polygon([(p.real, p.imag) for p in drawn.flattened(1e-4)])
    path = Path(*(CubicBezier(s.start, s.handle_a, s.handle_b, s.end) for s in drawn.sides))
    assert drawn.area == pytest.approx(flat.area, rel=1e-5)
    assert drawn.perimeter == pytest.approx(path.length(error=1e-6), rel=1e-6)


def test_twelve_smooth_points_draw_a_circle():
    circle = outline(*(rect(100, 2 * pi * n / 12) for n in range(12)), corner=False, curved=True)
    assert circle.perimeter == pytest.approx(200 * pi, rel=2e-3)


def test_edges_run_from_name_to_name_and_over_the_start():
    nodes = (
        Node(at=0j),
        Node(at=4 + 0j, edge="side seam"),
        Node(at=4 + 3j, edge="hem"),
    )
    edges = {edge.name: edge.length for edge in Outline(nodes=nodes).edges()}
    assert edges == {"side seam": 3, "hem": 5 + 4}


def test_a_crossing_is_named_by_its_points():
    bow = outline(0, 10, 10j, 10 + 10j)
    assert [str(fault) for fault in bow.faults("front")] == [
        "front: The outline crosses itself: the side from point 2 to 3 meets the side from point 4 to 1."
    ]
    assert blob(3).faults("front") == []


def test_two_points_in_one_place_are_named():
    assert "Points 2 and 3 are the same" in str(outline(0, 4, 4, 4 + 3j).faults("back")[0])


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("height", [-90, -30.5, 0, 45, 100])
def test_the_parts_of_a_line_within_are_those_that_shapely_finds(seed, height):
    drawn = blob(seed)
    start, end = complex(-400, height), complex(400, height + 30)
    theirs = Polygon([(p.real, p.imag) for p in drawn.flattened(1e-4)]).intersection(
        LineString([(start.real, start.imag), (end.real, end.imag)])
    )
    assert sum(abs(b - a) for a, b in drawn.spans(start, end)) == pytest.approx(theirs.length, abs=0.01)


def test_a_line_through_points_meets_the_outline_once_at_each():
    diamond = outline(10, 10j, -10, -10j)
    assert diamond.spans(-20 + 0j, 20 + 0j) == [(-10, 10)]


def test_a_line_that_ends_within_stops_there():
    square = outline(0, 10, 10 + 10j, 10j)
    assert square.spans(-5 + 5j, 4 + 5j) == [(5j, 4 + 5j)]
    assert square.spans(2 + 5j, 4 + 5j) == [(2 + 5j, 4 + 5j)]
