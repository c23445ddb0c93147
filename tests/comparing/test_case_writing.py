"""What a stored comparison keeps reads back as the same case."""

import json
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.lengths.calculation.lengths import parse_length
from catalogue.plates.calculation.readings import FastenedWidth
from catalogue.plates.calculation.scale import Scale
from fitting.comparing.calculation.assessment import assess
from fitting.comparing.calculation.case import Patterns
from fitting.comparing.calculation.limits import Limits
from fitting.comparing.exchange.answer import assessment_to_json
from fitting.comparing.exchange.case_file import case_from_json, read_case
from fitting.comparing.exchange.case_writing import case_to_json, length_text
from fitting.wearers.calculation.body import Body, BodyMeasure
from tests.makers.cases import WORKED, inches, make_case, make_plate, make_reading


def stored(case):
    """Through the text that a database keeps."""
    return case_from_json(json.loads(json.dumps(case_to_json(case)))).case


@pytest.mark.parametrize("file", sorted(WORKED.glob("*.json")), ids=lambda file: file.stem)
def test_a_worked_case_reads_back_as_itself(file):
    case = read_case(file.read_text(encoding="utf-8")).case
    kept = stored(case)
    assert kept.plate == case.plate
    assert kept.body == case.body
    assert assess(kept) == replace(assess(case), case=kept)


def test_what_only_a_stored_case_has_is_kept_too():
    plate = make_plate(
        scale=Scale(along=8.1, across=7.9, relative_doubt=0.0113),
        lengths={"nape to waist": (make_reading(1), make_reading(0.75, 0.125))},
        allowance_mm=None,
    )
    body = Body(
        girths={"waist": BodyMeasure(mm=612.3, doubt_mm=4.2)},
        lengths={"nape to waist": BodyMeasure(mm=381.0, doubt_mm=6.0)},
        stale="stays changed since",
    )
    case = make_case(
        plate,
        body=body,
        stand_mm={"waist": 600.0},
        days_left=4.5,
        patterns_in_hand=Patterns.WITHOUT_PARTS,
        has_draft=True,
        limits=Limits(grade_far_mm=90.0, grade_too_far_mm=140.0),
    )
    kept = stored(case)
    assert kept == replace(case, skills=kept.skills)


def test_a_width_of_its_own_at_one_level_keeps_the_others():
    plate = make_plate(overlap=FastenedWidth(everywhere_mm=25.4, at_mm={"bust": 12.7}))
    assert stored(make_case(plate)).plate.overlap.at("waist") == 25.4


def test_a_stored_case_leaves_no_figure_to_a_default():
    written = case_to_json(make_case())
    used = case_from_json(written).defaults_used
    assert set(used) == {"pieces[0].edges", "stand", "ease.waist", "fit.waist"}


@given(st.integers(0, 64 * 400))
def test_every_64th_of_an_inch_is_kept_exactly(count):
    mm = float(parse_length(f"{count}/64 in"))
    assert float(parse_length(length_text(mm))) == mm


@given(st.floats(0, 99_999))
def test_what_was_reckoned_is_kept_to_a_picometre(mm):
    assert float(parse_length(length_text(mm))) == pytest.approx(mm, rel=0, abs=1e-9)


def test_an_answer_holds_nothing_but_json():
    answer = assessment_to_json(assess(make_case(hip_in=inches(1))), defaults_used={})
    assert json.loads(json.dumps(answer, allow_nan=False)) == answer
