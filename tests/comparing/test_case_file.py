"""A case is read strictly: everything wrong is told at once, each with the path it stands at."""

import copy
import json
from typing import Any

import pytest

from catalogue.lengths.calculation.errors import Faults
from fitting.comparing.calculation.case import Patterns
from fitting.comparing.calculation.routes import SkillLevel
from fitting.comparing.exchange.case_file import case_from_json, read_case
from fitting.outfits.calculation.garment import Fit
from tests.makers.cases import INCH_MM

SMALLEST = {
    "scale": {"ratio": "1:8"},
    "pieces": [{"readings": {"waist": "1 1/2 in"}}],
    "measures": {"girths": {"waist": "24 in"}},
}


def changed(path: str, value: Any) -> dict[str, Any]:
    """The smallest case with one value put at a path, as in pieces.0.cut."""
    case: Any = copy.deepcopy(SMALLEST)
    *steps, last = path.split(".")
    at = case
    for step in steps:
        at = at[int(step)] if isinstance(at, list) else at.setdefault(step, {})
    at[last] = value
    return case


def faults_of(case: Any) -> dict[str, str]:
    with pytest.raises(Faults) as raised:
        case_from_json(case)
    told: dict[str, str] = {}
    for fault in raised.value.faults:
        told[fault.where] = f"{told.get(fault.where, '')} {fault.sentence}".strip()
    return told


def test_three_things_are_required():
    assert set(faults_of({})) == {"scale", "pieces", "measures.girths"}


def test_the_smallest_case_is_all_defaults():
    case_file = case_from_json(SMALLEST)
    case = case_file.case
    assert case.plate.scale.across == case.plate.scale.along == 8
    assert case.plate.pieces[0].times_round == 2
    assert case.plate.pieces[0].edges_with_allowance == 2
    assert case.body.girths["waist"].doubt_mm == pytest.approx(3 / 8 * INCH_MM)
    assert case.fit_at("waist") is Fit.FITTED
    assert case_file.defaults_used["measures.doubt"] == "3/8 in"


@pytest.mark.parametrize(
    ("measures", "doubt_in", "length_doubt_in"),
    [
        ({}, 3 / 8, 1 / 4),
        ({"doubt": "5/8 in"}, 5 / 8, 1 / 4),
        ({"doubt": "1/8 in"}, 1 / 8, 1 / 8),  # the smaller of the two
        ({"length_doubt": "1/2 in"}, 3 / 8, 1 / 2),
        ({"doubt": "1/8 in", "length_doubt": "1/2 in"}, 1 / 8, 1 / 2),
    ],
)
def test_lengths_of_a_body_have_a_doubt_of_their_own(measures, doubt_in, length_doubt_in):
    case = changed("lengths.nape to waist", {"reading": "1 7/8 in"})
    case["measures"] |= {"lengths": {"nape to waist": "15 in"}} | measures
    body = case_from_json(case).case.body
    assert body.girths["waist"].doubt_mm == pytest.approx(doubt_in * INCH_MM)
    assert body.lengths["nape to waist"].doubt_mm == pytest.approx(length_doubt_in * INCH_MM)


def test_what_is_left_out_was_not_asked_and_is_not_in_hand():
    case = case_from_json(changed("skills", {"alter": "none"})).case
    assert (case.skill("alter"), case.skill("grade")) == (SkillLevel.NONE, SkillLevel.NOT_ASKED)
    assert (case.patterns_in_hand, case.has_draft, case.stand_mm) == (Patterns.NONE, False, None)
    assert case_from_json(changed("patterns_in_hand", True)).case.patterns_in_hand is Patterns.WITH_PARTS
    assert case_from_json(changed("patterns_in_hand", False)).case.patterns_in_hand is Patterns.NONE


