"""A working pattern out as SVG and DXF, and in again as it was."""

import io
from dataclasses import replace

import ezdxf
import pytest

from catalogue.lengths.calculation.errors import Faults
from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import Mark
from catalogue.tracing.showing.dxf import PROGRAM, dxf_of
from catalogue.tracing.showing.svg import svg_of
from fitting.pattern.calculation.working.pattern import Allowance, Pattern, PatternFastening, PatternPiece
from fitting.pattern.exchange.pattern_svg import pattern_of_svg
from fitting.pattern.showing.pattern_outlines import drawing_of_pattern
from tests.makers.working_pattern import BACK, FRONT, PATTERN, SIDE_SEAM

WHOLE = replace(
    PATTERN,
    seams=(replace(SIDE_SEAM, mirrored_corners=True),),
    overlap=PatternFastening(usual_mm=12.7, by_level={"waist": 25.4}),
    of_one_limb=frozenset({"upper arm"}),
)


def again(pattern: Pattern) -> Pattern:
    return pattern_of_svg(svg_of(drawing_of_pattern(pattern), "A bodice")).pattern


def test_what_goes_out_comes_in_as_it_was():
    """Curves to a millionth of a millimetre; edges, levels, marks, allowances and seams the same."""
    found = again(WHOLE)
    assert [piece.name for piece in found.pieces] == ["front", "back"]
    for before, after in zip(WHOLE.pieces, found.pieces, strict=True):
        assert list(after.edges) == list(before.edges)
        for here, there in zip(before.outline.sides, after.outline.sides, strict=True):
            for name in ("start", "handle_a", "handle_b", "end"):
                assert abs(getattr(here, name) - getattr(there, name)) < 1e-6
        assert [node.corner for node in after.outline.nodes] == [node.corner for node in before.outline.nodes]
        assert after.levels.keys() == before.levels.keys()
        for level, path in before.levels.items():
            assert max(abs(a - b) for a, b in zip(path, after.levels[level], strict=True)) < 1e-6
        assert [(mark.kind, mark.count) for mark in after.marks] == [
            (mark.kind, mark.count) for mark in before.marks
        ]
        kept = ("cut", "mirrored", "on_fold", "cloth", "allowance", "is_box")
        assert [getattr(after, name) for name in kept] == [getattr(before, name) for name in kept]
        assert after.measures.edges["side"] == pytest.approx(before.measures.edges["side"], abs=1e-6)
    assert (found.seams, found.overlap, found.of_one_limb) == (WHOLE.seams, WHOLE.overlap, WHOLE.of_one_limb)


def test_it_goes_out_and_in_again_without_end():
    twice = again(again(WHOLE))
    assert twice.girths() == pytest.approx(WHOLE.girths(), abs=1e-5)


def test_pieces_that_lie_on_each_other_are_drawn_apart_and_lie_so_again():
    facing = replace(FRONT, name="facing")
    drawn = drawing_of_pattern(Pattern(pieces=(FRONT, facing)))
    first, second = drawn.pieces
    assert second.moved.real - first.moved.real > 300
    assert again(Pattern(pieces=(FRONT, facing))).piece("facing").outline.nodes[1].at == pytest.approx(300)


def test_a_dart_with_straight_legs_keeps_them_and_a_level_that_was_parted_its_points():
    dart = Mark(
        kind="dart", points=(100 + 600j, 110 + 500j, 120 + 450j, 130 + 500j, 140 + 600j), is_straight=True
    )
    piece = replace(FRONT, marks=(dart,), levels={"waist": (0 + 400j, 100 + 400j, 100 + 425j, 312 + 425j)})
    found = again(Pattern(pieces=(piece,))).piece("front")
    assert found.marks[0].is_straight
    assert len(found.levels["waist"]) == 4


def test_the_drawing_of_another_program_becomes_pieces_of_its_closed_lines():
    """300 by 600 mm and a curve; two are cut, one of them mirrored, as nothing else is said."""
    drawn = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="700mm" viewBox="0 0 400 700">'
        '<path id="panel" d="M0 0H300C320 200 320 400 300 600H0Z"/></svg>'
    )
    read = pattern_of_svg(drawn)
    (piece,) = read.pattern.pieces
    assert (piece.name, piece.cut, piece.mirrored, read.is_whole) == ("panel", 2, True, False)
    assert piece.outline.sides[1].handle_a == 320 + 200j
    # 300 × 600, and beneath the curve the integral of 60 t (1 − t) over 600 t: 600 × 60 ÷ 6.
    assert piece.measures.area_mm2 == pytest.approx(180_000 + 6_000)


@pytest.mark.parametrize(
    ("points", "sentence"),
    [(5000, "at most 600 points"), (7000, "more than 6,000 sides")],
)
def test_an_outline_of_thousands_of_points_is_refused_in_a_sentence(points, sentence):
    ring = "L".join(f"{at % 70} {at}" for at in range(points))
    head = '<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9">'
    drawn = f'{head}<path d="M{ring}Z"/></svg>'
    with pytest.raises(Faults, match=sentence):
        pattern_of_svg(drawn)


def test_two_pieces_of_one_name_and_torn_words_are_refused():
    twice = svg_of(drawing_of_pattern(WHOLE), "").replace('data-piece="back"', 'data-piece="front"')
    with pytest.raises(Faults, match="Two pieces"):
        pattern_of_svg(twice)
    torn = svg_of(drawing_of_pattern(WHOLE), "").replace('data-kept="{', 'data-kept="', 1)
    with pytest.raises(Faults, match="could not be read"):
        pattern_of_svg(torn)


def test_the_dxf_has_a_layer_for_each_thing_and_keeps_the_count_of_a_pleat():
    document = ezdxf.read(io.StringIO(dxf_of(drawing_of_pattern(PATTERN))))
    assert not document.audit().has_errors
    space = document.modelspace()
    drawn = {entity.dxf.layer for entity in space}
    assert {
        "piece front",
        "piece back",
        "cutting lines",
        "levels",
        "notches",
        "pleats",
        "grain lines",
    } <= drawn
    folds = [line for line in space.query("LINE") if line.dxf.layer == "pleats"]
    assert [line.get_xdata(PROGRAM)[1].value for line in folds] == [3, 3]
    assert "3 pleats" in [words.dxf.text for words in space.query("TEXT")]
    (curve,) = [side for side in space.query("SPLINE") if side.dxf.layer == "piece front"]
    first, handle, *_ = curve.control_points
    assert (handle[0] - first[0], handle[1] - first[1]) == pytest.approx((20, -200))


def test_the_cutting_line_goes_out_and_is_no_piece_when_it_comes_in():
    box = PatternPiece(
        name="band",
        outline=Outline(nodes=tuple(Node(at=at) for at in (0j, 100 + 0j, 100 + 50j, 50j))),
        allowance=Allowance(usual_mm=10),
    )
    drawn = svg_of(drawing_of_pattern(Pattern(pieces=(box, BACK))), "")
    assert drawn.count('data-cutting="yes"') == 1
    assert len(pattern_of_svg(drawn).pattern.pieces) == 2
