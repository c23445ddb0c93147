"""The pieces of a plate as they are laid: by their outlines where these were traced, else by readings."""

import pytest
from shapely import Polygon

from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import TracedShape
from fitting.laying.loading.pieces import pieces_to_lay
from fitting.pattern.calculation.sheets.sheet import Allowances
from fitting.pattern.loading.grading import GradedGarment
from tests.makers.rows import make_piece, make_plate, make_reference, make_scan, make_traced, um

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
    graded = pieces_to_lay(plate, "outer", graded=GradedGarment(shapes={front.name: shape}))[0]
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


def as_draft(plate: Plate) -> Plate:
    """The same as a proportional draft for half a bust of 18 in, fetched again."""
    sized = {"drawn_for_line": "bust", "drawn_for_um": um("18 in"), "drawn_for_text": "18 in"}
    Plate.objects.filter(pk=plate.pk).update(kind="draft", **sized)
    return Plate.objects.for_detail_page().get(pk=plate.pk)


def test_boxes_of_a_draft_grow_with_the_wearers_measure_where_they_are_in_parts(plate):
    plate.pieces.get(name="front").readings.filter(line="waist").update(is_plain=True)
    # A quarter more than the bust of 36 in drawn for.
    drawn, out = (pieces_to_lay(as_draft(plate), "outer", body_mm=mm)[0] for mm in (None, 45 * 25.4))
    assert (drawn.width_mm, drawn.length_mm) == pytest.approx((254, 508))
    assert (out.width_mm, out.length_mm) == pytest.approx((254, 508 * 1.25))


def test_an_outline_of_a_draft_grows_as_a_whole_but_not_where_all_is_plain(plate):
    make_scan(plate)
    Piece.objects.update(on_fold=False)
    for piece in plate.pieces.all():
        make_traced(piece)
    plate.pieces.get(name="back").readings.update(is_plain=True)
    front, back = pieces_to_lay(as_draft(plate), "outer", body_mm=45 * 25.4)
    assert Polygon(front.lines(NONE).outline).bounds == pytest.approx((0, 0, 125, 250), abs=0.01)
    assert Polygon(back.lines(NONE).outline).bounds == pytest.approx((0, 0, 100, 200), abs=0.01)
