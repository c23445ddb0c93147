"""Whatever an SVG holds, it is read or refused with a sentence; other readers agree on what it holds."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from svgpathtools import parse_path

from catalogue.lengths.calculation.errors import Faults
from catalogue.plates.models.piece import Piece
from catalogue.tracing.exchange.svg_lines import read_lines
from catalogue.tracing.exchange.svg_outlines import read_outlines
from catalogue.tracing.loading.drawing import drawing_of
from catalogue.tracing.showing.figure import figure_of
from catalogue.tracing.showing.svg import svg_of
from catalogue.workroom.reader.safe_xml import XmlRefused, read_xml
from tests.examples import examples

SHEET = '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" viewBox="0 0 100 100">{}</svg>'


def read_or_refused(text: str) -> bool:
    """What is read is drawn as well: a page shows it with its faults, before anything is kept."""
    try:
        read = read_outlines(text)
    except (XmlRefused, Faults) as refused:
        return bool(str(refused))
    drawing = drawing_of([(Piece(name=one.name), one.shape) for one in read.pieces if one.shape], read.levels)
    if drawing is None:
        return True
    figure = figure_of(drawing, "in")
    return math.isfinite(figure.width * figure.height) and svg_of(drawing, "read").endswith("</svg>")


@settings(max_examples=examples(150), deadline=None)
@given(st.text())
def test_any_text_is_read_or_refused(text):
    assert read_or_refused(text)


signs = st.text(alphabet="MmLlHhVvCcSsQqTtAaZz0123456789 .,-+eE", max_size=60)
odd = st.one_of(signs, st.text(max_size=8), st.just("nan"), st.just("1e999"), st.just("-0"))
names = st.sampled_from(
    ["path", "rect", "circle", "ellipse", "polygon", "polyline", "line", "g", "use", "svg", "title"]
)
KEYS = (
    "d points x y x1 width height r rx ry transform style id data-piece data-mark data-line data-level"
    " data-points data-corners data-edges data-cut data-cloth"
)
known = st.sampled_from(["grain", "dart", "waist", "[]", "{}", "rotate(30)", "scale(0)", "matrix(1 0)"])
attributes = st.dictionaries(st.sampled_from(KEYS.split()), odd | known, max_size=5)


@st.composite
def elements(draw, depth=2):
    name = draw(names)
    said = "".join(f" {key}={_quoted(value)}" for key, value in draw(attributes).items())
    inner = "".join(draw(st.lists(elements(depth=depth - 1), max_size=3))) if depth else ""
    return f"<{name}{said}>{inner}</{name}>"


def _quoted(value: str) -> str:
    kept = "".join(sign for sign in value if sign.isprintable())
    return '"' + kept.replace("&", "&amp;").replace("<", "&lt;").replace('"', "&quot;") + '"'


@settings(max_examples=examples(300), deadline=None)
@given(st.lists(elements(), min_size=1, max_size=4))
def test_any_drawing_is_read_or_refused(drawn):
    assert read_or_refused(SHEET.format("".join(drawn)))


@settings(max_examples=examples(150), deadline=None)
@given(st.lists(st.tuples(st.integers(0, 99), st.integers(0, 99)), min_size=3, max_size=12), attributes)
def test_any_closed_line_is_read_and_drawn(points, said):
    """Points in any order, twice, in one place or in one line, with whatever is said of them."""
    said = "".join(f" {key}={_quoted(value)}" for key, value in said.items() if key not in {"d", "points"})
    line = " ".join(f"{x},{y}" for x, y in points)
    assert read_or_refused(SHEET.format(f'<polygon points="{line}"{said}/><rect width="90" height="90"/>'))


sizes = st.integers(3, 900).map(lambda tenths: tenths / 10) | st.integers(-900, -3).map(lambda n: n / 10)
pairs = st.tuples(sizes, sizes).map(lambda pair: f"{pair[0]} {pair[1]}")
arcs = st.tuples(st.integers(20, 60), st.integers(20, 60), st.integers(0, 180), st.booleans(), st.booleans())
commands = st.one_of(
    *(pairs.map(lambda text, command=command: command + text) for command in "lLtT"),
    *(sizes.map(lambda size, command=command: f"{command}{size}") for command in "hHvV"),
    *(
        st.tuples(*[pairs] * count).map(lambda texts, command=command: command + " ".join(texts))
        for command, count in (("c", 3), ("C", 3), ("s", 2), ("S", 2), ("q", 2), ("Q", 2))
    ),
    st.tuples(arcs, pairs).map(
        lambda arc: f"a{arc[0][0]} {arc[0][1]} {arc[0][2]} {int(arc[0][3])} {int(arc[0][4])} {arc[1]}"
    ),
)


@settings(max_examples=examples(150), deadline=None)
@given(st.lists(commands, min_size=2, max_size=8))
def test_paths_are_as_long_as_another_reader_has_them(drawn):
    """svgpathtools; an arc becomes cubics here, which keep to it within three parts in ten thousand."""
    data = "M5 5" + "".join(drawn) + "z"
    lines = read_lines(read_xml(SHEET.format(f'<path d="{data}"/>'))).lines
    mine = sum(side.length() for line in lines for side in line.sides)
    theirs = parse_path(data).length(error=1e-6)
    assume(math.isfinite(theirs))  # theirs is not, for a quadratic curve that doubles back on its line
    assert mine == pytest.approx(theirs, rel=5e-4, abs=0.01)


@pytest.mark.parametrize(
    ("transform", "point"),
    [
        ("translate(3)", (13, 20)),
        ("translate(3,4) scale(2)", (23, 44)),
        ("rotate(90)", (-20, 10)),
        ("rotate(90 10 10)", (0, 10)),
        ("matrix(1 2 3 4 5 6)", (75, 106)),  # x′ = a x + c y + e, y′ = b x + d y + f (SVG 2, 8.5)
        ("skewX(45)", (30, 20)),
        ("skewY(45)", (10, 30)),
        ("scale(2 -1)", (20, -20)),
    ],
)
def test_a_transform_moves_a_point_as_the_standard_says(transform, point):
    drawn = f'<g transform="{transform}"><line x1="10" y1="20" x2="50" y2="60"/></g>'
    [line] = read_lines(read_xml(SHEET.format(drawn))).lines
    start = line.points[0]
    assert (start.real, start.imag) == pytest.approx(point)


def test_shapes_are_as_large_as_their_figures_say():
    shapes = '<rect width="30" height="40" rx="5"/><circle r="10"/><ellipse rx="8" ry="4"/>'
    lines = read_lines(read_xml(SHEET.format(shapes))).lines
    areas = [abs(sum(side.swept_area() for side in line.sides)) for line in lines]
    expected = [1200 - (4 - math.pi) * 25, math.pi * 100, math.pi * 32]
    assert areas == pytest.approx(expected, rel=1e-3)
