"""One pen: its colours are those of the style sheets, its numbers are written in one way."""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from catalogue.drawing.showing import Colour, drawing, element, number, ring, text, track

ROOT = Path(__file__).resolve().parents[2]
PALETTE = (ROOT / "catalogue/static/catalogue/palette.css").read_text(encoding="utf-8")
SVG = "{http://www.w3.org/2000/svg}"


def property_of(colour: Colour) -> str:
    return f"--{colour.name.lower().replace('_', '-')}"


def test_the_colours_of_drawings_are_those_of_the_page_by_daylight():
    daylight = dict(re.findall(r"(--[a-z-]+): (#[0-9a-f]+);", PALETTE.split("@media")[0]))
    assert {property_of(colour): colour.value for colour in Colour}.items() <= daylight.items()


@pytest.mark.parametrize("way", ["fill", "stroke"])
def test_on_the_screen_each_colour_gives_way_to_its_property(way):
    swapped = dict(re.findall(rf'svg \[{way}="(#\w+)"\] {{ {way}: var\((--[a-z-]+)\); }}', PALETTE))
    assert swapped == {colour.value: property_of(colour) for colour in Colour}


def test_no_drawing_brings_a_colour_of_its_own():
    files = [
        *ROOT.glob("catalogue/**/*.py"),
        *ROOT.glob("fitting/**/*.py"),
    ]
    brought = {
        f"{path.relative_to(ROOT)}: {colour}"
        for path in files
        for colour in re.findall(r"\"(#[0-9a-fA-F]{6})\"", path.read_text(encoding="utf-8"))
    }
    assert brought - {f"catalogue/drawing/showing.py: {colour}" for colour in Colour} == set()


def test_the_board_on_which_one_traces_draws_in_the_same_colours():
    scripts = (
        path.read_text(encoding="utf-8") for path in ROOT.glob("catalogue/static/catalogue/trace/*.js")
    )
    used = set(re.findall(r'"(#[0-9a-f]{6})"', "".join(scripts)))
    assert used
    assert used <= set(Colour)


def test_a_colour_is_in_a_pdf_what_it_is_on_the_page():
    assert Colour.INK.rgb == pytest.approx((29 / 255, 38 / 255, 46 / 255))  # 1d, 26, 2e


@pytest.mark.parametrize(
    ("value", "written"),
    [(0, "0"), (-0.001, "0"), (12, "12"), (100, "100"), (2.5, "2.5"), (-7.126, "-7.13"), (1e6, "1000000")],
)
def test_numbers_are_written_to_hundredths_without_noughts(value, written):
    assert number(value) == written


def test_a_track_is_its_letters_each_with_its_numbers():
    assert track("M", 1, -2.5, "v", 10, "l", -5, 3.001) == "M1 -2.5v10l-5 3"
    assert track("M", 0, 0, track("M", 1, 1)) == "M0 0M1 1"
    assert ring([(0, 0), (4, 0), (4, 3)]) == "M0 0L4 0L4 3Z"


def test_what_people_typed_is_read_back_as_they_typed_it():
    typed = 'stays <"sewn" & felled>'
    drawn = ElementTree.fromstring(  # noqa: S314 - our own text
        drawing(text(1, 2, typed, size=10), name="x", css="y", box=(0, 0, 9, 9), title=typed, says=typed)
    )
    assert [drawn.find(f"{SVG}{tag}").text for tag in ("title", "desc", "text")] == [typed] * 3
    assert drawn.get("aria-labelledby") == "x-title x-desc"
    assert [drawn.find(f"{SVG}{tag}").get("id") for tag in ("title", "desc")] == ["x-title", "x-desc"]
    marked = ElementTree.fromstring(element("g", data_name=typed))  # noqa: S314
    assert marked.get("data-name") == typed


def test_attributes_without_a_value_are_left_out():
    assert element("g", css="", fill=None, x=0) == '<g x="0"/>'
