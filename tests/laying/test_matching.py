"""Where a traced piece is matched to a repeat, and what no lay can match."""

import pytest

from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import LevelLine, Mark, TracedShape
from fitting.laying.calculation.lines import lines_of
from fitting.laying.loading.matching import LOWEST, cannot_match, match_of
from fitting.pattern.calculation.sheets.sheet import Allowances

WAIST = (LevelLine(line="waist", start=-50 + 300j, end=400 + 300j),)
HALF_INCH = Allowances(usual_mm=12.7, by_edge={})


def make_shape(name: str = "front", *, foot: float = 200, marks=(), **edges) -> TracedShape:
    """400 long, 200 wide at the top, on the page with y downwards; its edges begin at its corners."""
    named = {"top": "neck", "right": "side seam", "hem": "hem", "left": "centre front"} | edges
    corners = zip((0, 200, foot + 400j, 400j), named.values(), strict=True)
    nodes = tuple(Node(at=complex(at), edge=edge) for at, edge in corners)
    return TracedShape(name=name, outline=Outline(nodes=nodes), marks=tuple(marks))


def test_a_piece_is_matched_at_the_waist_of_its_centre_where_it_has_one():
    match = match_of(make_shape(), WAIST)
    assert match.at == pytest.approx(300j)
    assert match.said == "the waist, at its centre"


def test_else_at_the_waist_of_a_seam_else_at_a_notch_of_the_hem_else_at_its_lowest():
    sleeve = {"top": "head", "left": "fore arm", "right": "hind arm"}
    notch = Mark(kind="notch", points=(80 + 400j,))
    assert match_of(make_shape(**sleeve), WAIST).said == "the waist"
    at_hem = match_of(make_shape(**sleeve, marks=(notch,)), ())
    assert (at_hem.at, at_hem.said) == (80 + 400j, "a notch of its hem")
    assert match_of(make_shape(**sleeve), ()) == LOWEST


@pytest.mark.parametrize("half", [False, True])
def test_the_matching_point_lies_on_the_stitching_line_of_what_is_laid(half):
    # 300 below the neck of 400 is 100 above the hem, once y runs along the cloth; the fold lies at x = 0, or
    # in the middle of the opened piece.
    fold = Mark(kind="fold", points=(0j, 400j))
    shape = make_shape(marks=(fold,))
    lines = lines_of(
        shape, allowances=HALF_INCH, turn_deg=0, is_on_fold=True, half=half, match=match_of(shape, WAIST).at
    )
    assert lines.match == pytest.approx((0 if half else 200, 100), abs=0.01)
    assert max(x for x, _ in lines.outline) == pytest.approx(200 if half else 400, abs=0.2)


def test_a_piece_laid_whole_keeps_its_matching_point():
    shape = make_shape()
    lines = lines_of(
        shape, allowances=HALF_INCH, turn_deg=0, is_on_fold=False, half=False, match=match_of(shape, WAIST).at
    )
    assert lines.match == pytest.approx((0, 100), abs=0.01)


def test_armholes_darts_and_seams_of_unlike_slant_are_named():
    # The front's side is upright; the back's leans out 40 of 400, 5.7 degrees.
    dart = Mark(kind="dart", points=(50 + 400j, 60 + 300j, 70 + 400j))
    front, back = make_shape(top="armhole", marks=(dart,)), make_shape("back", foot=240, left="centre back")
    seams = [(("front", "side seam"), ("back", edge)) for edge in ("side seam", "centre back")]
    assert list(cannot_match((front, back), seams)) == [
        "armhole, its darts of front",
        "neck of back",
        "side seam of front and back, of unlike slant",
    ]
