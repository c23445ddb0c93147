"""Pages of a sheet: counted against n = ceil((L − o) ÷ (p − o)) and by covering the sheet with them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import box, union_all

from fitting.pattern.calculation.sheets.paper import PAPERS, Paper, Tiling, faults_of, page_count, row_letters

TABLOID = Paper(name="11 × 17 in", width_mm=11 * 25.4, height_mm=17 * 25.4)
A0 = Paper(name="A0", width_mm=841, height_mm=1189)


# A sheet of 800 × 1200 mm, margin 10 mm all round, overlap 15 mm: worked by the formula, by hand.
@pytest.mark.parametrize(
    ("paper", "columns", "rows"),
    [(PAPERS["A4"], 5, 5), (PAPERS["Letter"], 5, 5), (TABLOID, 4, 3), (A0, 1, 2)],
)
def test_a_sheet_of_800_by_1200_takes_the_pages_that_the_formula_gives(paper, columns, rows):
    tiling = Tiling(width_mm=800, height_mm=1200, paper=paper)
    assert (tiling.columns, tiling.rows) == (columns, rows)
    across, down = paper.width_mm - 20, paper.height_mm - 20
    assert columns == math.ceil((800 - 15) / (across - 15))
    assert rows == math.ceil((1200 - 15) / (down - 15))


# A4 and A3: ISO 216. Letter: 8 1/2 × 11 in (from memory, as ANSI/ASME Y14.1 size A).
@pytest.mark.parametrize(
    ("name", "size"), [("A4", (210, 297)), ("A3", (297, 420)), ("Letter", (215.9, 279.4))]
)
def test_papers_have_their_standard_sizes(name, size):
    assert (PAPERS[name].width_mm, PAPERS[name].height_mm) == pytest.approx(size)


@given(st.floats(1, 3000), st.floats(1, 3000), st.sampled_from([*PAPERS.values(), TABLOID]), st.floats(0, 40))
def test_pages_cover_the_sheet_and_each_point_is_owned_once(wide, high, paper, overlap):
    tiling = Tiling(width_mm=wide, height_mm=high, paper=paper, overlap_mm=overlap)
    owned = [box(*tiling.owned(tile)) for tile in tiling.tiles()]
    whole = union_all(owned, grid_size=1e-6)
    assert box(0, 0, wide, high).difference(whole).area < 1e-3
    assert sum(one.area for one in owned) == pytest.approx(whole.area, rel=1e-6)


@given(st.floats(20, 5000), st.floats(60, 600), st.floats(0, 15))
def test_one_page_fewer_would_not_do(length, prints, overlap):
    count = page_count(length, prints, overlap)
    assert count * (prints - overlap) + overlap >= length - 1e-6
    assert count == 1 or (count - 1) * (prints - overlap) + overlap < length


def test_register_marks_lie_in_the_overlap_of_two_pages_and_come_out_on_both():
    tiling = Tiling(width_mm=800, height_mm=1200, paper=PAPERS["A4"])
    for x, y in tiling.register_marks():
        on = [
            tile
            for tile in tiling.tiles()
            if 0 < x - tile.left < tile.width and 0 < y - tile.top < tile.height
        ]
        assert len(on) == 2
    assert len(list(tiling.register_marks())) == 2 * (4 * 5 + 5 * 4)


def test_rows_go_on_after_z():
    assert [row_letters(row) for row in (0, 25, 26, 27, 701, 702)] == ["A", "Z", "AA", "AB", "ZZ", "AAA"]


def test_an_overlap_that_eats_the_page_and_a_roll_no_shop_has_are_faults():
    assert [fault.where for fault in faults_of(PAPERS["A4"], 60)] == ["overlap"]
    assert [fault.where for fault in faults_of(Paper.roll(90), 0)] == ["roll_width"]
    assert faults_of(Paper.roll(914), 15) == []
