"""Grading on the demo's drawn plates; every girth is read off again on chords, by shapely."""

import pytest
from shapely import LineString, Polygon

from catalogue.lengths.calculation.errors import Faults
from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import LevelLine, TracedShape
from fitting.pattern.calculation.grading.grade import grade
from fitting.pattern.calculation.grading.values import Grading, GradingJoin, PieceToGrade, WantedGirth
from fixtures.demo.draw.garments import day_bodice, jacket, petticoat, stays, waistcoat
from tests.makers.drafts import INCH_MM, plate_to_grade

ARMHOLE = tuple((piece, "armhole") for piece in ("front", "under-arm", "side back", "back"))
HEAD = (("upper sleeve", "upper head"), ("under sleeve", "under head"))
JOINS = (
    GradingJoin(one=(("front", "under-arm seam"),), other=(("under-arm", "under-arm seam"),)),
    GradingJoin(one=(("under-arm", "side seam"),), other=(("side back", "side seam"),)),
    GradingJoin(one=(("side back", "back seam"),), other=(("back", "back seam"),)),
    GradingJoin(one=(("front", "shoulder"),), other=(("back", "shoulder"),)),
    GradingJoin(one=HEAD, other=ARMHOLE),
    GradingJoin(one=(("upper sleeve", "hind arm seam"),), other=(("under sleeve", "hind arm seam"),)),
)
PLATES = {"stays": stays, "jacket": jacket, "petticoat": petticoat, "waistcoat": waistcoat, "day": day_bodice}


def girth_mm(pieces, shapes, level: str) -> float:
    """Σ times × (width − darts), by shapely on chords: nothing of the way that grading measures."""
    total = 0.0
    for piece, (shape, levels) in zip(pieces, shapes, strict=True):
        flat = Polygon([(p.real, p.imag) for p in shape.outline.flattened(0.001)])
        for line in [one for one in levels if one.line == level][:1]:
            across = LineString([(line.start.real, line.start.imag), (line.end.real, line.end.imag)])
            folded = 0.0
            for mark in shape.marks:
                legs = [LineString([(p.real, p.imag) for p in two]) for two in legs_of(mark)]
                met = [leg.intersection(across) for leg in legs]
                met = [point for point in met if not point.is_empty]
                # A level through the widest place of a dart meets all four legs, there and there alone.
                folded += max((a.distance(b) for a in met for b in met), default=0.0)
            total += piece.times(level) * (flat.intersection(across).length - folded)
    return total


def legs_of(mark) -> list[tuple[complex, complex]]:
    """Each straight leg of a dart, each fold of a pleat."""
    if mark.kind not in ("dart", "pleat"):
        return []
    return [(line[0].start, line[-1].end) for line in mark.lines]


def drawn_mm(pieces: list[PieceToGrade], level: str) -> float:
    return girth_mm(pieces, [(piece.shape, piece.levels) for piece in pieces], level)


def day_bodice_graded(**more) -> tuple[list[PieceToGrade], Grading]:
    pieces = plate_to_grade(day_bodice.PLATE)
    added = {"bust": 3, "under bust": 2.5, "waist": 2, "hip": 3, "upper arm": 1, "elbow": 0.5, "wrist": 0.25}
    girths = [
        WantedGirth(level=level, wanted_mm=drawn_mm(pieces, level) + inches * INCH_MM)
        for level, inches in added.items()
    ]
    lengths = {
        "nape to waist": 15.75 * INCH_MM,
        "front waist": 16.75 * INCH_MM,
        "sleeve": 23 * INCH_MM,
    }
    return pieces, grade(pieces, girths=girths, lengths=lengths, joins=JOINS, **more)


@pytest.mark.parametrize("plate", PLATES.values(), ids=PLATES.keys())
@pytest.mark.parametrize("inches", [3, 1.5, -2])
def test_every_girth_comes_within_half_a_millimetre_of_what_is_wanted(plate, inches):
    pieces = plate_to_grade(plate.PLATE)
    levels = {line.line for piece in pieces for line in piece.levels}
    wanted = {level: drawn_mm(pieces, level) * (1 + inches / 40) + inches for level in levels}
    graded = grade(pieces, girths=[WantedGirth(level=level, wanted_mm=mm) for level, mm in wanted.items()])
    shapes = [(one.shape, one.levels) for one in graded.pieces]
    for level, mm in wanted.items():
        assert girth_mm(pieces, shapes, level) == pytest.approx(mm, abs=0.5), level
    assert {note.where for note in graded.notes} <= {"pocket flap", "shoulder strap"}  # no level crosses them


def test_girths_and_lengths_reach_the_wearers_together_and_the_sleeve_goes_with_the_armhole():
    _, graded = day_bodice_graded()
    for line in (*graded.girths, *graded.lengths):
        assert line.off_mm == pytest.approx(0, abs=0.5), line.line
    head = next(join for join in graded.joins if join.join.one == HEAD)
    assert head.graded_difference_mm == pytest.approx(head.drawn_difference_mm, abs=0.5)
    assert head.graded_mm[1] > head.drawn_mm[1] + 10


def test_the_seams_that_met_still_meet():
    _, graded = day_bodice_graded()
    assert len(graded.joins) == len(JOINS)
    assert [join for join in graded.joins if join.is_apart] == []


