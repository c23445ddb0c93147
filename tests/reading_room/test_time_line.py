"""Where a garment lies on the time line, and how its ends are drawn."""

from datetime import date
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.reading_room.calculation.time_line import MOST_TICKS, WIDTH, Dating, TimeLine, lay_on_line
from catalogue.sources.calculation.dates import ends_of, read_date


def line_of(*edtf: str) -> TimeLine:
    spans = [read_date(one) for one in edtf]
    return lay_on_line([Dating(earliest=s.earliest, latest=s.latest, ends=ends_of(s.edtf)) for s in spans])


@pytest.mark.parametrize(
    ("edtf", "first", "last"),
    [
        ("1785", "stated", "stated"),
        ("1785~", "about", "about"),
        ("177X", "stated", "stated"),
        ("17XX?", "about", "about"),
        ("1750/1760", "stated", "stated"),
        ("1750~/1760", "about", "stated"),
        ("1750/1760%", "stated", "about"),
        ("../1760", "open", "stated"),
        ("1760/", "stated", "open"),
        ("../1760~", "open", "about"),
        ("[1785,1786?]", "stated", "about"),
        ("[..1760-12-03]", "open", "stated"),
        ("{1760-01,1760-12..}", "stated", "open"),
    ],
)
def test_each_end_of_a_date_is_stated_about_or_open(edtf, first, last):
    ends = ends_of(edtf)
    assert (ends.first, ends.last) == (first, last)


def test_years_stand_at_their_share_of_the_line():
    line = line_of("1750", "1799")
    at = dict(line.ticks)
    assert at[1750] == pytest.approx(line.bars[0].left)
    assert (at[1760] - at[1750]) * 4 == pytest.approx(at[1790] - at[1750])
    # 1799 lasts to its last evening.
    assert line.bars[1].right == pytest.approx(at[1790] + (at[1790] - at[1780]))


def test_an_open_end_runs_to_the_edge():
    before, after, between = line_of("../1760", "1790/..", "1760/1790").bars
    assert (before.left, after.right) == (0, WIDTH)
    assert before.is_open
    assert after.is_open
    assert not between.is_open


def test_a_line_without_a_date_is_empty():
    assert line_of() == lay_on_line([])
    assert lay_on_line([]).bars == ()


YEARS = st.integers(1, 9990).map(lambda year: date(year, 6, 15))


@given(st.lists(st.tuples(YEARS, st.integers(0, 9)), min_size=1, max_size=9))
def test_every_bar_lies_on_the_line_and_the_years_are_few_and_even(spans):
    dated = [
        Dating(earliest=day, latest=day.replace(year=day.year + more), ends=ends_of("1785"))
        for day, more in spans
    ]
    line = lay_on_line(dated)
    for bar in line.bars:
        assert 0 <= bar.left < bar.right <= WIDTH + 3
    assert len(line.ticks) <= MOST_TICKS + 1
    years = [year for year, _ in line.ticks]
    assert len({later - earlier for earlier, later in pairwise(years)}) <= 1
