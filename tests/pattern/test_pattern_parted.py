"""Lengthened, spread, lapped, turned: straight-sided pieces with their sums by hand, in millimetres."""

from math import asin, hypot, sin, sqrt

import pytest

from tests.makers.patterns import answer_to, check_piece, document, outline_of, piece, square
from tests.oracle import pattern
from tests.oracle.pattern_pieces import answer_to as reckon

# 200 above, 320 below, 400 high: each slanted side is √(60² + 400²), and half-way down it is 260 broad.
TRAPEZIUM = piece(
    "front",
    {(60, 0): "top", (260, 0): "right", (320, 400): "bottom", (0, 400): "left"},
    levels={"waist": [[0, 100], [320, 100]]},
)
SLANT = hypot(60, 400)
# A bodice front, its armhole of two sides: by the sum round its corners ½ · 143000 = 71500. At its level the
# waist is 201 broad, and there 140 of the dart's 150 lie above its mouth of 20.
BODICE = piece(
    "front",
    [
        ((0, 60), "neck"), ((60, 0), "shoulder"), ((160, 40), "armhole"), ((150, 130), ""),
        ((220, 200), "side"), ((200, 400), "hem"), ((0, 400), "centre"),
    ],
    levels={"bust": [[0, 200], [220, 200]], "waist": [[-10, 390], [300, 390]]},
    marks=[{"kind": "dart", "points": [[90, 400], [100, 250], [110, 400]]}],
)  # fmt: skip
REVERSED = {
    **square(),
    "nodes": [
        {"at": [0, 0], "edge": "left"},
        {"at": [0, 400], "edge": "bottom"},
        {"at": [300, 400], "edge": "right"},
        {"at": [300, 0], "edge": "top"},
    ],
}
TO_THE_RIGHT = [[0, 300], [300, 300]]


BODICE_EDGES = {
    "neck": hypot(60, 60),
    "shoulder": hypot(100, 40),
    "armhole": hypot(10, 90) + hypot(70, 70),
    "side": hypot(20, 200),
    "hem": 200,
    "centre": 340,
}
WAIST = 201 - 20 * 140 / 150


def step(word, by, **more):
    return {"step": word, "piece": "front", "by": by, **more}


def case(name, drawn, steps, **figures):
    steps = steps if isinstance(steps, list) else [steps]
    return pytest.param(document(drawn, steps=steps), figures, id=name)


def edges(**figures):
    return {"top": 300, "right": 400, "bottom": 300, "left": 400, **figures}


OPENED = 2 * asin(0.05)  # 40 at 400 from the hinge
LEGS = hypot(15, 150), hypot(5, 150)
LEGS_SINE = 20 * 150 / (LEGS[0] * LEGS[1])

