"""How far each height of a piece is shifted, by hand: panels 200 wide, 500 high, waist 300 from the top."""

import pytest

from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import LevelLine, Mark, TracedShape
from fitting.pattern.calculation.grading.frame import Frame
from fitting.pattern.calculation.grading.heights import Heights
from fitting.pattern.calculation.grading.values import PieceToGrade

CORNERS = (0j, 200 + 0j, 200 + 500j, 500j)
WAIST, BUST = 300, 100


def panel(length: str, *, top: float, foot: float) -> Frame:
    """With a length drawn down its middle, and a level line at bust and waist."""
    levels = tuple(
        LevelLine(line=line, start=complex(-10, y), end=complex(210, y))
        for line, y in (("bust", BUST), ("waist", WAIST))
    )
    drawn = Mark(kind="length", line=length, points=(complex(100, top), complex(100, foot)))
    outline = Outline(nodes=tuple(Node(at=at) for at in CORNERS))
    shape = TracedShape(name=length, outline=outline, marks=(drawn,))
    return Frame.of(PieceToGrade(shape=shape, levels=levels))


def shifts(frames: list[Frame], **wanted_mm: float) -> list[dict[int, float]]:
    """Of each panel, how far its top, the bust, the waist and its foot go down for lengths so much longer."""
    lengths = {name.replace("_", " "): mm for name, mm in wanted_mm.items()}
    heights = Heights.of(dict(enumerate(frames)), is_limb=False, wanted=lengths)
    heights = heights.adding([lengths[one.line] for one in heights.lengths])
    amounts = [heights.shift_of(index) for index in range(len(frames))]
    return [{y: amount(y) for y in (0, BUST, WAIST, 500)} for amount in amounts]


def test_two_panels_stay_alike_up_to_the_bust_and_take_what_is_their_own_above_it():
    # Lengths of 300 and 280 above the waist get 30 and 10: together 40 on 580. The bust, 200 above the waist,
    # goes up by 200 × 40 ÷ 580 = 13.79 on both; the tops of the lengths by 30 and by 10.
    front, back = panel("front waist", top=0, foot=WAIST), panel("nape to waist", top=20, foot=WAIST)
    of_front, of_back = shifts([front, back], front_waist=30, nape_to_waist=10)
    assert of_front[BUST] == of_back[BUST] == pytest.approx(-8000 / 580)
    assert of_front[0] == pytest.approx(-30)
    assert of_back[0] == pytest.approx(-10)
    assert of_front[WAIST] == of_back[WAIST] == 0


def test_a_length_from_above_the_waist_to_below_it_grows_in_proportion():
    # 500 get 50 more, a tenth: the 300 above the waist 30 of them, the 200 below 20.
    (panel_shifts,) = shifts([panel("nape to hem", top=0, foot=500)], nape_to_hem=50)
    assert panel_shifts == {
        0: pytest.approx(-30),
        BUST: pytest.approx(-20),
        WAIST: pytest.approx(0),
        500: pytest.approx(20),
    }


def test_a_length_below_the_waist_leaves_what_is_above_it():
    # Waist to hem, 200, is 40 longer.
    (panel_shifts,) = shifts([panel("waist to hem", top=WAIST, foot=500)], waist_to_hem=40)
    assert panel_shifts == {0: 0, BUST: 0, WAIST: 0, 500: pytest.approx(40)}
