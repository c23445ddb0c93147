"""The drawing of a lay: in millimetres of cloth, every piece, what is mirrored, the grain and the joins."""

import re
from xml.etree import ElementTree

import pytest

from fitting.laying.calculation.cloth import Cloth, Direction
from fitting.laying.calculation.lay_out import Arrangement, Order, lay_out
from fitting.laying.calculation.repeat import Lattice, Repeat
from fitting.laying.showing.drawing import draw_lay
from tests.makers.lays import make_piece, rectangle

SVG = "{http://www.w3.org/2000/svg}"


def drawn(lay: Arrangement, **options) -> ElementTree.Element:
    return ElementTree.fromstring(draw_lay(lay, **options))  # noqa: S314 - our own text


def by_class(drawing: ElementTree.Element, name: str) -> list[ElementTree.Element]:
    return [one for one in drawing.iter() if name in one.get("class", "").split()]


def extent(path: ElementTree.Element) -> tuple[float, float]:
    """How far a path reaches along and across."""
    pairs = [tuple(map(float, pair)) for pair in re.findall(r"(-?[\d.]+) (-?[\d.]+)", path.get("d"))]
    along, across = zip(*pairs, strict=True)
    return max(along) - min(along), max(across) - min(across)


@pytest.fixture
def pair() -> Arrangement:
    front = make_piece("front <1>", rectangle(200, 300), copies=2, paired=True, allowance_mm=10)
    return lay_out(Order(cloth=Cloth(width_mm=500, selvedge_mm=10), pieces=(front,)))


def test_pieces_are_drawn_to_the_millimetre_with_their_length_along_the_cloth(pair):
    drawing = drawn(pair)
    assert [extent(path) for path in by_class(drawing, "lay-piece")] == [(320, 220)] * 2
    assert [extent(path) for path in by_class(drawing, "lay-sewing")] == [(300, 200)] * 2
    (cloth,) = by_class(drawing, "lay-cloth")
    assert (cloth.get("width"), cloth.get("height")) == ("342.9", "480")


def test_what_is_mirrored_says_so(pair):
    drawing = drawn(pair)
    assert [name.text for name in by_class(drawing, "lay-name")] == ["front <1>", "front <1>"]
    assert [side.text for side in by_class(drawing, "lay-side")] == ["mirrored"]
    assert len(by_class(drawing, "lay-mirrored")) == len(by_class(drawing, "lay-as-drawn")) == 1


def test_the_grain_turns_with_the_piece():
    band = make_piece("band", rectangle(300, 600))
    for direction, along in ((Direction.ONE_WAY, True), (Direction.ANY, False)):
        cloth = Cloth(width_mm=620, direction=direction)
        (grain,) = by_class(drawn(lay_out(Order(cloth=cloth, pieces=(band,), seconds=0.3))), "lay-grain")
        assert ("h" in grain.get("d").split("M")[1]) is along


def test_joins_are_dashed_on_both_sides_of_them():
    panel = make_piece("panel", rectangle(900, 700), allowance_mm=10)
    drawing = drawn(lay_out(Order(cloth=Cloth(width_mm=500), pieces=(panel,), seconds=0.3)))
    joins = by_class(drawing, "lay-piecing")
    assert [extent(join) for join in joins] == [(700, 0)] * 2
    assert all(join.get("stroke-dasharray") for join in joins)


def test_a_long_lay_is_drawn_in_rows_and_its_end_is_marked_once():
    panel = make_piece("panel", rectangle(480, 900), copies=9)
    lay = lay_out(Order(cloth=Cloth(width_mm=500), pieces=(panel,), seconds=0.3))
    drawing = drawn(lay, system="cm")
    rows = drawing.findall(f"{SVG}g")
    assert len(rows) == 3
    assert [text.text for text in by_class(drawing, "lay-words") if text.text.startswith("laid")] == [
        "laid 810.0 cm, 96% of it in pieces"
    ]
    assert {"3 m", "8 m"} <= {text.text for text in by_class(drawing, "lay-words")}


def test_ids_are_kept_apart_on_a_page_of_several(pair):
    ids = [set(re.findall(r'id="([^"]+)"', draw_lay(pair, name=name))) for name in ("silk", "lining")]
    assert not ids[0] & ids[1]


def test_folded_cloth_has_its_fold_at_one_edge_and_its_selvedges_at_the_other():
    back = make_piece("back", rectangle(200, 600), on_fold=True)
    cloth = Cloth(width_mm=1020, selvedge_mm=10)
    drawing = drawn(lay_out(Order(cloth=cloth, pieces=(back,), is_folded=True)))
    (selvedge,), (folded,) = by_class(drawing, "lay-selvedge"), by_class(drawing, "lay-cloth")
    assert (selvedge.get("y"), selvedge.get("height")) == ("0", "510")
    assert folded.get("height") == "500"
    assert len(by_class(drawing, "lay-fold")) == 1
    assert [side.text for side in by_class(drawing, "lay-side")] == ["on the fold"]
    assert "fold" in [words.text for words in by_class(drawing, "lay-words")]


def test_the_repeat_is_drawn_where_it_begins_anew_and_a_dot_where_each_piece_matches():
    panel = make_piece("panel", rectangle(400, 300), copies=3)
    cloth = Cloth(width_mm=500, repeat=Repeat(along_mm=250, across_mm=450), unit_mm=10)
    lay = lay_out(Order(cloth=cloth, pieces=(panel,)))
    drawing = drawn(lay)
    # Panels at 0, 500 and 1000 come to 1300, bought to 1500: seven lines along, and one across at each dot.
    lines = " ".join(path.get("d") for path in by_class(drawing, "lay-repeat"))
    dots = {(float(dot.get("cx")), float(dot.get("cy"))) for dot in by_class(drawing, "lay-match")}
    assert {x for x, _ in dots} == {0, 500, 1000}
    assert {float(x) for x in re.findall(r"M(\S+) \S+V", lines)} == set(range(0, 1501, 250))
    assert {float(y) for y in re.findall(r"M\S+ (\S+?)H", lines)} == {y for _, y in dots}


def test_a_half_drop_is_drawn_lower_in_every_other_column():
    place = Lattice(Repeat(along_mm=100, across_mm=200, drop_mm=50), x=0.0, y=0.0)
    # Columns about 0, 200 and 400 of 400: the outer begin at 0 and 100, the middle one at 50.
    assert place.begins_along(0, 120, 400) == [(0, 0, 100), (100, 0, 100), (50, 100, 300), (0, 300, 400),
                                               (100, 300, 400)]  # fmt: skip


def test_a_repeat_too_fine_to_be_seen_is_not_drawn():
    cloth = Cloth(width_mm=500, repeat=Repeat(along_mm=1))
    lay = lay_out(Order(cloth=cloth, pieces=(make_piece("panel", rectangle(400, 300)),)))
    assert by_class(drawn(lay), "lay-repeat") == []