# Where a value is wrong, and what is said there. The path is that of the fault, unless one is given.
WRONG = [
    ("format", "something else", "This must be “plate-and-toile assessment”."),
    ("version", 2, "Only version 1 can be read."),
    ("version", "1", "This must be a whole number"),
    ("colour", "blue", "This key is not known here."),
    ("scales", {}, "did you mean “scale”"),
    ("scale.ratio", "1:0", "has a zero"),
    ("scale.ratio", "0:8", "has a zero"),
    ("scale.ratio", "-1:8", "is not a ratio"),
    ("scale.ratio", "1 to 8", "is not a ratio"),
    ("scale.ratio", 8, 'This must be a ratio as text, for example "1:8"; 8 is not.'),
    ("scale.relative_doubt", 1, "less than 1"),
    ("scale.relative_doubt", -0.1, "must not be negative"),
    ("scale.relative_doubt", "0.5 %", "This must be a number"),
    ("scale.relative_doubt", True, "This must be a number; true is not."),
    ("scale.relative_doubt", float("nan"), "This must be a number"),
    ("seam_allowance.drawn", "maybe", "There is no number in"),
    ("seam_allowance.drawn", 0.5, 'This must be "none", "not known", or a length'),
    ("seam_allowance.drawn", "-1/2 in", "starts with a sign"),
    ("rule_division", "0 in", "more than nothing"),
    ("rule_division", 0.0625, "This must be a length as text with its unit"),
    ("drawing_doubt", "1/16", "Type the unit too"),
    ("measures.girths.waist", 24, "This must be a length as text with its unit"),
    ("measures.girths.waist", "24", "Type the unit too"),
    ("measures.girths.waist", "24-26 in", "is a range"),
    ("measures.girths.waist", "0 in", "more than nothing"),
    ("measures.girths.waist", "-24 in", "starts with a sign"),
    ("measures.girths.waist", None, "null is not"),
    ("measures.doubt", 0.375, "This must be a length as text with its unit"),
    ("measures.doubt", "about 1/2 in", "was not understood"),
    ("measures.length_doubt", "1/4", "Type the unit too"),
    ("measures.state", 3, "This must be text in quotes"),
    ("ease.waist", 0, "This must be a length as text with its unit"),
    ("ease.wast", "0 in", "did you mean “waist”"),
    ("ease.waist", "-24 in", "more than the body measures"),
    ("fit.waist", "snug", "This must be one of: fitted, loose, gathered, not there"),
    ("fit.wast", "fitted", "did you mean “waist”"),
    ("fastening.overlap.wast", "1 in", "did you mean “waist”"),
    ("fastening.lacing_gap", 1, "This must be a length as text with its unit"),
    ("fastening.lacing", "1 in", "did you mean “lacing_gap”"),
    ("limits.fits", "3 in", "less than what can be added"),
    ("limits.length_fits", "1 1/2 in", "less than what a length can be altered"),
    ("limits.edges_that_may_take", 2.5, "This must be a whole number"),
    ("limits.edges_that_may_take", True, "This must be a whole number; true is not."),
    ("purpose", "fun", "This must be one of: this garment, near variation, period look, study"),
    ("seams.unknown", -1, "whole number from 0"),
    ("seams.guessed", 1, "This key is not known here"),
    ("skills.alter", "expert", "This must be one of: none, learning, working"),
    ("skills.sew", "working", "This key is not known here"),
    ("stand", True, "This must be a table in braces; true is not."),
    ("stand.girths.waist", 24, "This must be a length as text with its unit"),
    ("patterns_in_hand", "yes", "This must be true or false"),
    ("patterns_in_hand", 1, "This must be true or false"),
    ("days_left", "3", "This must be a number"),
    ("days_left", -3, "must not be negative"),
    ("hours_a_day", 0, "more than 0 hours"),
    ("hours_a_day", 25, "no more than 24"),
]


@pytest.mark.parametrize(("path", "value", "said"), WRONG)
def test_a_wrong_value_is_told_where_it_stands(path, value, said):
    assert said in faults_of(changed(path, value))[path]


OF_A_PIECE = [
    ("cut", 0, "whole number from 1"),
    ("cut", 1.5, "This must be a whole number"),
    ("cut", True, "This must be a whole number; true is not."),
    ("cut", "2", "This must be a whole number"),
    ("edges", -1, "whole number from 0"),
    ("on_fold", 1, "This must be true or false"),
    ("name", 7, "This must be text in quotes"),
    ("grain", "along", "This key is not known here"),
    ("readings.waist", 1.5, "This must be a length as text with its unit"),
    ("readings.waist", "1 1/2", "Type the unit too"),
    ("readings.waist", "1/0 in", "nothing is divided into 0 parts"),
    ("readings.waist", "0 in", "more than nothing"),
    ("readings.waist", "9**9 in", "calculation"),
    ("take_up.waist", "2 in", "This takes up more than the reading itself."),
    ("take_up.hip", "1/8 in", "There is no reading at this level"),
]


