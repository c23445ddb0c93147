"""Outlines over each other, drawn: all within the box, each letter at its line, no figure on another."""

from types import SimpleNamespace

import pytest

from catalogue.reading_room.calculation.shared_edges import LaidPiece, held_edges
from catalogue.reading_room.showing.overlay import laid_drawing
from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import Mark, TracedShape


def rectangle(width: float, height: float, *, left: float = 0.0) -> LaidPiece:
    corners = (left + 0j, left + width + 0j, complex(left + width, height), complex(left, height))
    names = ("neck", "side seam", "hem", "centre front")
    nodes = tuple(Node(at=at, edge=name) for at, name in zip(corners, names, strict=True))
    grain = Mark(kind="grain", points=(complex(left + 20, height - 20), complex(left + 20, 20)))
    shape = TracedShape(name="front", outline=Outline(nodes=nodes), marks=(grain,))
    return LaidPiece(shape=shape, click_mm=0.3, drawing_mm=1.5, relative_doubt=0.002)


def overlay(*laid: LaidPiece) -> SimpleNamespace:
    """As much of an overlay as a drawing asks for: every piece held by its side seam against the first."""
    pieces = [SimpleNamespace(letter=letter, laid=one) for letter, one in zip("ABCD", laid, strict=False)]
    pairs = [
        SimpleNamespace(
            first=pieces[0], other=other, chosen=held_edges(laid[0], "side seam", other.laid, "side seam")
        )
        for other in pieces[1:]
    ]
    return SimpleNamespace(pieces=pieces, pairs=pairs)


@pytest.fixture(params=["in", "cm"])
def drawing(request):
    laid = (rectangle(200, 400), rectangle(220, 400), rectangle(221, 400), rectangle(260, 380, left=-30))
    return laid_drawing(overlay(*laid), request.param)


def test_everything_lies_within_the_box(drawing):
    points = [one.letter_at for one in drawing.outlines]
    points += [point for gap in drawing.gaps for point in (gap.start, gap.end, gap.word_at)]
    points += [
        point for one in drawing.outlines for point in (*one.grain, *(node.at for node in one.outline.nodes))
    ]
    for at in (*points, *drawing.bar):
        assert 0 < drawing.box.across(at) < 100
        assert 0 < drawing.box.down(at) < 100


def test_the_bar_is_as_long_as_it_says(drawing):
    start, end = drawing.bar
    assert abs(end - start) == pytest.approx({"4 in": 4 * 25.4, "10 cm": 100}[drawing.bar_name])


def test_each_letter_stands_at_its_own_line_and_away_from_the_others(drawing):
    for one in drawing.outlines:
        flat = one.outline.flattened()
        assert min(abs(one.letter_at - at) for at in flat) < 1e-9
    places = [one.letter_at for one in drawing.outlines]
    assert min(abs(a - b) for index, a in enumerate(places) for b in places[:index]) > drawing.box.em_mm


def test_figures_of_gaps_in_one_place_stand_below_each_other(drawing):
    words = [gap.word_at for gap in drawing.gaps]
    for index, one in enumerate(words):
        for other in words[:index]:
            way = one - other
            assert abs(way.imag) > 1.29 * drawing.box.em_mm or abs(way.real) >= 8 * drawing.box.em_mm


def test_one_outline_over_itself_is_still_drawn_with_two_letters():
    drawing = laid_drawing(overlay(rectangle(200, 400), rectangle(200, 400)), "in")
    assert drawing.gaps[0].pair.chosen.gap.mm == pytest.approx(0, abs=1e-9)
    first, second = (one.letter_at for one in drawing.outlines)
    assert abs(first - second) > drawing.box.em_mm