CASES = [
    # 300 broad: 300 × 25.4 = 7620 more, and 25.4 at either side.
    case("a square lengthened", square(), step("lengthen", "1 in", line=TO_THE_RIGHT),
         area=127620, perimeter=1450.8, edges=edges(right=425.4, left=425.4), levels={"waist": 300}),
    case("whichever way its points run", REVERSED, step("lengthen", "1 in", line=TO_THE_RIGHT),
         area=127620, perimeter=1450.8, edges=edges(right=425.4, left=425.4), levels={"waist": 300}),
    case("or the line", square(), step("lengthen", "1 in", line=TO_THE_RIGHT[::-1]),
         area=127620, perimeter=1450.8, edges=edges(right=425.4, left=425.4), levels={"waist": 300}),
    case("by a line shorter than the piece", square(), step("lengthen", "2 cm", line=[[9, 30], [10, 30]]),
         area=126000, edges=edges(right=420, left=420), levels={"waist": 300}),
    case("through a point that was there",
         piece("front", [((0, 0), "top"), ((300, 0), "right"), ((300, 400), "bottom"), ((0, 400), "left"),
                         ((0, 300), "")]),
         step("lengthen", "1 in", line=TO_THE_RIGHT), area=127620, edges=edges(right=425.4, left=425.4)),
    case("a square shortened", square(), step("lengthen", "-1 in", line=TO_THE_RIGHT),
         area=112380, perimeter=1349.2, edges=edges(right=374.6, left=374.6), levels={"waist": 300}),
    # Upright: top, bottom and the level that is crossed get 20 each.
    case("a square broadened", square(), step("spread", "2 cm", cut=[[100, 0], [100, 400]]),
         area=128000, perimeter=1440, edges=edges(top=320, bottom=320), levels={"waist": 320}),
    case("a square narrowed", square(), step("spread", "-2 cm", cut=[[100, 0], [100, 400]]),
         area=112000, perimeter=1360, edges=edges(top=280, bottom=280), levels={"waist": 280}),
    # The cut is √(300² + 100²) = 316.228 long; parted by 20 at right angles to itself.
    case("a square on a slanted cut", square(), step("spread", "20 mm", cut=[[0, 100], [300, 200]]),
         area=120000 + 20 * sqrt(100000), perimeter=1440, edges=edges(left=420, right=420)),
    # ½ (200 + 320) × 400 = 104000. Half-way down it is 260 broad: 2600 more.
    case("a trapezium lengthened", TRAPEZIUM, step("lengthen", "1 cm", line=[[0, 200], [1, 200]]),
         area=106600, perimeter=540 + 2 * SLANT,
         edges={"top": 200, "right": SLANT + 10, "bottom": 320, "left": SLANT + 10}, levels={"waist": 230}),
    # Cut through the points at which right and left change their slant: 300 × 10 there.
    case("a hexagon through two of its points",
         piece("front", {(100, 0): "top", (200, 0): "right above", (300, 200): "right", (200, 400): "bottom",
                         (100, 400): "left", (0, 200): "left above"}),
         step("lengthen", "1 cm", line=[[0, 200], [300, 200]]), area=83000,
         perimeter=220 + 4 * hypot(100, 200), edges={"top": 100, "bottom": 100}),
    case("two cuts, the second through what the first moved", square(),
         [step("lengthen", "1 in", line=TO_THE_RIGHT), step("spread", "1 cm", cut=[[150, 0], [150, 9]])],
         area=310 * 425.4, edges={"top": 310, "right": 425.4, "bottom": 310, "left": 425.4},
         levels={"waist": 310}),
    case("lengthened and shortened again", square(),
         [step("lengthen", "1 in", line=TO_THE_RIGHT),
          step("lengthen", "-1 in", line=[[0, 325.4], [9, 325.4]])],
         area=120000, perimeter=1400, edges=edges(), levels={"waist": 300}),
    # From 300 it goes to 340 where it opens, to 320 half-way; the area grows by ½ r² sin θ.
    case("a square opened above", square(), step("turn", "4 cm", cut=[[150, 0], [150, 400]]),
         area=120000 + 400**2 / 2 * sin(OPENED), perimeter=1440, edges=edges(top=340), levels={"waist": 320}),
    case("a square opened below", square(), step("turn", "4 cm", cut=[[150, 400], [150, 0]]),
         area=120000 + 400**2 / 2 * sin(OPENED), perimeter=1440, edges=edges(bottom=340),
         levels={"waist": 320}),
    # At y = 220 it is 218 broad: 218 × 19.05 more. The waist and its dart go down with what is below.
    case("a bodice lengthened", BODICE, step("lengthen", "3/4 in", line=[[0, 220], [1, 220]]),
         area=71500 + 218 * 19.05,
         edges={**BODICE_EDGES, "side": hypot(20, 200) + 19.05, "centre": 359.05},
         levels={"bust": 220, "waist": WAIST}),
    # sin ½θ = 10 ÷ √22600, sin θ = 2 · 10 · 150 ÷ 22600. The hem loses the mouth of 20, the shoulder
    # gets one of 2 · √53000 · sin ½θ; ½ · 20 · 150 is taken from the area, ½ · 53000 · sin θ given to it.
    case("a dart moved to the middle of the shoulder", BODICE,
         {"step": "move dart", "piece": "front", "dart": 0, "to": [110, 20]},
         area=71500 - 1500 + 53000 / 2 * 3000 / 22600,
         edges={**BODICE_EDGES, "hem": 180, "shoulder": hypot(100, 40) + 20 * sqrt(53000 / 22600)},
         levels={"bust": 220, "waist": WAIST}),
    # Legs of 150.748 and 150.083 cannot meet at their feet: 0.665 of the longer is a step in the edge.
    case("a dart with legs of two lengths",
         square(marks=[{"kind": "dart", "points": [[140, 400], [155, 250], [160, 400]]}]),
         {"step": "move dart", "piece": "front", "to": [300, 250]},
         area=120000 - 20 * 150 / 2 + 145**2 / 2 * LEGS_SINE,
         edges=edges(right=400 + 2 * 145 * sin(asin(LEGS_SINE) / 2), bottom=280 + LEGS[0] - LEGS[1])),
]  # fmt: skip


