"""Added to, cut, joined, mirrored, unfolded, faced: straight sides, reckoned by hand in millimetres."""

from math import hypot, sqrt

import pytest

from tests.makers.patterns import answer_to, check_piece, document, piece, square
from tests.oracle import pattern
from tests.oracle.pattern_pieces import answer_to as reckon

# Its right side leans out by 3 in 4: 300 above, 600 below, 400 high; 500 along the side.
LEANING = piece(
    "front",
    {(0, 0): "top", (300, 0): "right", (600, 400): "bottom", (0, 400): "left"},
    levels={"waist": [[0, 200], [450, 200]]},
)
# Half a back, its fold on the left; by the sum round its corners ½ · 160000. At y = 200 the side stands at
# 200 + 20 · 160 ÷ 360.
HALF = piece(
    "back",
    {(0, 30): "neck", (80, 0): "shoulder", (200, 40): "side", (220, 400): "hem", (0, 400): "fold"},
    levels={"waist": [[0, 200], [230, 200]]},
    marks=[{"kind": "dart", "points": [[90, 400], [100, 300], [110, 400]]}],
)
SIDES = {"pieces": ["front", "back"], "edges": ["right", "left"]}
DOWN, UP = [[100, 0], [100, 400]], [[100, 9], [100, 0]]


def edges(**figures):
    return {"top": 300, "right": 400, "bottom": 300, "left": 400, **figures}


def case(name, *pieces, steps, **figures):
    return pytest.param(document(*pieces, steps=steps), figures, id=name)


def of_front(word, **more):
    return {"step": word, "piece": "front", **more}


