"""The drawn figure has a mark for every measure, numbered as the tables are."""

import re
from xml.etree import ElementTree

import pytest

from catalogue.lengths.calculation.levels import LINES
from fitting.wearers.showing import MARKS, draw_figures, lines_of, numbers_of

SVG = "{http://www.w3.org/2000/svg}"
DRESSES = ("women's", "men's", "children's")


def test_every_line_of_the_body_is_on_the_figure():
    assert set(MARKS) == {line.key for line in LINES.values() if line.on_body}


@pytest.mark.parametrize("dress", DRESSES)
def test_each_number_stands_on_one_drawing(dress):
    shown = [
        int(text.text)
        for drawing in draw_figures(dress)
        for text in ElementTree.fromstring(drawing).iter(f"{SVG}text")  # noqa: S314, drawn by us
    ]
    assert sorted(shown) == sorted(numbers_of(dress).values())


@pytest.mark.parametrize("dress", DRESSES)
def test_the_drawing_is_told_in_words(dress):
    told = " ".join(re.findall("<desc.*?</desc>", "".join(draw_figures(dress))))
    for number, line in enumerate(lines_of(dress), start=1):
        assert f"{number} {line.label}" in told


def test_no_two_numbers_cover_each_other():
    for dress in DRESSES:
        marks = [MARKS[line.key] for line in lines_of(dress)]
        for at, one in enumerate(marks):
            for other in marks[at + 1 :]:
                if one.drawing == other.drawing:
                    apart = (one.number_x - other.number_x) ** 2 + (one.number_y - other.number_y) ** 2
                    assert apart**0.5 >= 22, (one, other)


def test_girths_go_round_and_lengths_run_between_two_points():
    for key, mark in MARKS.items():
        assert bool(mark.behind) == (LINES[key].kind == "girth"), key