@pytest.mark.parametrize(("path", "value", "said"), OF_A_PIECE)
def test_a_wrong_piece_is_told_by_its_place_in_the_list(path, value, said):
    assert said in faults_of(changed(f"pieces.0.{path}", value))[f"pieces[0].{path}"]


# What is wrong elsewhere than where the value was put.
BY_THE_WAY = [
    ("scale", {}, "scale"),
    ("scale", {"ratio": "1:8", "page": "1 in", "real": "8 in"}, "scale"),
    ("scale", {"page": "1 in"}, "scale.real"),
    ("scale", {"page": "0 in", "real": "8 in"}, "scale.page"),
    ("scale", "1:8", "scale"),
    ("pieces", [], "pieces"),
    ("pieces", {}, "pieces"),
    ("pieces", [3], "pieces[0]"),
    ("lengths.nape to waist", {}, "lengths.nape to waist.reading"),
    ("lengths.nape to waist", {"reading": "1 in", "crossed_ends": 3}, "lengths.nape to waist.crossed_ends"),
    ("lengths.nape to waist", [], "lengths.nape to waist"),
    ("limits.add", "1/2 in", "limits.fits"),
    ("limits.take_off", "1/4 in", "limits.fits"),
    ("limits.edges_that_may_take", 1, "limits.fits"),
    ("seam_allowance.drawn", "6 in", "seam_allowance.drawn"),
    ("fastening.overlap", "24 in", "fastening.overlap"),
    ("measures", {}, "measures.girths"),
]


@pytest.mark.parametrize(("path", "value", "where"), BY_THE_WAY)
def test_a_fault_stands_where_it_can_be_put_right(path, value, where):
    assert list(faults_of(changed(path, value))) == [where]


def test_everything_wrong_is_told_at_once():
    case = changed("pieces.0.cut", 0) | {"rule_division": "0 in", "colour": "blue"}
    case["measures"]["girths"]["waist"] = 24
    assert set(faults_of(case)) == {"pieces[0].cut", "rule_division", "colour", "measures.girths.waist"}


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ('{"scale": {"ratio": "1:8", "ratio": "1:4"}}', "scale.ratio: This key comes twice."),
        ('{"colour": 1, "colour": 2}', "colour: This key comes twice."),
        ('{"scale": {"ratio": "1:8", "relative_doubt": NaN}}', "scale.relative_doubt: This must be a number"),
        ('{"days_left": Infinity}', "days_left: This must be a number; Infinity is not."),
        ('{"days_left": 1e999}', "days_left: This must be a number"),
        ('{"co\\nlour": 1}', "co lour: This key is not known here."),
    ],
)
def test_what_json_allows_and_a_case_does_not(text, where):
    with pytest.raises(Faults) as raised:
        read_case(text)
    assert any(str(fault).startswith(where) for fault in raised.value.faults)


def test_a_level_that_nothing_else_knows_may_be_read_and_measured():
    case = changed("pieces.0.readings.peplum", "3 in")
    case["measures"]["girths"]["peplum"] = "47 in"
    case["ease"] = {"peplum": "1 in"}
    assert case_from_json(case).case.levels == ("waist", "peplum")


def test_a_case_without_anything_to_compare_is_no_fault():
    case = changed("measures.girths", {"hip": "38 in"})
    assert case_from_json(case).case.levels == ()


def test_a_case_survives_being_typed_by_hand():
    case = changed("scale", {"page": "14,5 cm", "real": "1.16 m"})
    case["ease"] = {"waist": "−1/2 in"}
    read = case_from_json(json.loads("\n" + json.dumps(case))).case
    assert read.plate.scale.across == pytest.approx(8)
    assert read.ease_at_mm("waist") == -INCH_MM / 2
