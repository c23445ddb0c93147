"""Doubtful measures: real bodies raise no question, a slip of the unit does."""

import csv
import hashlib
from pathlib import Path

import pytest

from catalogue.lengths.calculation.levels import LINES
from fitting.wearers.calculation.plausibility import LIMITS_CM, RATIOS, doubts_of_girths

PUBLISHED = Path(__file__).parents[2] / "fixtures" / "published"
GIRTHS = {
    "bust": "ChestG",
    "waist": "WaistG",
    "hip": "HipG",
    "upper arm": "BicepG",
    "wrist": "WristG",
    "thigh": "ThighG",
    "knee": "KneeG",
    "calf": "CalfG",
    "ankle": "AnkleG",
}
INCH = 25.4


def bodies() -> list[tuple[dict[str, float], dict[str, float]]]:
    """Girths and height in millimetres of 507 adults: Heinz and others, J. Stat. Education 11(2), 2003."""
    with (PUBLISHED / "body_dimensions_507.csv").open(newline="") as file:
        return [
            (
                {key: float(row[column]) * 10 for key, column in GIRTHS.items()},
                {"height": float(row["Height"]) * 10},
            )
            for row in csv.DictReader(file)
        ]


def test_the_published_bodies_are_the_copy_that_the_readme_describes():
    content = (PUBLISHED / "body_dimensions_507.csv").read_bytes()
    assert hashlib.sha256(content).hexdigest() in (PUBLISHED / "README.md").read_text()
    assert len(bodies()) == 507


def test_no_published_body_raises_a_question():
    assert [doubts_of_girths(girths, lengths) for girths, lengths in bodies()] == [()] * 507


@pytest.mark.parametrize(
    "girths_in",
    [
        # Handbook on Dress and Cloak Cutting, 1884, p. 5: smallest, middle and largest.
        {"bust": 30, "waist": 22},
        {"bust": 36, "waist": 25},
        {"bust": 50, "waist": 39},
        # ASTM D5585-11, table 1: sizes 00 and 20.
        {"bust": 31.125, "under bust": 25.75, "waist": 23.875, "neck base": 13.25},
        {"bust": 46, "under bust": 39.625, "waist": 40.5, "neck base": 16.375},
        # CORSET: An Analysis, p. 30: without, and in an ill-fitted and a fitted one.
        {"bust": 45, "waist": 36.5, "hip": 50},
        {"bust": 47, "waist": 34, "hip": 51},
        {"bust": 49, "waist": 38, "hip": 47},
        # Body mass survey NHANES 2017-2020, women: means and three standard deviations up.
        {"waist": 98.49 / 2.54, "hip": 109.18 / 2.54, "upper arm": 32.71 / 2.54},
        {"waist": 150.7 / 2.54, "hip": 156.0 / 2.54, "upper arm": 49.5 / 2.54},
    ],
)
def test_period_laced_and_large_bodies_raise_no_question(girths_in):
    assert doubts_of_girths({key: inches * INCH for key, inches in girths_in.items()}) == ()


@pytest.mark.parametrize("factor", [2.54, 1 / 2.54], ids=["cm typed as in", "in typed as cm"])
@pytest.mark.parametrize("slipped", GIRTHS)
def test_one_girth_in_the_wrong_unit_is_always_asked_about(slipped, factor):
    for girths, lengths in bodies():
        assert doubts_of_girths(girths | {slipped: girths[slipped] * factor}, lengths)


def test_a_whole_set_in_the_wrong_unit_is_asked_about_and_the_unit_named():
    waist = doubts_of_girths({"waist": 280, "hip": 380}, system="cm")
    assert [fault.where for fault in waist] == ["waist", "hip"]
    assert waist[0].sentence == "28.0 cm is very small for this measure: were inches typed as centimetres?"
    (hip,) = doubts_of_girths({"hip": 96 * INCH})
    assert hip.sentence == "96 in is very large for this measure: were centimetres typed as inches?"


@pytest.mark.parametrize(("mm", "system"), [(11 * INCH, "in"), (2440, "cm")])
def test_a_unit_that_nobody_types_in_is_not_asked_about(mm, system):
    """Inches come out small as centimetres, centimetres large as inches: never the other way about."""
    (doubt,) = doubts_of_girths({"waist": mm}, system=system)
    assert doubt.sentence.endswith("measure again, or keep it if it is so.")


def test_two_figures_exchanged_are_asked_about_with_both():
    (doubt,) = doubts_of_girths({"upper arm": 6 * INCH, "wrist": 11 * INCH})
    assert str(doubt).startswith("wrist: 11 in is very large beside upper arm 6 in")


def test_bust_and_waist_exchanged_are_asked_about():
    """34 ÷ 26 is 1.31. No published body has more than 1.05; exchanged, most are asked about."""
    (doubt,) = doubts_of_girths({"bust": 26 * INCH, "waist": 34 * INCH})
    assert "beside bust or chest 26 in: were the two exchanged?" in str(doubt)
    exchanged = [girths | {"bust": girths["waist"], "waist": girths["bust"]} for girths, _ in bodies()]
    assert sum(bool(doubts_of_girths(girths)) for girths in exchanged) > 0.8 * len(exchanged)


def test_left_and_right_far_apart_are_asked_about():
    (doubt,) = doubts_of_girths({}, sides_mm={"upper arm": (310, 130), "wrist": (160, 165)}, system="cm")
    assert doubt.where == "upper arm"
    assert "left 31.0 cm and right 13.0 cm" in doubt.sentence


def test_every_limit_is_on_a_line_of_the_body_and_every_ratio_on_two_with_limits():
    assert all(LINES[key].on_body for key in LIMITS_CM)
    assert {key for rule in RATIOS for key in rule[:2]} <= LIMITS_CM.keys()
