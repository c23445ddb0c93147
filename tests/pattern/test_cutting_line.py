"""The cutting line, held to shapely's own mitred offset where all allowances are one, and to sums by hand."""

import pytest
from shapely import Polygon

from catalogue.lengths.calculation.errors import Faults
from catalogue.tracing.calculation.outline import Node, Outline
from fitting.pattern.calculation.sheets.cutting_line import cutting_line
from fixtures.demo.draw.garments import day_bodice, jacket, stays, waistcoat
from tests.makers.drafts import plate_to_grade

PIECES = [
    piece.shape for plate in (day_bodice, jacket, stays, waistcoat) for piece in plate_to_grade(plate.PLATE)
]
SQUARE = Outline(
    nodes=tuple(
        Node(at=at, edge=name)
        for at, name in ((0j, "top"), (100 + 0j, "side"), (100 + 100j, "hem"), (100j, "fold"))
    )
)


@pytest.mark.parametrize("shape", PIECES, ids=lambda shape: shape.name)
@pytest.mark.parametrize("allowance_mm", [6.0, 12.7])
def test_one_allowance_all_round_is_shapelys_mitred_offset(shape, allowance_mm):
    ours = cutting_line(shape.outline, usual_mm=allowance_mm)
    flat = Polygon([(at.real, at.imag) for at in shape.outline.flattened(0.01)])
    theirs = flat.buffer(allowance_mm, join_style="mitre", mitre_limit=5)
    assert ours.symmetric_difference(theirs).area < 0.002 * theirs.area


def test_each_edge_has_its_own_and_corners_are_carried_out_to_a_point():
    cut = cutting_line(SQUARE, usual_mm=10, by_edge={"hem": 30, "fold": 0})
    assert cut.bounds == (0, -10, 110, 130)
    assert cut.area == pytest.approx(110 * 140)  # a rectangle: no corner is left open


def test_a_wide_allowance_ends_at_the_cutting_line_of_a_narrow_one():
    """A slanting side: the hem's 30 mm stop at the side's 10 mm, and at the fold itself."""
    slanting = Outline(
        nodes=tuple(
            Node(at=at, edge=name)
            for at, name in ((0j, "top"), (140 + 0j, "side"), (100 + 100j, "hem"), (-20 + 100j, "fold"))
        )
    )
    cut = cutting_line(slanting, usual_mm=10, by_edge={"hem": 30, "fold": 0})
    for start, end, allowance_mm in ((140 + 0j, 100 + 100j, 10), (-20 + 100j, 0j, 0)):
        along = (end - start) / abs(end - start)
        out = [((complex(x, y) - start) * (along * -1j).conjugate()).real for x, y in cut.exterior.coords]
        assert max(out) == pytest.approx(allowance_mm, abs=1e-5)


# By hand: a square of 100 with its corner at 100, 0 cut off by 10 on either side, so at half a right angle.
# About it 10, but 2 at that short edge: its line at x − y = 90 + 2√2 cuts the square of 120 (x from −10 to
# 110, y from −10 to 110), at whose corner x − y is 120: a triangle of (30 − 2√2)² ÷ 2 is missing.
@pytest.mark.parametrize("turned", [1, 1j, 0.6 + 0.8j])
def test_a_wide_allowance_leaves_no_slit_beside_a_narrow_one(turned):
    corners = [(0j, "top"), (90 + 0j, "short"), (100 + 10j, "side"), (100 + 100j, "hem"), (100j, "fold")]
    outline = Outline(nodes=tuple(Node(at=at * turned, edge=name) for at, name in corners))
    cut = cutting_line(outline, usual_mm=10, by_edge={"short": 2})
    assert cut.area == pytest.approx(120 * 120 - (30 - 8**0.5) ** 2 / 2, abs=1e-3)
    assert cut.exterior.distance(outline_ring(outline)) == pytest.approx(2, abs=1e-3)


def outline_ring(outline):
    return Polygon([(node.at.real, node.at.imag) for node in outline.nodes]).exterior


def test_the_way_round_does_not_matter():
    turned = Outline(
        nodes=tuple(
            Node(at=at, edge=name)
            for at, name in ((0j, "fold"), (100j, "hem"), (100 + 100j, "side"), (100 + 0j, "top"))
        )
    )
    by_edge = {"hem": 30.0, "fold": 0.0}
    both = [cutting_line(outline, usual_mm=10, by_edge=by_edge) for outline in (SQUARE, turned)]
    assert both[0].equals(both[1])


def test_a_point_too_sharp_is_cut_straight_across():
    dart = Outline(nodes=(Node(at=0j), Node(at=400 + 10j), Node(at=400 - 10j)))
    cut = cutting_line(dart, usual_mm=10)
    assert cut.bounds[0] == pytest.approx(-50, abs=0.01)  # five times its allowance


def test_an_allowance_that_closes_the_piece_round_a_hole_is_refused():
    points = (0j, 100 + 0j, 100 + 45j, 30 + 45j, 30 + 55j, 100 + 55j, 100 + 100j, 0 + 100j)
    deep = Outline(nodes=tuple(Node(at=at) for at in (0j, 100 + 0j, 100 + 46j, 70 + 46j, 70 + 30j, 30 + 30j,
        30 + 70j, 70 + 70j, 70 + 54j, 100 + 54j, 100 + 100j, 100j)))  # fmt: skip
    assert cutting_line(Outline(nodes=tuple(Node(at=at) for at in points)), usual_mm=6).area > 100 * 100
    with pytest.raises(Faults, match="closes round a hole"):
        cutting_line(deep, usual_mm=6)


def test_an_outline_that_crosses_itself_is_named():
    bow = Outline(nodes=tuple(Node(at=at) for at in (0j, 100 + 100j, 100 + 0j, 100j)))
    with pytest.raises(Faults, match="crosses itself"):
        cutting_line(bow, usual_mm=5, name="front")