@pytest.mark.parametrize(("given", "wanted"), CASES)
def test_the_figures_are_those_reckoned_by_hand(given, wanted):
    check_piece(answer_to(given)["pieces"]["front"], **wanted)


@pytest.mark.parametrize(("given", "wanted"), CASES)
def test_the_second_reckoning_agrees_with_the_hand(given, wanted):
    check_piece(pattern.figures(reckon(given))["pieces"]["front"], **wanted)


# At [0, 300] → [300, 300] what is below moves; from the right to the left, what is above.
@pytest.mark.parametrize(
    ("line", "from_y", "to_y"), [(TO_THE_RIGHT, 0, 425.4), (TO_THE_RIGHT[::-1], -25.4, 400)]
)
def test_what_lies_on_the_left_stays(line, from_y, to_y):
    told = answer_to(document(square(), steps=[step("lengthen", "1 in", line=line)]))
    heights = [y for _, y in outline_of(told["pieces"]["front"])]
    assert (min(heights), max(heights)) == (pytest.approx(from_y, abs=0.01), pytest.approx(to_y, abs=0.01))


def test_levels_and_marks_go_with_their_side():
    told = answer_to(document(BODICE, steps=[step("lengthen", "1 in", line=[[0, 240], [1, 240]])]))
    bodice = told["pieces"]["front"]
    assert [y for _, y in bodice["levels"]["bust"]] == pytest.approx([200, 200])
    assert [y for _, y in bodice["levels"]["waist"]] == pytest.approx([415.4, 415.4])
    assert bodice["marks"][0]["points"] == [
        pytest.approx(point) for point in ([90, 425.4], [100, 275.4], [110, 425.4])
    ]


def test_several_pieces_are_lengthened_at_one_height():
    """A front of 300 and a back of 260, each cut twice: 560 broad, and the waist of 2 × 560 as it was."""
    given = document(
        square(), square("back", width=260),
        steps=[{"step": "lengthen", "pieces": ["front", "back"], "line": TO_THE_RIGHT, "by": "1 in"}],
    )  # fmt: skip
    told = answer_to(given)
    check_piece(told["pieces"]["front"], area=300 * 425.4)
    check_piece(told["pieces"]["back"], area=260 * 425.4)
    assert told["girths"] == {"waist": pytest.approx(1120)}


def test_a_dart_may_be_set_short_of_its_point():
    """Its feet stay 2 · 150 · 10 ÷ √22600 apart; its point is drawn back by 12.7 along the middle."""
    marks = [{"kind": "dart", "points": [[140, 400], [150, 250], [160, 400]]}]
    step = {"step": "move dart", "piece": "front", "to": [0, 250], "short": "1/2 in"}
    told = answer_to(document(square(marks=marks), steps=[step]))["pieces"]["front"]
    a, point, b = told["marks"][0]["points"]
    assert hypot(a[0] - b[0], a[1] - b[1]) == pytest.approx(20 / sqrt(22600) * 150, abs=0.01)
    middle = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]
    to_middle = hypot(middle[0] - point[0], middle[1] - point[1])
    assert to_middle == pytest.approx(150 * sqrt(1 - 100 / 22600) - 12.7, abs=0.01)
