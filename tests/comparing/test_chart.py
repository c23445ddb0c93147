"""The drawing is read back as XML: what a maker sees must lie where the figures say."""

import re
from dataclasses import replace
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from fitting.comparing.calculation.verdict import Chances
from fitting.comparing.showing.chart import EDGE, MIDDLE, WIDTH, ChartRow, draw_chart

GIRTH_WORDS = tuple(verdict.region for verdict in Chances.verdicts("girth"))
LENGTH_WORDS = tuple(verdict.region for verdict in Chances.verdicts("length"))
SVG = "{http://www.w3.org/2000/svg}"


def a_row(**given) -> ChartRow:
    inches = {"garment_mm": 24, "wanted_mm": 25.5, "difference_mm": -1.5, "u_mm": 0.5}
    inches |= {"fits_mm": 0.5, "add_mm": 3, "take_off_mm": 3}
    figures = {name: None if value is None else value * 25.4 for name, value in (inches | given).items()}
    return ChartRow(label="waist", words=GIRTH_WORDS, verdict="add", **figures)


def drawn(*rows: ChartRow, **how) -> ElementTree.Element:
    return ElementTree.fromstring(draw_chart(rows, title="Bodice <1785> & wearer", **how))  # noqa: S314


def inches_at(x: str, reach_in: float) -> float:
    return (float(x) - MIDDLE) / (MIDDLE - EDGE) * reach_in


def test_the_point_and_the_bands_lie_where_the_figures_say():
    chart = drawn(a_row())
    reach = 1.35 * 3  # the widest limit, with room for the name of what lies beyond it
    point = chart.find(f"{SVG}circle[@class='chart-point']")
    assert inches_at(point.get("cx"), reach) == pytest.approx(-1.5, abs=0.01)
    alter = chart.find(f"{SVG}rect[@class='chart-alter']")
    assert inches_at(alter.get("x"), reach) == pytest.approx(-3, abs=0.01)
    assert float(alter.get("width")) / (MIDDLE - EDGE) * reach == pytest.approx(6, abs=0.01)
    fits = chart.find(f"{SVG}rect[@class='chart-fits']")
    assert inches_at(fits.get("x"), reach) == pytest.approx(-0.5, abs=0.01)


def test_the_bars_reach_one_and_two_standard_uncertainties():
    wide, thick = (path.get("d") for path in drawn(a_row()).iterfind(f"{SVG}path[@class='chart-interval']"))
    reach = 1.35 * 3
    assert [inches_at(x, reach) for x in re.match(r"M([\d.]+) [\d.]+H([\d.]+)", wide).groups()] == [
        pytest.approx(-2.5, abs=0.01),
        pytest.approx(-0.5, abs=0.01),
    ]
    assert [inches_at(x, reach) for x in re.match(r"M([\d.]+) [\d.]+H([\d.]+)", thick).groups()] == [
        pytest.approx(-2, abs=0.01),
        pytest.approx(-1, abs=0.01),
    ]


def test_what_the_colours_say_is_said_in_words_too():
    chart = drawn(a_row())
    assert chart.find(f"{SVG}title").text == "Bodice <1785> & wearer"
    assert chart.find(f"{SVG}desc").text == (
        "Waist: garment 24 in, 1 1/2 in smaller than wanted, give or take 1/2 in: add."
    )
    words = {text.text for text in chart.iterfind(f"{SVG}text")}
    assert {"too small", "add", "fits", "take off", "too large", "wanted"} <= words


def test_a_reader_in_centimetres_reads_centimetres():
    chart = drawn(a_row(), system="cm")
    assert "garment 61.0 cm" in chart.find(f"{SVG}desc").text
    assert {"0 cm", "+5", "−5"} <= {text.text for text in chart.iterfind(f"{SVG}text")}


def test_a_loose_level_has_no_upper_end():
    fits = drawn(a_row(take_off_mm=None)).find(f"{SVG}rect[@class='chart-fits']")
    assert float(fits.get("x")) + float(fits.get("width")) == pytest.approx(WIDTH - EDGE, abs=0.1)


@pytest.mark.parametrize(("difference", "side"), [(-40, "left"), (40, "right")])
def test_a_point_far_off_becomes_an_arrow_at_the_edge(difference, side):
    chart = drawn(a_row(difference_mm=difference))
    assert chart.find(f"{SVG}circle") is None
    x = float(re.match(r"M([\d.]+)", chart.find(f"{SVG}path[@class='chart-point']").get("d"))[1])
    assert (x < EDGE) if side == "left" else (x > WIDTH - EDGE)


def test_lengths_have_their_own_words_and_two_charts_keep_their_ids_apart():
    row = a_row()
    length = ChartRow(
        label="nape to waist", kind="length", garment_mm=381, wanted_mm=388, difference_mm=-7, u_mm=5,
        fits_mm=6.35, add_mm=38.1, take_off_mm=38.1, words=LENGTH_WORDS, verdict="lengthen",
    )  # fmt: skip
    chart = drawn(row, length, name="second")
    assert set(LENGTH_WORDS) <= {text.text for text in chart.iterfind(f"{SVG}text")}
    assert {"lengthen", "shorten"} <= set(LENGTH_WORDS)
    assert chart.get("aria-labelledby") == "second-title second-desc"
    assert not [part for part in chart.iter() if part.get("style")]


@pytest.mark.parametrize(("fits_in", "add_in"), [(0.03, 1.25), (0.03, 1.0), (0.5, 3)])
def test_the_names_of_narrow_bands_keep_off_each_other(fits_in, add_in):
    chart = drawn(replace(a_row(fits_mm=fits_in, add_mm=add_in, difference_mm=0), words=LENGTH_WORDS))
    named = [one for one in chart.iterfind(f"{SVG}text") if one.text in LENGTH_WORDS]
    places = sorted((float(one.get("y")), float(one.get("x")), len(one.text)) for one in named)
    assert len(places) == 5
    for (line, left, letters), (other_line, right, others) in pairwise(places):
        assert line < other_line or right - left >= 5 * (letters + others) / 2  # a letter is about 5 wide


def test_nothing_compared_draws_nothing():
    assert draw_chart([], title="Empty") == ""
