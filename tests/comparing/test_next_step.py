"""The next step is the first thing that would change what is recommended, else the first act of that."""

from dataclasses import replace

import pytest

from fitting.comparing.calculation.assessment import assess
from fitting.comparing.calculation.case import Patterns, SeamCount
from fitting.comparing.calculation.next_step import StepKind
from fitting.comparing.calculation.routes import Route, SkillLevel
from fitting.outfits.calculation.garment import Fit, Purpose
from fitting.wearers.calculation.body import Body, BodyMeasure
from tests.makers.cases import ALL_SKILLS, inches, make_case, make_piece, make_plate, make_reading, off_by


def step(case):
    return assess(case).next_step


def test_what_is_settled_is_begun():
    assert assess(off_by(0)).recommended is Route.AS_DRAWN
    assert step(off_by(0)).sentence == "Enlarge the plate and print it at full size."
    assert step(off_by(-1, skills=ALL_SKILLS)).sentence == "Plan the alteration."
    assert step(off_by(-3.5, skills=ALL_SKILLS)).sentence == "Grade it to the wearer."


@pytest.mark.parametrize(
    ("purpose", "kind"), [(Purpose.THIS_GARMENT, StepKind.ALLOWANCE), (Purpose.STUDY, StepKind.ACT)]
)
def test_an_allowance_that_is_not_known_comes_first(purpose, kind):
    case = make_case(make_plate(allowance_mm=None), seams=SeamCount(recorded=1, unknown=1), purpose=purpose)
    assert step(case).kind is kind


def test_with_nothing_to_compare_something_is_to_be_read():
    assert step(make_case(hip_in=36)).kind is StepKind.READ


def test_a_skill_not_asked_yet_is_asked_where_the_answer_rests_on_it():
    """Off by 1 in, altering is the way, unless the maker cannot; fitting as drawn asks for no skill."""
    said = step(off_by(-1))
    assert (said.kind, said.skill) == (StepKind.SKILL, "alter")
    assert said.sentence == "Say how well you can enlarge and alter: the answer rests on it."
    assert step(off_by(-1, skills={"alter": SkillLevel.WORKING})).kind is StepKind.ACT
    assert step(off_by(-3.5)).skill == "grade"
    assert step(off_by(-3.5, skills={"grade": SkillLevel.NONE})).kind is StepKind.ACT
    assert step(off_by(0)).kind is StepKind.ACT


def test_unknown_seams_are_tried_in_miniature():
    assert step(off_by(0, seams=SeamCount(recorded=1, unknown=1))).kind is StepKind.MINIATURE


def test_a_miniature_that_would_change_nothing_is_not_asked_for():
    # Far too small: all three enlargements are out for that too.
    case = off_by(-20, seams=SeamCount(recorded=1, unknown=1))
    assert step(case).kind is StepKind.ACT


def test_stale_measures_are_taken_again():
    case = off_by(0)
    stale = replace(case, body=replace(case.body, stale="stays changed since"))
    assert step(stale).sentence == "Measure the wearer again: stays changed since."
    assert step(replace(stale, purpose=Purpose.STUDY)).kind is StepKind.ACT


def waist(*, difference_in: float, reading_doubt: bool, doubt_in: float):
    """A waist whose doubt is the measure's, and with `reading_doubt` the rule's too (0.41 in)."""
    case = off_by(difference_in, skills=ALL_SKILLS)
    measure = replace(case.body.girths["waist"], doubt_mm=inches(doubt_in))
    division_mm = inches(1 / 16) if reading_doubt else case.plate.rule_division_mm
    return replace(
        case,
        body=replace(case.body, girths={"waist": measure}),
        plate=replace(case.plate, rule_division_mm=division_mm),
    )


def test_a_finer_rule_is_asked_for_where_another_way_would_be_recommended():
    # 2.85 in too small, 3 in can be added. The rule's 2·8·(1/16)/√6 = 0.408 in and the measure's 0.1:
    # u = 0.420, altering Φ(0.15/0.420) = 0.64, so it counts against and grading is open. Read to 1/32 in
    # u = 0.227: Φ(0.15/0.227) = 0.745, still short; measured to 0.05 in u = 0.210: Φ(0.714) = 0.762.
    assert step(waist(difference_in=-2.85, reading_doubt=True, doubt_in=0.1)).kind is not StepKind.FINER_RULE
    found = step(waist(difference_in=-2.85, reading_doubt=True, doubt_in=0.05))
    assert found.sentence == "Read waist again with a finer rule, to 1/32 in: it would decide more."


def test_a_toile_tells_where_the_plate_cannot():
    # Likeliest it fits; 2·Φ(0.5/0.6) − 1 = 0.595.
    assert (
        step(waist(difference_in=0, reading_doubt=False, doubt_in=0.6)).sentence
        == "Make a toile: it will tell at waist."
    )


def test_a_toile_names_every_level_that_is_not_settled():
    plate = make_plate(make_piece(waist=2, bust=2))
    case = make_case(plate, waist_in=32, bust_in=32)
    assert step(case).sentence == "Make a toile: it will tell at waist and bust."


def test_nobody_gets_into_a_toile_that_is_too_small():
    """Three girths 4 and 5 in too small, and a nape to waist that is not settled."""
    plate = make_plate(make_piece(bust=2, waist=2, hip=2), lengths={"nape to waist": (make_reading(1.875),)})
    girths = {"bust": 36, "waist": 37, "hip": 36.5}
    body = Body(
        girths={line: BodyMeasure(mm=inches(girth)) for line, girth in girths.items()},
        lengths={"nape to waist": BodyMeasure(mm=inches(15.25), doubt_mm=inches(1 / 4))},
    )
    found = assess(make_case(plate, body=body, skills=ALL_SKILLS))
    assert found.lengths[0].verdict == "within altering"
    assert [line.verdict for line in found.levels] == ["too small"] * 3
    assert found.next_step.kind is StepKind.ACT


def test_a_loose_girth_that_is_too_small_keeps_one_out_of_a_toile_too():
    case = make_case(make_plate(make_piece(waist=2, hip=2)), waist_in=32, hip_in=40)
    assert step(replace(case, fit={"hip": Fit.LOOSE})).kind is StepKind.ACT


@pytest.mark.parametrize(
    ("patterns", "sentence"),
    [
        (Patterns.NONE, "Find a sized pattern near the wearer's measures."),
        (Patterns.WITHOUT_PARTS, "Measure the pattern in hand against the wearer."),
    ],
)
def test_a_sized_pattern_must_be_in_hand_before_it_is_adapted(patterns, sentence):
    assert step(off_by(-20, patterns_in_hand=patterns)).sentence == sentence
