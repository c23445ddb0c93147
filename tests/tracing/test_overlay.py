"""Pieces laid over each other. Worked by hand on a right-angled piece: its corners are plain numbers."""

from cmath import rect

import pytest

from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.overlay import (
    LIES,
    Motion,
    held_points,
    shared_point,
    standing,
    upright_line,
)
from catalogue.tracing.calculation.tracing import LevelLine, Mark, TracedShape

# Centre front on the left, 400 long; hem at its foot, side at the right, neck at the top.
CORNERS = {"neck": 0j, "side": 200 + 0j, "hem": 200 + 400j, "centre front": 400j}
WAIST = LevelLine(line="waist", start=-20 + 300j, end=220 + 300j)


def piece(
    *, grain: tuple[complex, ...] = (50 + 350j, 50 + 50j), fold: bool = False, centre: str = "centre front"
):
    names = {"centre front": centre}
    marks = [Mark(kind="grain", points=grain)] if grain else []
    marks += [Mark(kind="fold", points=(0j, 400j))] if fold else []
    nodes = tuple(Node(at=at, edge=names.get(name, name)) for name, at in CORNERS.items())
    return TracedShape(name="front", outline=Outline(nodes=nodes), marks=tuple(marks))


def shown(at: complex) -> tuple[float, float]:
    return pytest.approx((at.real, at.imag), abs=1e-9)


@pytest.mark.parametrize("turned_by", [-1.4, -0.3, 0.0, 0.8, 1.5])
def test_the_grain_stands_upright_whichever_way_it_lay_on_the_page(turned_by):
    aslant = Motion(turn=rect(1, turned_by), shift=30 - 7j).shape(piece())
    upright = standing(upright_line(aslant, "grain"), "").shape(aslant)
    top, foot = (
        held_points(upright, [])["top of the grain line"],
        held_points(upright, [])["foot of the grain line"],
    )
    assert (foot - top).real == pytest.approx(0, abs=1e-9)
    assert (foot - top).imag == pytest.approx(300)
    # Not stood on its head: the hem is where it was, at the foot.
    points = held_points(upright, [])
    assert points["centre front and hem"].imag > points["centre front and neck"].imag


@pytest.mark.parametrize(
    ("shape", "wanted", "name"),
    [
        (piece(), "grain", "grain line"),
        (piece(), "centre", "centre front"),
        (piece(fold=True), "centre", "fold"),
        (piece(grain=()), "grain", "centre front"),
        (piece(centre="front edge"), "centre", "grain line"),
        (piece(grain=(), centre="front edge"), "grain", None),
        (piece(), "drawn", None),
    ],
)
def test_what_stands_upright_is_what_was_asked_for_or_the_other(shape, wanted, name):
    line = upright_line(shape, wanted)
    assert (line and line.name) == name


def test_points_are_named_by_edges_levels_grain_and_box():
    points = held_points(piece(), [WAIST])
    assert next(iter(points)) == "centre front at the waist"
    assert shown(points["centre front at the waist"]) == (0, 300)
    assert shown(points["side at the waist"]) == (200, 300)
    assert shown(points["centre front and neck"]) == (0, 0)
    assert shown(points["hem and side"]) == (200, 400)
    assert shown(points["foot right of its box"]) == (200, 400)


def test_a_level_line_that_ends_before_the_edge_does_not_meet_it():
    short = LevelLine(line="waist", start=-20 + 300j, end=100 + 300j)
    assert "side at the waist" not in held_points(piece(), [short])


def test_an_edge_that_ends_on_a_level_meets_it_there_though_it_was_traced_a_little_off():
    for foot in (299.2, 300.0, 300.8):
        nodes = (
            Node(at=0j, edge="neck"),
            Node(at=200 + 0j, edge="side"),
            Node(at=180 + 400j, edge="hem"),
            Node(at=30 + 400j, edge="skirt front"),
            Node(at=complex(0, foot), edge="centre front"),
        )
        points = held_points(TracedShape(name="front", outline=Outline(nodes=nodes)), [WAIST])
        assert abs(points["centre front at the waist"] - 300j) < 1
        assert abs(points["skirt front at the waist"] - 300j) < 1


def test_an_edge_that_meets_a_level_twice_is_not_named_by_it():
    nodes = (Node(at=0j, edge="top"), Node(at=100 + 0j, edge="curl"), Node(at=60 + 350j), Node(at=20 + 250j))
    points = held_points(TracedShape(name="x", outline=Outline(nodes=nodes)), [WAIST])
    assert "curl at the waist" not in points


@pytest.mark.parametrize(("lie", "side_at"), [("", 200), ("mirrored", -200), ("turned", -200), ("both", 200)])
def test_a_piece_lies_as_asked_round_the_point_it_is_held_by(lie, side_at):
    shape = piece()
    laid = standing(upright_line(shape, "grain"), lie)
    held = held_points(laid.shape(shape), [laid.level(WAIST)])
    beside = held["side at the waist"] - held["centre front at the waist"]
    assert (beside.real, beside.imag) == (pytest.approx(side_at), pytest.approx(0, abs=1e-9))


@pytest.mark.parametrize("lie", LIES)
def test_no_way_of_lying_changes_a_length_or_an_area(lie):
    shape = piece()
    laid = standing(upright_line(shape, "centre"), lie).outline(shape.outline)
    assert laid.perimeter == pytest.approx(shape.outline.perimeter)
    assert laid.area == pytest.approx(shape.outline.area)


def test_a_mirrored_curve_is_the_curve_seen_in_a_mirror():
    nodes = tuple(
        Node(at=at, corner=at == 0, curved=True, edge="armhole" if at == 0 else "")
        for at in (0j, 80 + 20j, 30 + 90j)
    )
    outline = Outline(nodes=nodes)
    seen = Motion(is_mirrored=True).outline(outline)
    for side, other in zip(outline.sides, seen.sides, strict=True):
        for t in (0.2, 0.5, 0.9):
            assert shown(other.at(t)) == (-side.at(t).real, side.at(t).imag)


def test_two_pieces_are_held_by_the_first_point_that_both_have():
    front, back = held_points(piece(), [WAIST]), held_points(piece(centre="centre back"), [WAIST])
    assert shared_point([front, back]) == "neck and side"
    assert shared_point([front, front]) == "centre front at the waist"
    assert shared_point([front, {"foot left of its box": 0j}]) == "foot left of its box"
