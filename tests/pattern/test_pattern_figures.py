"""Figures for steps that others published, or that follow from geometry alone."""

from math import cos, hypot, pi, radians, sin, sqrt

import pytest
from shapely import Polygon

from tests.makers.cases import INCH_MM
from tests.makers.patterns import answer_to, check_piece, document, piece, square


def of_front(word, **more):
    return {"step": word, "piece": "front", **more}


# Geometry: 2 · r · sin ½θ, θ = 2 · asin 0.1. A dart of 2 in at 10 in from its point is 1.6 in broad at 8 in
# and 2.4 in at 12 in. Its point lies 8 in from the left edge and 12 in from the right.
@pytest.mark.parametrize(("edge", "at_x", "mouth_in"), [("left", 0, 1.6), ("right", 20, 2.4)])
def test_a_dart_keeps_its_angle(edge, at_x, mouth_in):
    high = 10 + sqrt(10**2 - 1)
    dart = [[7 * INCH_MM, high * INCH_MM], [8 * INCH_MM, 10 * INCH_MM], [9 * INCH_MM, high * INCH_MM]]
    marks = [{"kind": "dart", "points": dart}]
    drawn = square(width=20 * INCH_MM, height=high * INCH_MM, marks=marks)
    step = of_front("move dart", to=[at_x * INCH_MM, 10 * INCH_MM])
    told = answer_to(document(drawn, steps=[step]))["pieces"]["front"]
    wanted_in = {edge: high + mouth_in, "bottom": 18, "top": 20}
    check_piece(told, edges={name: inches * INCH_MM for name, inches in wanted_in.items()})
    a, _, b = told["marks"][0]["points"]
    assert hypot(a[0] - b[0], a[1] - b[1]) == pytest.approx(mouth_in * INCH_MM, abs=0.01)


# Geometry: opened by 3° at 20 in the chord is 2 · 20 · sin 1.5° = 1.0471 in, and the area grows by
# ½ · 20² · sin 3° = 10.467 in².
def test_a_cut_of_twenty_inches_that_turns_on_one_end():
    chord_in = 2 * 20 * sin(radians(1.5))
    assert chord_in == pytest.approx(1.0471, abs=5e-5)
    mm = INCH_MM
    triangle = piece("front", {(0, 20 * mm): "left", (5 * mm, 0): "right", (10 * mm, 20 * mm): "hem"})
    step = of_front("turn", cut=[[5 * mm, 20 * mm], [5 * mm, 0]], by=f"{chord_in * 25.4:.9f} mm")
    told = answer_to(document(triangle, steps=[step]))
    grown_in2 = (told["pieces"]["front"]["area_mm2"] / mm**2) - 100
    assert grown_in2 == pytest.approx(10.467, abs=5e-4)
    check_piece(told["pieces"]["front"], edges={"hem": (10 + chord_in) * mm})


# Geometry: A + P · d + d² · Σ tan ½φ for a convex outline, mitred: 100 + 40 + 4 for a square of 10 and 1
# about it.
def test_an_allowance_round_a_square():
    told = answer_to(document(square(width=10, height=10), steps=[of_front("allowance", all="1 mm")]))
    assert Polygon(told["pieces"]["front"]["cutting_line"]).area == pytest.approx(144)
    check_piece(told["pieces"]["front"], area=100, perimeter=40)


# The same of a triangle with sides 30, 40, 50: its turns are 90°, 180° − 36.87° and 180° − 53.13°, whose
# halves have the tangents 1, 3 and 2. 600 + 120 · 2 + 4 · 6 = 864. The sharpest corner lies 2 · √10 off:
# within 5 × 2.
def test_an_allowance_round_a_triangle():
    triangle = piece("front", {(0, 0): "a", (40, 0): "b", (0, 30): "c"})
    told = answer_to(document(triangle, steps=[of_front("allowance", all="2 mm")]))
    assert Polygon(told["pieces"]["front"]["cutting_line"]).area == pytest.approx(864)


# A hem of 20 below, 10 at the sides, nothing above: (300 + 20) × (400 + 20).
def test_each_edge_may_have_its_own_allowance():
    step = of_front("allowance", all="1 cm", edges={"bottom": "2 cm", "top": "0 in"})
    told = answer_to(document(square(), steps=[step]))
    assert Polygon(told["pieces"]["front"]["cutting_line"]).area == pytest.approx(320 * 420)


