"""Outlines with handles, from elsewhere, become points whose smooth line keeps to them."""

import cmath
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from svgpathtools import CubicBezier, Path

from catalogue.tracing.calculation.curve import Cubic
from catalogue.tracing.calculation.following import NEAR_MM, TooManyPoints, follow
from catalogue.tracing.calculation.outline import Node, Outline
from tests.examples import examples

QUARTER = 4 / 3 * (math.sqrt(2) - 1)  # the usual handle of a quarter circle


def circle(radius: float) -> list[Cubic]:
    found = []
    for turn in (1, 1j, -1, -1j):
        start, end = radius * turn, radius * turn * 1j
        found.append(Cubic(start, start + QUARTER * end, end + QUARTER * start, end))
    return found


def length_of(sides: list[Cubic]) -> float:
    """By svgpathtools."""
    return Path(*(CubicBezier(s.start, s.handle_a, s.handle_b, s.end) for s in sides)).length(error=1e-9)


def test_a_circle_becomes_points_that_go_round_it():
    outline = Outline(nodes=follow(circle(200)))
    assert not any(node.corner for node in outline.nodes)
    assert outline.perimeter == pytest.approx(length_of(circle(200)), rel=1e-4)
    assert all(abs(abs(point) - 200) < 0.1 for point in outline.flattened())


def test_an_outline_of_ours_comes_back_point_by_point():
    nodes = (
        Node(at=0j),
        Node(at=300 + 0j, curved=True),
        Node(at=320 + 120j, corner=False, curved=True),
        Node(at=290 + 260j, corner=False, curved=False),
        Node(at=250 + 400j, curved=True),
        Node(at=120 + 430j, corner=False, curved=True),
        Node(at=0 + 400j),
    )
    outline = Outline(nodes=nodes)
    assert follow(outline.sides) == nodes
    assert follow(outline.sides, corners={0, 1, 4, 6}) == nodes


def test_a_single_curve_between_two_corners_gets_points_of_its_own():
    bow = Cubic(0j, 100 - 80j, 200 - 80j, 300 + 0j)
    outline = Outline(nodes=follow([bow, Cubic.straight(300 + 0j, 0j)]))
    assert [node.corner for node in outline.nodes[:2]] == [True, False]
    assert outline.perimeter == pytest.approx(300 + length_of([bow]), rel=1e-5)


def test_a_line_that_turns_by_less_than_a_degree_is_smooth_there():
    def at_angle(degrees: float) -> bool:
        turned = cmath.rect(100, math.radians(degrees))
        sides = [Cubic.straight(0j, 100 + 0j), Cubic.straight(100 + 0j, 100 + turned)]
        return follow([*sides, Cubic.straight(100 + turned, 0j)])[1].corner

    assert not at_angle(0.8)
    assert at_angle(1.2)


def test_what_no_outline_can_hold_is_refused():
    zigzag = [complex(x, 5 * (x % 2)) for x in range(700)] + [300 + 900j]
    with pytest.raises(TooManyPoints):
        follow([Cubic.straight(a, b) for a, b in zip(zigzag, zigzag[1:] + zigzag[:1], strict=True)])


handles = st.builds(cmath.rect, st.floats(0.1, 0.6), st.floats(-1.2, 1.2))


@settings(max_examples=examples(60), deadline=None)
@given(st.lists(handles, min_size=6, max_size=6), st.floats(60, 900))
def test_whatever_is_drawn_is_kept_to(bends, size):
    """Three sides between corners, each leaving and arriving at any slant a pattern has."""
    ends = [0j, complex(size, 80), complex(size / 3, size)]
    sides = [
        Cubic(start, start + leaving * (end - start), end - arriving * (end - start), end)
        for start, end, leaving, arriving in zip(
            ends, ends[1:] + ends[:1], bends[::2], bends[1::2], strict=True
        )
    ]
    outline = Outline(nodes=follow(sides))
    assert outline.perimeter == pytest.approx(length_of(sides), rel=2e-4)
    assert outline.area == pytest.approx(
        abs(sum(side.swept_area() for side in sides)), abs=outline.perimeter * NEAR_MM
    )