def test_a_seam_that_grading_has_parted_is_listed():
    pieces = plate_to_grade(day_bodice.PLATE)
    girth = WantedGirth(level="bust", wanted_mm=drawn_mm(pieces, "bust"))
    seam, wrists = (
        GradingJoin(one=(("upper sleeve", edge),), other=(("under sleeve", other),))
        for edge, other in (("hind arm seam", "hind arm seam"), ("hind arm seam", "wrist"))
    )
    graded = grade(pieces, girths=[girth], lengths={"sleeve": 20 * INCH_MM}, joins=[seam, wrists])
    assert [join.is_apart for join in graded.joins] == [False, True]


def test_grain_stays_straight_and_in_its_direction():
    pieces, graded = day_bodice_graded()
    for before, after in zip(pieces, graded.pieces, strict=True):
        grains = [next(m.points for m in s.marks if m.kind == "grain") for s in (before.shape, after.shape)]
        (a, b), (c, d) = grains
        assert d - c == pytest.approx(b - a, abs=1e-9)


def test_no_curve_is_broken_where_none_was_broken_before():
    _, graded = day_bodice_graded()
    for piece in graded.pieces:
        sides = piece.shape.outline.sides
        for node, before, after in zip(
            piece.shape.outline.nodes, (sides[-1], *sides[:-1]), sides, strict=True
        ):
            if not node.corner:
                arriving, leaving = before.end - before.handle_b, after.handle_a - after.start
                turn = (arriving.conjugate() * leaving).imag / (abs(arriving) * abs(leaving))
                assert abs(turn) < 1e-6


def test_a_fold_stays_where_it_is_and_straight():
    pieces = plate_to_grade(day_bodice.PLATE)
    collar = next(piece for piece in pieces if piece.shape.name == "collar")
    wanted = WantedGirth(level="neck", wanted_mm=drawn_mm([collar], "neck") + 20)
    (graded,) = grade([collar], girths=[wanted]).pieces
    fold = next(edge for edge in graded.shape.outline.edges() if edge.name == "centre back")
    assert {point.real for side in fold.sides for point in (side.start, side.end)} == {
        next(mark for mark in collar.shape.marks if mark.kind == "fold").points[0].real
    }


def test_neck_shoulder_and_armhole_change_by_less_than_the_bust():
    _, graded = day_bodice_graded()
    bust = next(line for line in graded.girths if line.line == "bust")
    front = next(one for one in graded.pieces if one.shape.name == "front")
    before, after = front.edges_mm["shoulder"]
    assert 1 < after / before < bust.graded_mm / bust.drawn_mm


def test_a_plain_enlargement_is_right_at_one_level_only():
    _, graded = day_bodice_graded()
    right = [line.line for line in graded.girths if abs(line.plain_mm - line.wanted_mm) < 0.01]
    assert len(right) == 1
    assert max(abs(line.plain_mm - line.wanted_mm) for line in graded.girths) > 10


def test_what_a_grade_cannot_reach_is_refused_by_name():
    pieces = plate_to_grade(stays.PLATE)
    with pytest.raises(Faults) as refused:
        grade(
            pieces,
            girths=[
                WantedGirth(level="waist", wanted_mm=3 * drawn_mm(pieces, "waist")),
                WantedGirth(level="thigh", wanted_mm=500.0),
            ],
        )
    assert [fault.where for fault in refused.value.faults] == ["waist", "thigh"]


def test_levels_that_cannot_all_be_reached_are_named():
    """Two lines that all but coincide, one to be wider and one narrower."""
    corners = (0j, 200 + 0j, 200 + 400j, 400j)
    shape = TracedShape(name="panel", outline=Outline(nodes=tuple(Node(at=at) for at in corners)))
    levels = tuple(
        LevelLine(line=line, start=complex(-50, y), end=complex(250, y))
        for line, y in (("bust", 100), ("under bust", 101), ("waist", 300))
    )
    graded = grade(
        [PieceToGrade(shape=shape, levels=levels, round_body=1)],
        girths=[
            WantedGirth(level=level, wanted_mm=mm)
            for level, mm in (("bust", 260.0), ("under bust", 170.0), ("waist", 190.0))
        ],
    )
    assert {"bust", "under bust"} & {note.where for note in graded.notes}


def test_what_lies_beside_the_drawn_cloth_keeps_its_size():
    pieces = plate_to_grade(stays.PLATE)
    drawn = drawn_mm(pieces, "waist")
    graded = grade(pieces, girths=[WantedGirth(level="waist", wanted_mm=drawn + 80, beside_mm=50.0)])
    shapes = [(one.shape, one.levels) for one in graded.pieces]
    assert girth_mm(pieces, shapes, "waist") == pytest.approx(drawn + 30, abs=0.5)


def test_level_lines_go_with_their_piece():
    pieces, graded = day_bodice_graded()
    for before, after in zip(pieces, graded.pieces, strict=True):
        waists = [[line for line in one.levels if line.line == "waist"] for one in (before, after)]
        for one, other in zip(*waists, strict=True):
            assert other.start.imag == pytest.approx(one.start.imag)  # the waist is where all is counted from
