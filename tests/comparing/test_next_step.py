"""The next step is the first thing that would change something."""

from dataclasses import replace

from fitting.comparing.calculation.assessment import assess
from fitting.comparing.calculation.case import SeamCount
from fitting.comparing.calculation.routes import Purpose
from tests.makers.cases import inches, make_case, make_piece, make_plate, off_by


def step(case):
    return assess(case).next_step


def test_what_is_settled_needs_nothing():
    assert step(off_by(0)) is None


def test_an_allowance_that_is_not_known_comes_first():
    case = make_case(make_plate(allowance_mm=None), seams=SeamCount(recorded=1, unknown=1))
    assert step(case).startswith("Settle whether the plate includes seam allowance")


def test_an_allowance_that_would_change_nothing_is_not_asked_for():
    # Studied only, and 20 in too small either way.
    case = off_by(-20, purpose=Purpose.STUDY)
    assert step(replace(case, plate=replace(case.plate, allowance_mm=None))) is None


def test_with_nothing_to_compare_something_is_to_be_read():
    assert step(make_case(hip_in=36)).startswith("Read a level on the plate that is also measured")


def test_unknown_seams_are_tried_in_miniature():
    assert step(off_by(0, seams=SeamCount(recorded=1, unknown=1))).startswith("Make a miniature")


def test_a_miniature_that_would_change_nothing_is_not_asked_for():
    # Far too small: all three enlargements are out for that too, or for want of the skill.
    assert step(off_by(-20, seams=SeamCount(recorded=1, unknown=1))) is None


def test_stale_measures_are_taken_again():
    case = off_by(0)
    stale = replace(case, body=replace(case.body, stale="stays changed since"))
    assert step(stale) == "Measure the wearer again: stays changed since."


def waist(*, difference_in: float, reading_doubt: bool, doubt_in: float):
    """A waist whose doubt is the measure's, and with `reading_doubt` the rule's too (0.41 in)."""
    case = off_by(difference_in)
    measure = replace(case.body.girths["waist"], doubt_mm=inches(doubt_in))
    division_mm = inches(1 / 16) if reading_doubt else case.plate.rule_division_mm
    return replace(
        case,
        body=replace(case.body, girths={"waist": measure}),
        plate=replace(case.plate, rule_division_mm=division_mm),
    )


def test_a_second_measure_is_asked_for_where_it_would_decide():
    # Fits with u = 0.45 in: 2·Φ(1.111) − 1 = 0.733; with u = 0.318 in: 2·Φ(1.571) − 1 = 0.884.
    assert step(waist(difference_in=0, reading_doubt=False, doubt_in=0.45)).startswith(
        "Measure waist a second"
    )


def test_a_finer_rule_is_asked_for_where_it_would_decide():
    # The rule's 2·8·(1/16)/√6 = 0.408 in and the measure's 0.25: u = 0.479. Measured twice u = 0.445,
    # 2·Φ(1.124) − 1 = 0.739; read to 1/32 in u = 0.323, 2·Φ(1.549) − 1 = 0.879.
    case = waist(difference_in=0, reading_doubt=True, doubt_in=0.25)
    assert step(case) == "Read waist again with a finer rule, to 1/32 in: it would decide more."


def test_a_toile_tells_what_nothing_else_does():
    # Half an inch off the edge between fitting and adding, whatever the doubt.
    assert (
        step(waist(difference_in=-0.5, reading_doubt=True, doubt_in=0.3))
        == "Make a toile: it will tell at waist."
    )


def test_a_toile_names_every_level_that_is_not_settled():
    plate = make_plate(make_piece(waist=2, bust=2))
    case = make_case(plate, waist_in=32.5, bust_in=32.5, doubt_in=0.5)
    assert step(case) == "Make a toile: it will tell at waist and bust."
