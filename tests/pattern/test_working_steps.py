"""Steps of a working pattern: darts cut and parted, wraps, pleats, notches, corners, collars.

The piece is a rectangle of 300 × 600 mm with a dart of 40 mm at the hem, 150 mm deep at x = 120; each sum in
words. They are geometry, no source.
"""

import math
from dataclasses import replace

import pytest

from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import Mark
from fitting.pattern.calculation.working.corners import MoveCorner, SlopeShoulder, TrueCorner
from fitting.pattern.calculation.working.cutting import cutting_line_of
from fitting.pattern.calculation.working.darts import GatherDart, MoveDart, PartDart
from fitting.pattern.calculation.working.girths import Alter, LevelShare
from fitting.pattern.calculation.working.grading import Grade
from fitting.pattern.calculation.working.joining import Cut
from fitting.pattern.calculation.working.marking import LayPleat, LineWith, MatchNotches, TurnPitch, Wrap
from fitting.pattern.calculation.working.parting import FullBust
from fitting.pattern.calculation.working.pattern import Allowance, Pattern, PatternPiece, PatternSeam
from fitting.pattern.calculation.working.sentences import said
from fitting.pattern.calculation.working.steps import STEPS, take
from fitting.pattern.exchange.pattern_steps import READERS

DART = Mark(kind="dart", points=(100 + 600j, 120 + 450j, 140 + 600j))


def piece(name="front", corners=(0, 300, 300 + 600j, 600j), **given):
    names = ("top", "side", "hem", "middle")
    nodes = tuple(Node(at=complex(at), edge=edge) for at, edge in zip(corners, names, strict=True))
    levels = {"waist": (-10 + 400j, 310 + 400j), "hip": (-10 + 525j, 310 + 525j)}
    return PatternPiece(
        name=name, outline=Outline(nodes=nodes), **{"levels": levels, "marks": (DART,), **given}
    )


def pattern(*pieces, seams=()):
    return Pattern(pieces=pieces or (piece(),), seams=seams)


def after(step, of=None):
    return take(of or pattern(), step).pattern


def test_every_step_can_be_read_from_a_file_and_said_in_a_sentence():
    assert set(READERS) == set(STEPS)
    assert said(GatherDart(piece="front", dart=0), "in").startswith("Dart 1 of front")


def test_half_a_dart_opens_elsewhere_and_half_stays():
    """The whole dart has an angle of 2·atan(20/150); half of it opens at the side, 180 mm away."""
    parted = after(PartDart(piece="front", dart=0, to=300 + 450j, share=0.5))
    angle = 2 * math.atan(20 / 150)
    old, new = (mark.points for mark in parted.piece("front").marks)
    assert abs(new[0] - new[2]) == pytest.approx(2 * 180 * math.sin(angle / 4))
    assert abs(old[0] - old[2]) == pytest.approx(2 * math.hypot(20, 150) * math.sin(angle / 4))
    assert parted.girths()["waist"] == pytest.approx(600)


def test_a_dart_that_is_not_sewn_gives_its_width_back():
    """At the hip the dart takes 40 · (525 − 450) / 150 = 20 mm of 300, on each of two pieces."""
    assert pattern().girths()["hip"] == pytest.approx(560)
    assert after(GatherDart(piece="front", dart=0)).girths()["hip"] == pytest.approx(600)


@pytest.mark.parametrize(
    "line",
    [(0 + 500j, 300 + 500j), (120 + 0j, 120 + 600j), (90 + 0j, 145 + 600j)],
    ids=["across", "along", "aslant"],
)
def test_a_piece_cut_through_a_dart_measures_what_it_did(line):
    parts = after(Cut(piece="front", along=line, names=("one", "other")))
    assert sum(one.measures.area_mm2 for one in parts.pieces) == pytest.approx(180_000)
    assert parts.girths() == pytest.approx(pattern().girths())


def test_a_wrap_is_overlap_and_never_girth():
    wrapped = after(Wrap(piece="front", edge="middle", width_mm=30.0))
    assert wrapped.piece("front").measures.levels["waist"] == pytest.approx(330)
    assert wrapped.overlap.at("waist") == pytest.approx(60)
    assert wrapped.girths() == pytest.approx(pattern().girths())


def test_a_pleat_takes_up_the_cloth_that_is_let_in_for_it():
    """20 mm deep takes 40 mm of cloth: the top is 340 mm, and the waist, folded, what it was."""
    pleated = after(LayPleat(piece="front", line=(200 + 0j, 200 + 600j), depth_mm=20.0))
    assert pleated.piece("front").measures.edges["top"] == pytest.approx(340)
    assert pleated.girths() == pytest.approx(pattern().girths())


