"""The pieces of a plate as they are laid: by their outlines where these were traced, else by readings."""

import pytest
from shapely import Polygon

from catalogue.measuring.outline import Node, Outline
from catalogue.measuring.tracing import TracedShape
from fitting.bridge.pattern_work.pieces import pieces_to_lay
from fitting.calculation.sheets import Allowances
from tests.makers import make_piece, make_plate, make_reference, make_scan, make_traced

NONE = Allowances(usual_mm=0, by_edge={})


@pytest.fixture
def plate(people):
    plate = make_plate(make_reference(people.workroom))
    make_piece(plate, "front", {"waist": "1 1/4 in", "nape to waist": "2 1/2 in"})
    make_piece(plate, "back", {"waist": "1 in"}, cut=1, on_fold=True)
    return plate


def test_a_traced_piece_is_laid_by_its_outline_grain_upright_and_unfolded(plate):
    make_scan(plate)
    front, back = plate.pieces.all()
    make_traced(front)
    traced = make_traced(back)
    # The fold is its left side; its grain runs across the page.
    traced.marks = [
        {"kind": "fold", "points": [[100, 100], [100, 500]]},
        {"kind": "grain", "points": [[120, 300], [280, 300]]},
    ]
    traced.save()
    whole, unfolded = (Polygon(piece.lines(NONE).outline) for piece in pieces_to_lay(plate, "outer"))
    assert whole.bounds == pytest.approx((0, 0, 100, 200), abs=0.01)
    assert unfolded.bounds == pytest.approx((0, 0, 200, 200), abs=0.01)
    assert unfolded.area == pytest.approx(2 * whole.area, rel=1e-3)


def test_a_graded_piece_is_laid_in_place_of_the_drawn_one(plate):
    front = plate.pieces.first()
    corners = [Node(at=at) for at in (0, 120, 120 + 210j, 210j)]
    shape = TracedShape(name="front", outline=Outline(nodes=tuple(corners)))
    graded = pieces_to_lay(plate, "outer", graded={front.name: shape})[0]
    assert Polygon(graded.lines(NONE).outline).bounds == (0, 0, 120, 210)


def test_a_piece_without_an_outline_is_a_box_of_its_readings(plate):
    front, back = pieces_to_lay(plate, "outer")
    assert (front.width_mm, front.length_mm, front.is_pair) == (pytest.approx(254), pytest.approx(508), True)
    # Unfolded: twice as wide as drawn. Nothing says how long it is.
    assert (back.width_mm, back.length_mm, back.is_pair) == (pytest.approx(406.4), None, False)


def test_a_piece_to_a_fold_that_nobody_marked_is_a_box(plate):
    make_scan(plate)
    for piece in plate.pieces.all():
        make_traced(piece)
    front, back = pieces_to_lay(plate, "outer")
    assert (front.is_traced, back.is_traced) == (True, False)
