"""Outlines from a drawing that some other program made: as long round as another reader has them."""

import pytest
from shapely import Polygon
from svgpathtools import parse_path

from catalogue.tracing.exchange.svg_outlines import read_outlines

# Millimetres: a sleeve of an arc, smooth and plain curves; a front of quadratic curves.
SLEEVE = "M0 60C20 5 60-40 110-40S200 5 220 62l-40 380q-70 12-140 0z"
FRONT = "m300 0 q40 60 110 70 t90 40 v300 h-200 a900 900 0 0 1 0-410 z"


def drawn(body: str) -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg" width="900mm" viewBox="0 0 900 900">{body}</svg>'


@pytest.mark.parametrize("data", [SLEEVE, FRONT])
def test_perimeter_and_area_are_those_of_the_curves(data):
    """The path as svgpathtools reads it: its length, and shapely's area of many points on it."""
    theirs = parse_path(data)
    [piece] = read_outlines(drawn(f'<path d="{data}"/>')).pieces
    assert piece.faults == ()
    assert piece.shape.outline.perimeter == pytest.approx(theirs.length(error=1e-5), rel=1e-4)
    points = [side.point(step / 500) for side in theirs for step in range(500)]
    area = Polygon([(point.real, point.imag) for point in points]).area
    assert piece.shape.outline.area == pytest.approx(area, rel=2e-4)


def test_corners_are_where_the_line_turns():
    [piece] = read_outlines(drawn(f'<path d="{SLEEVE}"/>')).pieces
    corners = [node.at for node in piece.shape.outline.nodes if node.corner]
    assert corners == [pytest.approx(at) for at in (60j, 220 + 62j, 180 + 442j, 40 + 442j)]


def test_turned_mirrored_and_in_inches_a_piece_keeps_its_size():
    moved = f'<g transform="translate(500 20) scale(-1 1)"><path transform="rotate(20)" d="{SLEEVE}"/></g>'
    [as_drawn] = read_outlines(drawn(f'<path d="{SLEEVE}"/>')).pieces
    [as_moved] = read_outlines(drawn(moved)).pieces
    [in_inches] = read_outlines(drawn(moved), unit="in").pieces
    assert as_moved.shape.outline.perimeter == pytest.approx(as_drawn.shape.outline.perimeter)
    assert in_inches.shape.outline.perimeter == pytest.approx(
        25.4 * as_drawn.shape.outline.perimeter, rel=1e-4
    )


def test_pieces_are_called_as_the_file_calls_them():
    body = (
        f'<g id="g1"><path id="sleeve" d="{SLEEVE}"/><path d="{FRONT}"><title>Left  front</title></path></g>'
        f'<g><title>backs</title><path d="{FRONT}"/><path d="{FRONT}"/></g><path d="{FRONT}"/>'
    )
    names = [piece.name for piece in read_outlines(drawn(body)).pieces]
    assert names == ["sleeve", "Left front", "backs", "backs 2", "piece 5"]


def test_an_edge_is_called_by_what_a_page_can_hold():
    said = 'data-points="4" data-edges="{&quot;0&quot;: &quot;ne\\u0000ck\\ud800 &quot;}"'
    [piece] = read_outlines(drawn(f'<path {said} d="M0 0H90V90H0z"/>')).pieces
    assert list(piece.shape.edges_mm()) == ["neck"]