def test_a_lining_does_not_go_round_the_body_twice():
    lined = after(LineWith(piece="front", name="front lining", cloth="lining"))
    assert [one.name for one in lined.pieces] == ["front", "front lining"]
    assert lined.girths() == pytest.approx(pattern().girths())


def test_notches_lie_as_far_from_the_same_end_on_both_edges():
    """Both sides are drawn downwards; the back's is 30 mm shorter: of 100 mm there are 100 · 600/570 here."""
    back = piece("back", corners=(0, 300, 300 + 570j, 570j), marks=())
    seams = (PatternSeam(pieces=("front", "back"), edges=("side", "side"), ease_mm=30.0),)
    step = MatchNotches(pieces=("front", "back"), edges=("side", "side"), at_mm=(100.0,))
    notched = after(step, pattern(piece(marks=()), back, seams=seams))
    [here], [there] = (one.marks for one in notched.pieces)
    assert here.points[0] == pytest.approx(300 + 100 * 600 / 570 * 1j)
    assert there.points[0] == pytest.approx(300 + 100j)
    turned = after(TurnPitch(piece="back", edge="side", by_mm=-25.0), notched)
    assert turned.piece("back").marks[0].points[0] == pytest.approx(300 + 75j)


def test_a_shoulder_squared_takes_its_armhole_along():
    """The top runs as a shoulder, the side as the armhole: both its ends rise by 12 mm, as long as it was."""
    squared = after(
        SlopeShoulder(piece="front", shoulder="top", armhole="side", by_mm=12.0), pattern(piece(marks=()))
    )
    made = squared.piece("front")
    assert made.edges["top"].end == pytest.approx(300 - 12j)
    assert made.edges["side"].length == pytest.approx(600)
    assert made.edges["side"].end == pytest.approx(300 + 588j)


def test_across_a_closed_seam_the_line_runs_on_smoothly():
    """Front and back slope by 20 and 10 mm in 300 at the hem: closed, the line turns by 30 in 300."""
    front = piece(corners=(0, 300, 300 + 600j, 620j), marks=())
    back = piece("back", corners=(0, 300, 300 + 600j, 610j), marks=())
    step = TrueCorner(pieces=("front", "back"), edges=("side", "side"), end="end", blend_mm=50.0)
    trued = after(step, pattern(front, back))
    angles = []
    for one in trued.pieces:
        hem, side = one.edges["hem"].sides[0], one.edges["side"].sides[-1]
        way = hem.handle_a - hem.start
        angles.append(
            math.acos(
                ((side.start - side.end) * way.conjugate()).real / abs(side.end - side.start) / abs(way)
            )
        )
    assert sum(angles) == pytest.approx(math.pi, abs=1e-6)


def test_an_allowance_is_mirrored_where_a_seam_asks_for_it():
    """A side that leans in by 50 in 300 mm: pressed open, its allowance of 20 mm meets the hem's line of 40.

    Mitred, the corner at the hem goes straight on; mirrored it leans back out by as much: outside the seam
    line it reaches below the hem's own cutting line, at twice the side's slope.
    """
    nodes = (0j, 200 + 0j, 150 + 300j, 300j)
    leaning = piece(corners=nodes, marks=(), allowance=Allowance(usual_mm=20.0, by_edge={"hem": 40.0}))
    plain = pattern(leaning)
    seam = PatternSeam(pieces=("front", "front"), edges=("side", "side"), mirrored_corners=True)
    mitred, mirrored = (cutting_line_of(one, leaning) for one in (plain, replace(plain, seams=(seam,))))
    assert mitred.bounds[3] == pytest.approx(340)
    assert mirrored.bounds[3] == pytest.approx(340 + 20 * math.sin(2 * math.atan(1 / 6)), abs=0.1)


def test_the_waist_gives_at_the_point_where_bodice_and_skirt_meet():
    """The level runs through the point where two edges meet: the upper one alone moves it there."""
    corners = ((0, "top"), (300, "side"), (300 + 400j, "skirt side"), (330 + 600j, "hem"), (600j, "middle"))
    outline = Outline(nodes=tuple(Node(at=complex(at), edge=edge) for at, edge in corners))
    bodice = replace(piece(marks=()), outline=outline)
    step = Alter(changes_mm={"waist": 20.0}, seams=(LevelShare(piece="front", edge="side", share=1.0),))
    altered = after(step, pattern(bodice))
    assert altered.girths()["waist"] == pytest.approx(620)
    assert altered.piece("front").edges["skirt side"].start == pytest.approx(310 + 400j)


