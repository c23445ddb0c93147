import pytest
from shapely import Point as Place
from shapely import box, union_all

from catalogue.lengths.calculation.errors import Faults
from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import Mark, TracedShape
from fitting.pattern.calculation.sheets.miniature import miniature_sheet
from fitting.pattern.calculation.sheets.paper import PAPERS, Paper
from fitting.pattern.calculation.sheets.sheet import (
    Allowances,
    PieceToPrint,
    full_size_sheet,
    notch_lines,
)
from fixtures.demo.draw.garments import day_bodice
from tests.makers.drafts import plate_to_grade

HALF_INCH = Allowances(usual_mm=12.7, by_edge={"hem": 38.1})


def bodice() -> list[PieceToPrint]:
    return [
        PieceToPrint(shape=piece.shape, words=(piece.shape.name, "cut 2"))
        for piece in plate_to_grade(day_bodice.PLATE)
    ]


def rectangle(wide: float, high: float, marks: tuple[Mark, ...] = ()) -> PieceToPrint:
    corners = (0j, complex(wide, 0), complex(wide, high), complex(0, high))
    shape = TracedShape(
        name="panel", outline=Outline(nodes=tuple(Node(at=at) for at in corners)), marks=marks
    )
    return PieceToPrint(shape=shape, words=("panel",))


@pytest.mark.parametrize("paper", [*PAPERS.values(), Paper.roll(610)], ids=lambda paper: paper.name)
def test_every_piece_is_printed_whole_apart_from_others_and_no_page_is_blank(paper):
    sheet = full_size_sheet(bodice(), paper=paper, allowances=HALF_INCH)
    printed = union_all(
        [box(t.left, t.top, t.left + t.width, t.top + t.height) for t in (page.tile for page in sheet.pages)]
    )
    for piece in sheet.pieces:
        assert piece.cut.difference(printed).area < 1e-6
        assert all(piece is other or piece.cut.distance(other.cut) > 5.9 for other in sheet.pieces)
    for page in sheet.pages:
        owned = box(*sheet.tiling.owned(page.tile))
        assert any(piece.cut.intersects(owned) for piece in sheet.pieces)
    assert [page.number for page in sheet.pages] == list(range(1, len(sheet.pages) + 1))


def test_one_panel_takes_the_pages_that_the_formula_gives():
    sheet = full_size_sheet(
        [rectangle(800, 1200)], paper=PAPERS["A4"], allowances=Allowances(usual_mm=0, by_edge={})
    )
    assert len(sheet.pages) == 25


def test_a_fold_gets_no_allowance():
    sheet = full_size_sheet(bodice(), paper=PAPERS["A3"], allowances=HALF_INCH)
    collar = next(piece for piece in sheet.pieces if piece.words[0] == "collar")
    fold = next(mark for mark in collar.shape.marks if mark.kind == "fold")
    assert collar.cut.boundary.distance(Place(*at(sum(fold.points) / 2))) == pytest.approx(0, abs=1e-6)


def at(point: complex) -> tuple[float, float]:
    return point.real, point.imag


@pytest.mark.parametrize("paper", [PAPERS["A4"], PAPERS["A3"]], ids=lambda paper: paper.name)
def test_every_piece_stands_with_its_grain_upright(paper):
    """The collar is drawn lying down on its plate, its grain along it."""
    drawn = {piece.shape.name: piece.shape for piece in bodice()}
    sheets = [
        full_size_sheet(bodice(), paper=paper, allowances=HALF_INCH),
        miniature_sheet(bodice(), paper=paper, scale=1 / 8, allowance_mm=3),
    ]
    for sheet in sheets:
        for piece in sheet.pieces:
            start, end = next(mark.points for mark in piece.shape.marks if mark.kind == "grain")
            assert abs((end - start).real) < 1e-9 * abs(end - start)
            full_mm = drawn[piece.shape.name].outline.perimeter
            assert piece.shape.outline.perimeter == pytest.approx(sheet.scale * full_mm)


def test_a_roll_is_as_long_as_it_need_be():
    sheet = full_size_sheet(bodice(), paper=Paper.roll(914), allowances=HALF_INCH)
    assert len(sheet.pages) == 1
    assert sheet.tiling.paper.height_mm < 1500


def test_a_miniature_is_the_piece_at_plate_scale_with_the_pages_own_allowance():
    sheet = miniature_sheet([rectangle(800, 400)], paper=PAPERS["A4"], scale=1 / 8, allowance_mm=3)
    left, top, right, foot = sheet.pieces[0].cut.bounds
    assert (right - left, foot - top) == pytest.approx((106, 56))
    assert len(sheet.pages) == 1


def test_a_miniature_too_large_for_its_page_names_the_way_out():
    """3 m and twice 3 mm within 190 mm: 3000 ÷ 184 is 16.3, and the next half above is 16 1/2."""
    with pytest.raises(Faults, match=r"1 to 16\.5 is the largest that does"):
        miniature_sheet([rectangle(3000, 3000)], paper=PAPERS["A4"], scale=1 / 8, allowance_mm=3)


def test_a_miniature_turns_its_page_where_that_helps():
    sheet = miniature_sheet([rectangle(2000, 400)], paper=PAPERS["A4"], scale=1 / 8, allowance_mm=3)
    assert sheet.tiling.paper.width_mm == 297


def test_a_notch_runs_from_within_out_to_the_cutting_line():
    notched = rectangle(200, 300, marks=(Mark(kind="notch", points=(100 + 0j,)),))
    (piece,) = full_size_sheet([notched], paper=PAPERS["A4"], allowances=HALF_INCH).pieces
    ((start, end),) = notch_lines(piece)
    assert (start - end) == pytest.approx(15.7j)
    assert end.imag == pytest.approx(piece.cut.bounds[1])


def test_a_label_lies_clear_of_the_grain():
    grain = Mark(kind="grain", points=(100 + 20j, 100 + 280j))
    (piece,) = full_size_sheet(
        [rectangle(200, 300, marks=(grain,))], paper=PAPERS["A4"], allowances=HALF_INCH
    ).pieces
    middle, radius = piece.label_place
    line = next(mark for mark in piece.shape.marks).points[0].real
    assert abs(middle.real - line) >= radius > 40


def test_nothing_to_print_and_too_much_to_print_are_said():
    with pytest.raises(Faults, match="at least one piece"):
        full_size_sheet([], paper=PAPERS["A4"], allowances=HALF_INCH)
    with pytest.raises(Faults, match="more than 400 pages"):
        full_size_sheet([rectangle(6000, 9000)], paper=PAPERS["A4"], allowances=HALF_INCH)
