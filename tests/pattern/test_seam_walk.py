"""Seams walked on traced pieces: straight edges, their lengths by hand."""

import math

import pytest

from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import Mark, TracedShape
from fitting.pattern.calculation.grading.values import GradingJoin
from fitting.pattern.calculation.motion import placed, upright
from fitting.pattern.calculation.seam_match import SeamJoin
from fitting.pattern.calculation.seam_walk import SeamTolerance, sewn_pairs, side_of, traced_edges, walk_seam


def piece(name, *corners, notches=(), grain=None):
    """Straight edges from (x, y, name) to the next."""
    nodes = tuple(Node(at=complex(x, y), edge=edge) for x, y, edge in corners)
    marks = [Mark(kind="notch", points=(at,)) for at in notches]
    if grain:
        marks.append(Mark(kind="grain", points=grain))
    return TracedShape(name=name, outline=Outline(nodes=nodes), marks=tuple(marks))


# Drawn side by side, both the right way up: the side seams are drawn towards each other.
FRONT = piece(
    "front",
    (0, 0, "shoulder"), (100, 0, "armhole"), (120, 100, "side seam"), (120, 400, "hem"),
    (0, 400, "centre front"),
    notches=[120 + 150j],
)  # fmt: skip
BACK = piece(
    "back",
    (300, 0, "shoulder"), (400, 0, "centre back"), (400, 400, "hem"), (280, 400, "side seam"),
    (280, 96, "armhole"),
    notches=[281 + 146j],
)  # fmt: skip
SIDE = GradingJoin(one=(("front", "side seam"),), other=(("back", "side seam"),))
SHOULDER = GradingJoin(one=(("front", "shoulder"),), other=(("back", "shoulder"),))


def walked(join, shapes, allowed=None):
    edges, sewn = traced_edges(shapes), sewn_pairs([SIDE, SHOULDER])
    return walk_seam(
        join, side_of(join.one, edges, sewn), side_of(join.other, edges, sewn), allowed or SeamTolerance()
    )


def lengths(seam):
    return [(round(one.longer_mm, 6), round(one.shorter_mm, 6)) for one in seam.seam.stretches]


def test_both_edges_are_walked_from_the_end_that_they_share():
    seam = walked(SIDE, [FRONT, BACK])
    assert (seam.start, seam.note) == ("armhole", "")
    assert lengths(seam) == [(50, 50), (250, 254)]
    assert [one.joined for one in seam.seam.stretches] == [SeamJoin.MATCHES, SeamJoin.DIFFERS]


def test_a_mirrored_piece_is_walked_from_the_same_end():
    mirrored = placed(BACK, lambda at: complex(-at.real, at.imag))
    assert lengths(walked(SIDE, [FRONT, mirrored])) == [(50, 50), (250, 254)]


def test_without_as_many_notches_on_both_sides_the_whole_is_compared():
    bare = piece("back", *((node.at.real, node.at.imag, node.edge) for node in BACK.outline.nodes))
    seam = walked(SIDE, [FRONT, bare])
    assert lengths(seam) == [(300, 304)]
    assert "1 and 0 notches" in seam.note


def test_an_ease_that_is_allowed_is_shared_by_the_stretches():
    seam = walked(SIDE, [FRONT, BACK], SeamTolerance(ease_mm=-4))
    assert [round(one.ease_mm, 3) for one in seam.seam.stretches] == [-0.658, -3.342]
    assert seam.seam.flagged == ()


def test_of_a_gathered_seam_the_part_that_matches_is_plain():
    wide = piece(
        "back",
        (300, 0, "shoulder"), (400, 0, "centre back"), (400, 650, "hem"), (280, 650, "side seam"),
        (280, 100, "armhole"),
        notches=[280 + 150j],
    )  # fmt: skip
    join = GradingJoin(one=SIDE.other, other=SIDE.one)
    seam = walked(join, [FRONT, wide], SeamTolerance(ratio=2))
    assert [(one.joined, one.off_mm) for one in seam.seam.stretches] == [
        (SeamJoin.MATCHES, 0),
        (SeamJoin.GATHERED, 0),
    ]


def test_a_gathered_seam_that_only_matches_lacks_its_gathers():
    bare = [
        piece(one.name, *((n.at.real, n.at.imag, n.edge) for n in one.outline.nodes)) for one in (FRONT, BACK)
    ]
    assert walked(SIDE, bare, SeamTolerance(ratio=2)).seam.flagged


def test_edges_round_an_armhole_are_put_in_order_by_the_seams_between_them():
    edges, sewn = traced_edges([FRONT, BACK]), sewn_pairs([SIDE, SHOULDER])
    ring = side_of((("back", "armhole"), ("front", "armhole")), edges, sewn)
    assert ring.is_ring
    assert ring.length_mm == pytest.approx(math.hypot(20, 100) + math.hypot(20, 96))
    open_run = side_of((("back", "armhole"), ("front", "armhole")), edges, sewn_pairs([SIDE]))
    assert open_run.is_in_order
    assert not open_run.is_ring
    assert not side_of((("back", "armhole"), ("front", "armhole")), edges, sewn_pairs([])).is_in_order


@pytest.mark.parametrize("degrees", [0, 30, -75, 89, 120, 180])
def test_a_piece_is_turned_until_its_grain_stands_upright(degrees):
    turn = complex(math.cos(math.radians(degrees)), math.sin(math.radians(degrees)))
    drawn = piece(
        "strip", (0, 0, "a"), (40, 0, "b"), (40, 300, "c"), (0, 300, "d"), grain=(20 + 40j, 20 + 200j)
    )
    stood, _ = upright(placed(drawn, lambda at: at * turn))
    start, end = stood.marks[-1].points
    assert abs((end - start).real) < 1e-9
    assert stood.edges_mm() == pytest.approx(drawn.edges_mm())
    # The shorter way: nothing is turned over by more than a quarter.
    top, bottom = stood.outline.nodes[0].at, stood.outline.nodes[3].at
    assert (bottom - top).imag > 0 if abs(degrees) <= 90 else (bottom - top).imag < 0


def test_a_piece_without_a_grain_stays_as_it_lies():
    assert upright(FRONT)[0] == FRONT
