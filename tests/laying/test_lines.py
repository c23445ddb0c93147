"""Pieces as they are cut: upright as on the plate, each edge with its allowance, opened or half at a fold."""

import pytest
from shapely import Polygon

from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import Mark, TracedShape
from fitting.laying.calculation.lines import box_lines, lines_of
from fitting.pattern.calculation.sheets.sheet import Allowances

# On the page, y downwards: a half back, its fold at the left, its hem below and wider than its neck.
CORNERS = {"neck": 0, "side": 60, "hem": 100 + 200j, "fold": 200j}
FOLD = Mark(kind="fold", points=(2 + 20j, 1 + 180j))
NONE = Allowances(usual_mm=0, by_edge={})


def traced(*marks: Mark, turn: complex = 1) -> TracedShape:
    nodes = tuple(Node(at=at * turn, edge=edge) for edge, at in CORNERS.items())
    turned = tuple(Mark(kind=mark.kind, points=tuple(at * turn for at in mark.points)) for mark in marks)
    return TracedShape(name="back", outline=Outline(nodes=nodes), marks=turned)


def cut(shape: TracedShape, allowances: Allowances = NONE, *, half: bool = False, turn_deg: float = 0):
    on_fold = any(mark.kind == "fold" for mark in shape.marks)
    return lines_of(shape, allowances=allowances, turn_deg=turn_deg, is_on_fold=on_fold, half=half)


def test_the_hem_is_at_the_start_of_the_cloth_and_nothing_is_mirrored():
    # y runs the other way from the page: the wide hem below is at 0, and the slant stays at the right.
    assert set(cut(traced()).outline) == {(0, 200), (60, 200), (100, 0), (0, 0)}


@pytest.mark.parametrize("turn", [1, 1j, -1j])
@pytest.mark.parametrize("grain", [(50 + 20j, 50 + 180j), (50 + 180j, 50 + 20j)])
def test_the_grain_lies_along_the_cloth_whichever_way_it_was_drawn(turn, grain):
    shape = traced(Mark(kind="grain", points=grain), turn=turn)
    # Upright the shorter way: from lying on its side it may come to stand on its head, as on a sheet.
    left, low, right, high = Polygon(cut(shape).outline).bounds
    assert (right - left, high - low) == pytest.approx((100, 200))


def test_without_a_grain_line_the_piece_is_turned_as_its_grain_is_said_to_run():
    left, low, right, high = Polygon(cut(traced(), turn_deg=90).outline).bounds
    assert (right - left, high - low) == pytest.approx((200, 100))


def test_a_fold_is_opened_into_a_whole_without_a_seam():
    whole = Polygon(cut(traced(FOLD)).outline)
    assert whole.bounds == pytest.approx((0, 0, 200, 200), abs=0.01)
    assert whole.area == pytest.approx(2 * (60 + 100) / 2 * 200, rel=1e-4)
    assert len(whole.exterior.coords) - 1 == 4


def test_a_fold_gets_no_allowance_and_the_others_theirs():
    allowances = Allowances(usual_mm=10, by_edge={"hem": 50})
    lines = cut(traced(FOLD), allowances)
    left, low, right, high = Polygon(lines.cut_outline).bounds
    assert (low, high) == pytest.approx((-50, 210), abs=0.01)
    middle = (left + right) / 2
    assert middle == pytest.approx(100, abs=0.01)
    # Over the fold the neck's allowance runs straight on: at the middle it is 10 above the neck.
    assert Polygon(lines.cut_outline).intersection(
        Polygon([(middle - 1, 0), (middle + 1, 0), (middle + 1, 300), (middle - 1, 300)])
    ).bounds[3] == pytest.approx(210, abs=0.01)


@pytest.mark.parametrize("turn", [1, -1])
def test_half_a_piece_has_its_fold_at_its_left(turn):
    lines = cut(traced(FOLD, turn=turn), Allowances(usual_mm=10, by_edge={}), half=True)
    assert lines.is_half
    assert Polygon(lines.outline).bounds == pytest.approx((0, 0, 100, 200), abs=0.01)
    left, low, _, high = Polygon(lines.cut_outline).bounds
    assert (left, low, high) == pytest.approx((0, -10, 210), abs=0.01)
    assert Polygon(lines.outline).area == pytest.approx(80 * 200, rel=1e-4)


def test_a_fold_across_the_grain_is_opened_on_folded_cloth_too():
    lines = cut(traced(FOLD, Mark(kind="grain", points=(10 + 100j, 50 + 100j))), half=True)
    assert not lines.is_half
    assert Polygon(lines.outline).area == pytest.approx(2 * 80 * 200, rel=1e-4)


def test_a_fold_that_nobody_marked_or_that_lies_apart_leaves_no_lines():
    shape = traced()
    assert lines_of(shape, allowances=NONE, turn_deg=0, is_on_fold=True, half=False) is None
    apart = Mark(kind="fold", points=(-40 + 20j, -40 + 180j))
    assert cut(traced(apart)) is None


def test_a_box_is_whole_or_half():
    whole = box_lines(400, 300, allowance_mm=10, half=False)
    assert Polygon(whole.cut_outline).bounds == (-10, -10, 410, 310)
    half = box_lines(400, 300, allowance_mm=10, half=True)
    assert Polygon(half.outline).bounds == (0, 0, 200, 300)
    assert Polygon(half.cut_outline).bounds == (0, -10, 210, 310)
