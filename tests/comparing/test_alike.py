"""Whether a trunk is off alike, and can be graded; limbs are told apart."""

import pytest

from fitting.comparing.calculation.answer import limbs_sentence
from fitting.comparing.calculation.comparison import compare
from fitting.comparing.calculation.limits import Limits
from fitting.comparing.calculation.route.judgement import judge_routes
from fitting.comparing.calculation.routes import Route
from fitting.outfits.calculation.garment import Fit
from tests.makers.cases import inches
from tests.makers.routes import AGAINST, OUT, able, judged, told, trunk


# Differences at waist, bust and hip. What remains at waist and hip once the bust is right decides.
@pytest.mark.parametrize(
    ("differences_in", "effects"),
    [
        ((-3.5, -4), []),  # remains +0.5 at the waist: one sign
        ((-3, -3.5, -4), []),  # +0.5 and −0.5: both within 1 1/2 in
        ((-1, -2.5, -4), []),  # +1.5 and −1.5: just within
        ((-0.9, -2.5, -4), [AGAINST]),  # +1.6 and −1.5: both ways, and within what can be altered
        ((2, -2.5, -4), [OUT]),  # +4.5 and −1.5: more than can be taken off
        ((-3, 0.1, 4), [OUT]),  # −3.1 and +3.9
        ((3.5, -3.5), []),  # +7: one sign, however much
        ((-3.5, -3.5, 2.4), []),  # 0 and +5.9: one sign
        ((-4, -4), []),  # 4 in is not over 4 in
        ((-4.1, -4.1), [AGAINST]),
        ((-6, -6), [AGAINST]),
        ((-6.1, -6.1), [OUT]),
        ((-1, -2), [AGAINST]),  # alterable: not needed
        ((-1.9, 0, 1.9), [AGAINST, AGAINST]),  # −1.9 and +1.9, and alterable
    ],
)
def test_grading_needs_a_trunk_that_is_off_alike(differences_in, effects):
    found = [effect for rule, effect in told(able(*differences_in), Route.GRADE) if rule == "alike"]
    assert found == effects


@pytest.mark.parametrize(
    ("levels_in", "effects"),
    [
        ({"hip": -2.5, "under bust": -1, "waist": -4}, []),  # by the hip +1.5 and −1.5
        ({"hip": -2.5, "under bust": -0.9, "waist": -4}, [AGAINST]),  # +1.6 and −1.5
        ({"waist": -3.5}, []),
    ],
)
def test_a_skirt_is_graded_by_the_hip(levels_in, effects):
    case = trunk(levels_in)
    assert [effect for rule, effect in told(case, Route.GRADE) if rule == "alike"] == effects


def test_how_far_is_far_to_grade_is_the_makers_own():
    case = able(-5, -5)
    for far_in, too_far_in, effects in ((4, 6, [AGAINST]), (5, 6, []), (3, 4.5, [OUT])):
        limits = Limits(grade_far_mm=inches(far_in), grade_too_far_mm=inches(too_far_in))
        found = told(case, Route.GRADE, limits=limits)
        assert [effect for rule, effect in found if rule == "alike"] == effects


def test_an_arm_that_fits_rules_out_no_grading():
    """A coat 11.6 and 13.9 cm too small at bust and waist (4.57 and 5.47 in), whose sleeve fits."""
    case = trunk({"bust": -4.57, "waist": -5.47, "upper arm": 0})
    assert told(case, Route.GRADE) == [("alike", AGAINST)]
    assert limbs_sentence(compare(case)) == "Limbs by themselves: upper arm fits."


def test_limbs_are_told_apart_and_rule_nothing_out():
    case = trunk({"bust": -3.5, "upper arm": 1.5, "wrist": -1})
    assert told(case, Route.GRADE) == []
    assert limbs_sentence(compare(case)) == (
        "Limbs by themselves: upper arm wants 1 1/2 in less and wrist wants 1 in more."
    )
    assert limbs_sentence(compare(able(0))) == ""


def test_a_loose_level_is_not_graded_by():
    case = trunk({"bust": -3.5, "waist": -3.5, "hip": -9}, fit={"hip": Fit.LOOSE})
    assert told(case, Route.GRADE) == []


def test_reasons_carry_the_figures_that_were_read():
    (found,) = (one for one in judged(able(2, -2.5, -4)) if one.route is Route.GRADE)
    apart = found.reasons[0]
    assert apart.read == {
        "graded_by": "bust",
        "least_remaining_mm": pytest.approx(inches(-1.5)),
        "most_remaining_mm": pytest.approx(inches(4.5)),
    }
    assert apart.sentence == (
        "The levels are not off alike: graded to fit at bust, it would still be off by −1 1/2 in to 4 1/2 in "
        "elsewhere, more than can be altered."
    )


def test_sentences_can_speak_in_centimetres():
    case = able(2, -2.5, -4)
    grade = judge_routes(case, compare(case), system="cm")[2]
    assert "off by −3.8 cm to 11.4 cm elsewhere" in grade.reasons[0].sentence
