"""Edges of two pieces held against each other. Worked by hand on rectangles; doubts are added in squares."""

from dataclasses import replace
from math import hypot, sqrt

import pytest

from catalogue.reading_room.calculation.shared_edges import LaidPiece, along_mm, held_edges, shared_names
from catalogue.tracing.calculation.curve import Cubic
from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.overlay import Motion
from catalogue.tracing.calculation.tracing import TracedShape


def piece(*, width: float = 200.0, side: float = 400.0, bend: float = 0.0, **given) -> LaidPiece:
    """A rectangle held at its top left corner; its side seam bends outwards by `bend`, half way down."""
    nodes = (
        Node(at=0j, edge="neck"),
        Node(at=complex(width, 0), edge="side seam", curved=bool(bend)),
        *([Node(at=complex(width + bend, side / 2), corner=False, curved=True)] if bend else []),
        Node(at=complex(width, side), edge="hem"),
        Node(at=complex(0, side), edge="centre front"),
    )
    doubts = {"click_mm": 0.3, "drawing_mm": 1.5, "relative_doubt": 0.002, "turn_doubt": 0.001, **given}
    return LaidPiece(shape=TracedShape(name="front", outline=Outline(nodes=nodes)), **doubts)


def moved(laid: LaidPiece, motion: Motion) -> LaidPiece:
    return replace(laid, shape=motion.shape(laid.shape))


def test_a_length_may_be_off_by_two_clicks_the_drawing_and_the_calibration():
    laid = piece()
    side = laid.length(laid.edge("side seam"))
    assert (side.value, side.u) == (400, pytest.approx(hypot(sqrt(2) * 0.3, 1.5, 0.8)))


def test_a_place_may_be_off_by_more_the_farther_it_lies_from_where_the_piece_is_held():
    laid = piece()
    assert laid.place_doubt_mm(0) == pytest.approx(hypot(sqrt(2) * 0.3, 1.5))
    assert laid.place_doubt_mm(300) == pytest.approx(hypot(sqrt(2) * 0.3, 1.5, 0.6, 0.3))


@pytest.mark.parametrize(
    ("other", "agreement"),
    [
        (piece(width=201), "one line, and it lies in one place"),
        (piece(width=240), "one line, in another place"),
        (piece(bend=12), "one length, another curve"),
        (piece(side=460), "another line"),
    ],
)
def test_edges_are_one_line_where_neither_length_nor_curve_differs_beyond_doubt(other, agreement):
    assert held_edges(piece(), "side seam", other, "side seam").agreement == agreement


def test_a_finer_doubt_finds_a_difference_that_a_rough_one_allows():
    rough = piece(drawing_mm=1.5), piece(side=404, drawing_mm=1.5)
    fine = (
        piece(drawing_mm=0.1, relative_doubt=0.0005),
        piece(side=404, drawing_mm=0.1, relative_doubt=0.0005),
    )
    one, other = (held_edges(*(a, "side seam"), b, "side seam") for a, b in (rough, fine))
    assert (one.longer.value, one.is_one_length, other.is_one_length) == (4, True, False)


def test_the_gap_is_as_the_pieces_lie_and_the_own_gap_as_if_the_edge_were_cut_out():
    aside = moved(piece(), Motion(shift=25 + 0j))
    held = held_edges(piece(), "side seam", aside, "side seam")
    assert held.gap.mm == pytest.approx(25)
    assert held.own_gap_mm == pytest.approx(0, abs=1e-9)
    assert (held.gap.second - held.gap.first).real == pytest.approx(25)


def test_a_piece_traced_the_other_way_round_has_the_same_edges():
    laid = piece(bend=12)
    nodes = laid.shape.outline.nodes
    back = (
        Node(at=nodes[0].at, edge="centre front"),
        Node(at=nodes[4].at, edge="hem"),
        Node(at=nodes[3].at, edge="side seam", curved=True),
        Node(at=nodes[2].at, corner=False, curved=True),
        Node(at=nodes[1].at, edge="neck"),
    )
    other = replace(laid, shape=TracedShape(name="front", outline=Outline(nodes=back)))
    held = held_edges(laid, "side seam", other, "side seam")
    assert held.gap.mm == pytest.approx(0, abs=0.01)
    assert held.own_gap_mm == pytest.approx(0, abs=0.01)


def test_edges_of_different_names_can_be_held_too():
    held = held_edges(piece(), "neck", piece(width=190), "hem")
    assert (held.longer.value, held.gap.mm) == (-10, pytest.approx(hypot(400, 10), abs=0.01))


def test_an_edge_that_closes_in_itself_has_no_ends_to_be_laid_by():
    ring = TracedShape(name="x", outline=Outline(nodes=tuple(Node(at=at) for at in (0j, 30 + 0j, 30j))))
    ring = replace(piece(), shape=ring)
    assert held_edges(ring, "", ring, "").own_gap_mm is None


def test_names_are_shared_or_of_one_alone():
    nodes = tuple(Node(at=at, edge=name) for at, name in ((0j, "neck"), (9 + 0j, "hem"), (9j, "front edge")))
    other = replace(piece(), shape=TracedShape(name="x", outline=Outline(nodes=nodes)))
    assert shared_names(piece(), other) == (["neck", "hem"], ["side seam", "centre front"], ["front edge"])


def test_how_far_along_a_line_a_place_lies():
    line = (Cubic.straight(0j, 100 + 0j), Cubic.straight(100 + 0j, 100 + 50j))
    assert along_mm(line, 25 + 3j) == pytest.approx(25)
    assert along_mm(line, 100 + 50j) == pytest.approx(150)