CASES = [
    case("an inch added at the right", square(), steps=[of_front("add", edge="right", by="1 in")],
         front={"area": 325.4 * 400, "edges": edges(top=325.4, bottom=325.4), "levels": {"waist": 325.4}}),
    case("an inch taken off at the right", square(), steps=[of_front("add", edge="right", by="-1 in")],
         front={"area": 274.6 * 400, "edges": edges(top=274.6, bottom=274.6), "levels": {"waist": 274.6}}),
    # 40 at right angles to a side that leans by 3 in 4 is 40 · 5 ÷ 4 = 50 across, above and below.
    case("added at a side that leans", LEANING, steps=[of_front("add", edge="right", by="4 cm")],
         front={"area": 500 * 400, "perimeter": 350 + 650 + 500 + 400, "levels": {"waist": 500},
                "edges": {"top": 350, "right": 500, "bottom": 650, "left": 400}}),
    # 20 down at the hem: the leaning side runs on by 25, the hem by 15 to 615.
    case("added at the hem below it", LEANING, steps=[of_front("add", edge="bottom", by="2 cm")],
         front={"area": 180000 + 20 * (600 + 615) / 2, "levels": {"waist": 450},
                "edges": {"top": 300, "right": 525, "bottom": 615, "left": 420}}),
    case("a seam moved from one to another", square(), square("back", width=260),
         steps=[{"step": "move seam", **SIDES, "by": "1/2 in"}],
         front={"area": 312.7 * 400, "levels": {"waist": 312.7}},
         back={"area": 247.3 * 400, "levels": {"waist": 247.3}}),
    case("and back, by a minus", square(), square("back", width=260),
         steps=[{"step": "move seam", **SIDES, "by": "-1/2 in"}],
         front={"area": 287.3 * 400, "levels": {"waist": 287.3}},
         back={"area": 272.7 * 400, "levels": {"waist": 272.7}}),
    # Who goes down the page has x > 100 on the left hand.
    case("cut from above", square(), steps=[of_front("cut", along=DOWN, names=["l", "r"])],
         l={"area": 80000, "edges": {"top": 200, "right": 400, "bottom": 200, "cut": 400},
            "levels": {"waist": 200}},
         r={"area": 40000, "edges": {"top": 100, "cut": 400, "bottom": 100, "left": 400},
            "levels": {"waist": 100}}),
    case("cut from below", square(), steps=[of_front("cut", along=UP, names=["l", "r"])],
         l={"area": 40000, "levels": {"waist": 100}}, r={"area": 80000, "levels": {"waist": 200}}),
    # From (0, 100) to (300, 200): above it stays ½ (100 + 200) × 300.
    case("cut aslant", square(levels={"waist": [[0, 250], [300, 250]]}),
         steps=[of_front("cut", along=[[0, 100], [300, 200]], names=["upper", "lower"])],
         upper={"area": 45000, "edges": {"top": 300, "right": 200, "cut": sqrt(100000), "left": 100}},
         lower={"area": 75000, "edges": {"right": 200, "bottom": 300, "left": 300, "cut": sqrt(100000)},
                "levels": {"waist": 300}}),
    case("cut corner to corner", square(),
         steps=[of_front("cut", along=[[0, 0], [300, 400]], names=["l", "r"])],
         l={"area": 60000, "perimeter": 1200, "edges": {"top": 300, "right": 400, "cut": 500}},
         r={"area": 60000, "perimeter": 1200, "edges": {"bottom": 300, "left": 400, "cut": 500}}),
    case("cut and joined again", LEANING,
         steps=[of_front("cut", along=DOWN, names=["l", "r"]),
                {"step": "join", "pieces": ["r", "l"], "edges": ["cut", "cut"], "name": "front"}],
         front={"area": 180000, "perimeter": 1800, "levels": {"waist": 450},
                "edges": {"top": 300, "right": 500, "bottom": 600, "left": 400}}),
    # 300 and 260 broad, 400 high: top and bottom of either meet and are one.
    case("two joined", square(), square("back", width=260),
         steps=[{"step": "join", **SIDES, "name": "whole"}],
         whole={"area": 560 * 400, "perimeter": 1920, "levels": {"waist": 560},
                "edges": {"top": 560, "right": 400, "bottom": 560, "left": 400}}),
    case("mirrored", LEANING, steps=[of_front("mirror")],
         front={"area": 180000, "edges": {"top": 300, "right": 500, "bottom": 600, "left": 400},
                "levels": {"waist": 450}}),
    case("copied", LEANING, steps=[of_front("copy", name="lining"), of_front("add", edge="right", by="4 cm")],
         front={"area": 200000}, lining={"area": 180000, "levels": {"waist": 450}}),
    case("made apart", square(), steps=[of_front("sides", names=["near", "off"])],
         near={"area": 120000, "levels": {"waist": 300}}, off={"area": 120000, "levels": {"waist": 300}}),
    case("unfolded", HALF, steps=[{"step": "unfold", "piece": "back", "edge": "fold"}],
         back={"area": 160000, "levels": {"waist": 2 * (200 + 20 * 160 / 360)},
               "edges": {"neck": 2 * hypot(80, 30), "shoulder": hypot(120, 40), "shoulder 2": hypot(120, 40),
                         "side": hypot(20, 360), "side 2": hypot(20, 360), "hem": 440}}),
    # 50 within the top, as broad as it: the left side is upright, the right leans out by 37.5.
    case("faced along its top", LEANING,
         steps=[of_front("facing", edges=["top"], width="5 cm", name="facing")],
         front={"area": 180000}, facing={"area": 50 * (300 + 337.5) / 2}),
    # Round the corner: 300 · 50 and, below it, 350 · 50.
    case("faced round a corner", square(),
         steps=[of_front("facing", edges=["top", "right"], width="5 cm", name="facing")],
         facing={"area": 15000 + 17500}),
    case("a band to its top", LEANING, steps=[of_front("band", edges=["top"], height="3 cm", name="band")],
         band={"area": 9000, "perimeter": 660}),
]  # fmt: skip


@pytest.mark.parametrize(("given", "wanted"), CASES)
def test_the_figures_are_those_reckoned_by_hand(given, wanted):
    told = answer_to(given)["pieces"]
    for name, figures in wanted.items():
        check_piece(told[name], **figures)


@pytest.mark.parametrize(("given", "wanted"), CASES)
def test_the_second_reckoning_agrees_with_the_hand(given, wanted):
    told = pattern.figures(reckon(given))["pieces"]
    for name, figures in wanted.items():
        check_piece(told[name], **figures)
