"""Points a pixel or two off a drawn line come to lie on it: drawn plates of known truth."""

import numpy as np
import pytest

from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.printed_line import onto_printed_line
from tests.makers.drawn_plates import SQUARE_MM, drawn_plate

SIZE, PITCH = (2400, 1800), 40
# Inches at full size: a corner to each side, a curved hem.
SHAPE = [(10, 8, False), (30, 6, False), (33, 26, True), (22, 30, True), (9, 27, False)]


def shape(mm_of=lambda x, y: complex(x, y) * SQUARE_MM) -> list[Node]:
    return [Node(at=mm_of(x, y), corner=x != 22, curved=curved) for x, y, curved in SHAPE]


def clicked(drawn, draw, off_px: float) -> tuple[list[Node], list[Node]]:
    """The nodes in pixels as they were meant, and as a hand sets them."""
    places = drawn.to_px(np.array([[node.at.real, node.at.imag] for node in shape()]))
    meant = [
        Node(at=complex(*at), corner=node.corner, curved=node.curved)
        for at, node in zip(places, shape(), strict=True)
    ]
    off = draw.normal(0, off_px, (len(meant), 2))
    return meant, [
        Node(at=node.at + complex(*by), corner=node.corner, curved=node.curved)
        for node, by in zip(meant, off, strict=True)
    ]


@pytest.mark.parametrize("seed", range(8))
def test_edges_clicked_a_pixel_off_come_within_a_quarter_of_a_hundredth(seed):
    flat = [(p.real, p.imag) for p in Outline(nodes=tuple(shape())).flattened(0.05)]
    drawn = drawn_plate(seed, size=SIZE, pitch=PITCH, outlines=(flat,))
    meant, nodes = clicked(drawn, np.random.default_rng(seed), 1.0)
    laid = onto_printed_line(nodes, np.asarray(drawn.picture))
    for true, seen in zip(
        Outline(nodes=tuple(meant)).sides[:2], Outline(nodes=tuple(laid)).sides[:2], strict=True
    ):
        assert seen.length() == pytest.approx(true.length(), rel=0.0025)
    corners = [(a, b) for a, b in zip(meant, laid, strict=True) if a.corner]
    assert max(abs(a.at - b.at) for a, b in corners) < 1.0
    assert np.mean([abs(a.at - b.at) for a, b in corners]) < 0.5


def test_where_no_line_is_printed_points_stay():
    drawn = drawn_plate(3, size=SIZE, pitch=PITCH)
    _, nodes = clicked(drawn, np.random.default_rng(3), 1.0)
    assert onto_printed_line(nodes, np.asarray(drawn.picture)) == nodes


def test_a_point_that_is_far_from_any_line_is_not_dragged_to_one():
    flat = [(p.real, p.imag) for p in Outline(nodes=tuple(shape())).flattened(0.05)]
    drawn = drawn_plate(4, size=SIZE, pitch=PITCH, outlines=(flat,), grid=False)
    _, nodes = clicked(drawn, np.random.default_rng(4), 0.5)
    nodes[0] = Node(at=nodes[0].at - 40 - 40j, corner=True)
    assert onto_printed_line(nodes, np.asarray(drawn.picture))[0].at == nodes[0].at