def test_a_collar_is_parted_at_one_place_where_its_neck_grows():
    """The top of the front is its neck: 40 mm more on each of the two widen the collar alike."""
    collar = PatternPiece(
        name="collar",
        outline=Outline(
            nodes=tuple(
                Node(at=complex(at), edge=edge)
                for at, edge in ((0, "neck"), (300, "end"), (300 + 50j, "outer"), (50j, "fold"))
            )
        ),
    )
    seams = (PatternSeam(pieces=("front", "collar"), edges=("top", "neck"), ease_mm=0.0),)
    wanted = {level: mm + 80 for level, mm in pattern(piece(marks=())).girths().items()}
    shares = (LevelShare(piece="front", edge="side", share=1.0),)
    step = Grade(girths_mm=wanted, lengths_mm={}, seams=shares)
    graded = after(step, pattern(piece(marks=()), collar, seams=seams))
    made = graded.piece("collar").measures
    assert made.edges["neck"] == pytest.approx(340, abs=0.01)
    assert made.edges["outer"] == pytest.approx(340, abs=0.01)
    assert made.area_mm2 == pytest.approx(340 * 50, abs=1)


def test_a_full_bust_is_given_its_width_at_the_bust_point_and_a_dart_below():
    """Opened by 30 mm halfway from hinge to hem, and so by 60 mm at the hem: the mouth of the dart.

    The chords about a hinge go with their distance from it: 30 · 600/300 = 60.
    """
    given = after(
        FullBust(piece="front", cut=(200 + 600j, 200 + 0j), point=200 + 300j, by_mm=30.0),
        pattern(piece(marks=())),
    )
    [dart] = given.piece("front").marks
    assert abs(dart.points[0] - dart.points[2]) == pytest.approx(60)
    assert abs(dart.points[1] - (200 + 0j)) == pytest.approx(300)
    assert given.piece("front").measures.edges["hem"] == pytest.approx(360)


def test_the_corner_of_two_edges_moves_and_both_follow():
    """The fork, say: where side and hem meet, 20 mm out and 5 down. Levels across the side stay."""
    moved = after(
        MoveCorner(piece="front", edges=("side", "hem"), across_mm=20.0, down_mm=5.0),
        pattern(piece(marks=())),
    )
    assert moved.piece("front").edges["hem"].start == pytest.approx(320 + 605j)
    assert moved.girths() == pytest.approx(pattern(piece(marks=())).girths())


def test_a_dart_on_a_seam_is_sewn_before_the_seam_is():
    """The dart moved to the side opens it by 48 mm: the edge is longer, and the seam meets as it did."""
    back = piece("back", marks=())
    seams = (PatternSeam(pieces=("front", "back"), edges=("side", "side"), ease_mm=0.0),)
    moved = take(pattern(piece(), back, seams=seams), MoveDart(piece="front", dart=0, to=300 + 450j))
    assert moved.broke == ()
    assert moved.pattern.piece("front").measures.edges["side"] > 640
    assert moved.pattern.off_mm(seams[0]) == pytest.approx(0, abs=1e-6)


def test_a_level_along_the_edge_on_which_it_lies_measures_that_edge():
    """A waist drawn on the waist edge: 300 mm, upright or with the whole piece turned by 20 degrees."""
    level = {"waist": (600j, 300 + 600j)}
    turn = complex(math.cos(math.radians(20)), math.sin(math.radians(20)))
    upright = piece(marks=(), levels=level)
    for one in (upright, upright.moved(lambda at: at * turn)):
        assert one.measures.levels["waist"] == pytest.approx(300, abs=0.01)
    step = Alter(changes_mm={"waist": 20.0}, seams=(LevelShare(piece="front", edge="side", share=1.0),))
    altered = after(step, pattern(upright))
    assert altered.piece("front").measures.edges["hem"] == pytest.approx(310, abs=0.01)


def test_a_notch_moves_along_an_edge_that_runs_on_past_the_first_point():
    """The hem starts at the last point and runs on through the first; its notch goes from 200 to 250 mm."""
    corners = ((150 + 600j, ""), (600j, "middle"), (0, "top"), (300, "side"), (300 + 600j, "hem"))
    outline = Outline(nodes=tuple(Node(at=complex(at), edge=edge) for at, edge in corners))
    notch = Mark(kind="notch", points=(100 + 600j,))
    turned = after(
        TurnPitch(piece="front", edge="hem", by_mm=50.0),
        pattern(replace(piece(marks=(notch,)), outline=outline)),
    )
    assert turned.piece("front").marks[0].points[0] == pytest.approx(50 + 600j)
