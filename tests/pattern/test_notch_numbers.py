"""Notches that meet in a seam bear one number, by what is drawn on the pieces."""

from catalogue.tracing.calculation.tracing import TracedShape
from fitting.pattern.calculation.grading.values import GradingJoin
from fitting.pattern.calculation.motion import enlarged, upright
from fitting.pattern.calculation.notch_numbers import notch_numbers
from fitting.pattern.calculation.seam_walk import SeamTolerance
from fitting.pattern.calculation.sleeve_walk import walk_seams
from fixtures.demo.draw.garments import day_bodice
from tests.makers.drafts import plate_to_grade
from tests.makers.traced_bodice import SEAMS
from tests.makers.working_pattern import BACK, FRONT


def numbers(shapes: list[TracedShape], joins: list[GradingJoin]) -> dict[str, tuple[int, ...]]:
    return notch_numbers(shapes, walk_seams(shapes, joins, [SeamTolerance()] * len(joins)))


def test_a_notch_has_one_number_on_both_edges_of_its_seam_and_a_lone_one_its_own():
    side = GradingJoin(one=(("front", "side"),), other=(("back", "side"),))
    assert numbers([FRONT.shape, BACK.shape], [side]) == {"front": (1,), "back": (1, 2)}


def test_without_the_seam_each_notch_has_its_own_number():
    assert numbers([FRONT.shape, BACK.shape], []) == {"front": (1,), "back": (2, 3)}


def test_the_pitch_points_of_a_sleeve_bear_the_numbers_of_its_armhole():
    """The side back is pitched at its armhole, and has the notch of the back seam besides."""
    shapes = {piece.shape.name: piece.shape for piece in plate_to_grade(day_bodice.PLATE)}
    armhole = tuple(
        (name, edge.name)
        for name, shape in shapes.items()
        for edge in shape.outline.edges()
        if edge.name.endswith("armhole")
    )
    head = tuple(
        (name, edge.name)
        for name, shape in shapes.items()
        for edge in shape.outline.edges()
        if edge.name.endswith("head")
    )
    joins = [
        GradingJoin(one=((one, edge),), other=((other, other_edge),))
        for one, edge, other, other_edge in SEAMS
        if "whole" not in edge
    ]
    found = numbers(list(shapes.values()), [*joins, GradingJoin(one=head, other=armhole)])
    assert found["side back"][1:] == found["back"]
    given = [number for of in found.values() for number in of]
    assert sorted(set(given)) == list(range(1, max(given) + 1))


def test_a_curve_keeps_its_own_handles_wherever_its_piece_is_put():
    """Twice as large its length doubles; turned it stays. By its points alone it would be straight."""
    before = FRONT.shape.edges_mm()["side"]
    assert before > 600.5
    assert abs(enlarged(FRONT.shape, 2).edges_mm()["side"] - 2 * before) < 1e-6
    assert abs(upright(FRONT.shape)[0].edges_mm()["side"] - before) < 1e-6