# Geometry: ½ θ (r² − (r − w)²) within an arc. A quarter of a circle of 200, its neighbours running to the
# middle, in sixty straight sides: of each triangle to the middle is left what a parallel to its base cuts
# off.
def test_a_facing_of_an_arc():
    count, r, w = 60, 200.0, 40.0
    points = [(r * cos(pi / 2 * i / count), r * sin(pi / 2 * i / count)) for i in range(count + 1)]
    names = ["arc", *[""] * (count - 1), "left"]
    drawn = piece("front", [*zip(points, names, strict=True), ((0, 0), "right")])
    step = of_front("facing", edges=["arc"], width="4 cm", name="facing")
    told = answer_to(document(drawn, steps=[step]))["pieces"]["facing"]
    flat = r * cos(pi / 4 / count)
    assert told["area_mm2"] == pytest.approx(pi / 2 / 2 * (r**2 - (r - w) ** 2), rel=1e-3)
    sides = count * sin(pi / 2 / count) / 2 * r**2 * (1 - ((flat - w) / flat) ** 2)
    assert told["area_mm2"] == pytest.approx(sides, rel=1e-6)


# Geometry: n × height for a neck of length n where it is straight.
def test_a_collar_band_for_a_straight_neck():
    told = answer_to(
        document(square(), steps=[of_front("band", edges=["top"], height="1 1/2 in", name="band")])
    )
    check_piece(told["pieces"]["band"], area=300 * 38.1, perimeter=2 * (300 + 38.1))


# Geometry: a straight seam of length L moved by s gives s · L to the one and takes it from the other.
def test_a_seam_moved_forward():
    step = {"step": "move seam", "pieces": ["back", "front"], "edges": ["left", "right"], "by": "3/4 in"}
    given = document(square(), square("back", width=260), steps=[step])
    told = answer_to(given)
    check_piece(told["pieces"]["back"], area=260 * 400 + 19.05 * 400)
    check_piece(told["pieces"]["front"], area=300 * 400 - 19.05 * 400)
    assert told["girths"]["waist"] == pytest.approx(2 * 560)


# The New Dressmaker (Butterick, 1921), chapter 4, illustration 40: the back is slashed from shoulder to
# bottom and parted; its shoulder is then longer than the front's by as much as lies along it.
def test_a_back_slashed_from_shoulder_to_bottom():
    back = piece(
        "front",
        {(0, 0): "neck", (60, 0): "shoulder", (160, 0): "armhole",
         (160, 150): "side", (160, 400): "hem", (0, 400): "centre"},
        levels={"bust": [[0, 150], [160, 150]]},
    )  # fmt: skip
    step = of_front("spread", cut=[[110, 0], [110, 400]], by="1/2 in")
    told = answer_to(document(back, steps=[step]))["pieces"]["front"]
    check_piece(told, edges={"shoulder": 112.7, "hem": 172.7, "armhole": 150}, levels={"bust": 172.7})


# The same, chapter 3, illustrations 38–39: a gored skirt is shortened by a plait straight across each gore, 6
# in below the hip. Kinne and Cooley, Clothing and Health, lesson 11: lengthened at a line it keeps its flare,
# the breadth of its hem; lengthened at the hem it gets wider.
def test_a_gore_lengthened_at_a_line_keeps_the_breadth_of_its_hem():
    gore = piece("front", {(100, 0): "waist", (200, 0): "right", (300, 800): "hem", (0, 800): "left"})
    at_a_line = of_front("lengthen", line=[[0, 400], [1, 400]], by="2 in")
    at_the_hem = of_front("add", edge="hem", by="2 in")
    told = answer_to(document(gore, steps=[at_a_line]))["pieces"]["front"]
    check_piece(told, edges={"hem": 300, "left": hypot(100, 800) + 50.8})
    told = answer_to(document(gore, steps=[at_the_hem]))["pieces"]["front"]
    check_piece(told, edges={"hem": 300 + 2 * 50.8 / 8, "left": hypot(100, 800) * 850.8 / 800})
