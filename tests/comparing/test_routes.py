"""Every row of the table of rules, one at a time."""

from dataclasses import replace

import pytest

from fitting.comparing.calculation.answer import limbs_sentence
from fitting.comparing.calculation.assessment import assess
from fitting.comparing.calculation.case import Fit, Patterns, SeamCount
from fitting.comparing.calculation.comparison import compare
from fitting.comparing.calculation.route.judgement import judge_routes, recommend
from fitting.comparing.calculation.routes import ENLARGEMENTS, Purpose, Route, Skill, Standing
from fitting.wearers.calculation.body import Body, BodyMeasure
from tests.makers.cases import ALL_SKILLS, inches, make_case, make_piece, make_plate, off_by

OUT, AGAINST, FOR = "rules out", "counts against", "speaks for"


def judged(case, **given):
    return judge_routes(replace(case, **given), compare(replace(case, **given)))


def told(case, route, **given):
    (found,) = (one for one in judged(case, **given) if one.route is route)
    return [(reason.rule, reason.effect) for reason in found.reasons]


def able(*differences_in, **given):
    """A case with nothing in its way but its differences: skills, stand and patterns are there."""
    stand_mm = {
        level: inches(32 - difference)
        for level, difference in zip(("waist", "bust", "hip"), differences_in, strict=False)
    }
    return off_by(
        *differences_in,
        **{
            "skills": ALL_SKILLS,
            "patterns_in_hand": Patterns.WITH_PARTS,
            "has_draft": True,
            "stand_mm": stand_mm,
            **given,
        },
    )


def test_all_eight_routes_are_judged_in_their_order():
    assert [one.route for one in judged(able(0))] == list(Route)


def test_what_is_only_studied_needs_no_pattern():
    standings = {one.route: one.standing for one in judged(able(0), purpose=Purpose.STUDY)}
    assert standings.pop(Route.STUDY) is Standing.OPEN
    assert set(standings.values()) == {Standing.RULED_OUT}
    assert told(able(0), Route.STUDY, purpose=Purpose.STUDY) == [("purpose", FOR)]


def test_what_is_made_is_not_only_studied():
    assert told(able(0), Route.STUDY) == [("purpose", OUT)]


@pytest.mark.parametrize("route", Route)
def test_a_period_look_counts_against_the_enlargements(route):
    found = ("period look", AGAINST) in told(able(0), route, purpose=Purpose.PERIOD_LOOK)
    assert found is (route in ENLARGEMENTS)


def test_with_nothing_compared_no_enlargement_can_be_judged():
    case = make_case(hip_in=36)
    for route in ENLARGEMENTS:
        assert told(case, route, skills=ALL_SKILLS) == [("nothing compared", OUT)]


def test_while_the_allowance_is_not_known_no_route_rests_on_either_result():
    case = able(0)
    case = replace(case, plate=replace(case.plate, allowance_mm=None))
    for route in ENLARGEMENTS:
        assert told(case, route) == [("allowance not known", OUT)]


@pytest.mark.parametrize(
    ("seams", "effect"),
    [
        (SeamCount(), None),
        (SeamCount(recorded=2, tried=2), None),
        (SeamCount(recorded=3, unknown=1), AGAINST),  # a quarter is not over a quarter
        (SeamCount(recorded=5, unknown=2), OUT),
    ],
)
def test_unknown_seams_hold_enlarging_up(seams, effect):
    for route in ENLARGEMENTS:
        effects = [found for rule, found in told(able(0), route, seams=seams) if rule == "making-up unknown"]
        assert effects == ([effect] if effect else [])


def doubtful(difference_in, doubt_in):
    """One waist of 32 in, off by so much, whose only doubt is that of the measure."""
    case = able(difference_in)
    measure = replace(case.body.girths["waist"], doubt_mm=inches(doubt_in))
    return replace(case, body=replace(case.body, girths={"waist": measure}))


@pytest.mark.parametrize(
    ("difference_in", "doubt_in", "effects"),
    # ±1/2 in: Φ(0.5/u) and so on.
    [
        (0, 0.3, [FOR]),  # 2·Φ(1.667) − 1 = 0.904
        (1, 0.5, [OUT]),  # Φ(−1) − Φ(−3) = 0.157
        (0, 0.6, [FOR]),  # 2·Φ(0.833) − 1 = 0.595, and likeliest; altering 2·Φ(5) − 1 = 1
        (0.6, 0.4, [AGAINST]),  # Φ(−0.25) − Φ(−2.75) = 0.398; taking off has 0.6
        (0, 3, [OUT]),  # 2·Φ(0.167) − 1 = 0.132
    ],
)
def test_the_chance_of_fitting_decides_on_enlarging_as_drawn(difference_in, doubt_in, effects):
    assert told(doubtful(difference_in, doubt_in), Route.AS_DRAWN) == [("fits", one) for one in effects]


# A plate and a body of the same girth, one piece cut twice, read with 1/16 in at 1:8 and measured to 3/8 in:
# u² = 2²·8²·(1/16)²/6 + 2²/16² + (0.005·G)² + (3/8)²; for 34 in 0.166667 + 0.015625 + 0.0289 + 0.140625
# = 0.351817, u = 0.593: fits 2·Φ(0.843) − 1 = 0.60, which no verdict is given for, and the likeliest by far.
@pytest.mark.parametrize("girth_in", [34, 26, 16])
def test_a_plate_that_fits_can_say_so(girth_in):
    case = make_case(make_plate(make_piece(waist=girth_in / 16)), waist_in=girth_in)
    assert told(case, Route.AS_DRAWN) == [("fits", FOR)]
    assert told(case, Route.ALTER) == [("alterable", AGAINST)]
    assert recommend(judged(case)) is Route.AS_DRAWN
    found = assess(case)
    assert found.levels[0].verdict == "within altering"
    assert found.answer == (
        "Enlarge as drawn: it fits, as near as this plate can be read. "
        "Next: make a toile: it will tell at waist."
    )


@pytest.mark.parametrize(
    ("difference_in", "doubt_in", "effects"),
    [
        (-1.5, 0.3, [FOR]),
        (0, 0.3, [AGAINST]),  # it fits: nothing to alter
        (0, 0.6, [AGAINST]),  # fitting is the likeliest: nothing to alter that this plate can show
        (-3.5, 0.3, [OUT]),  # Φ(−1.667) = 0.048
        (-3, 0.3, [AGAINST]),  # 0.5
    ],
)
def test_the_chance_of_altering_decides_on_enlarging_and_altering(difference_in, doubt_in, effects):
    assert told(doubtful(difference_in, doubt_in), Route.ALTER) == [("alterable", one) for one in effects]


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


def trunk(off_in, **given):
    """A case without doubt worth the name, of 32 in everywhere, off by so much at each level."""
    plate = replace(off_by(0).plate, pieces=(make_piece("half", **dict.fromkeys(off_in, 2.0)),))
    girths = {level: BodyMeasure(mm=inches(32 - off), doubt_mm=inches(0.01)) for level, off in off_in.items()}
    return replace(able(0), plate=plate, body=Body(girths=girths), **given)


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


ROUTES_OF_SKILLS = [
    *((Route.ALTER, "alter"), (Route.GRADE, "grade"), (Route.DRAPE, "drape")),
    *((Route.COMBINE, "combine"), (Route.DRAFT, "draft")),
]


@pytest.mark.parametrize(("route", "skill"), ROUTES_OF_SKILLS)
def test_a_route_asks_for_its_skill(route, skill):
    case = able(-3.5)
    assert ("skills", OUT) in told(case, route, skills=ALL_SKILLS | {skill: Skill.NONE})
    assert ("skills", AGAINST) in told(case, route, skills=ALL_SKILLS | {skill: Skill.LEARNING})
    assert "skills" not in dict(told(case, route, skills=ALL_SKILLS))


@pytest.mark.parametrize(("route", "skill"), ROUTES_OF_SKILLS)
def test_a_skill_that_was_not_asked_tells_for_nothing(route, skill):
    assert told(able(-3.5), route, skills={}) == told(able(-3.5), route)
    assert told(able(-3.5), route, skills={skill: Skill.NOT_ASKED}) == told(able(-3.5), route)


def test_a_newcomer_is_left_with_every_way_that_the_figures_leave():
    """Off by 3 1/2 in, no skill asked, no stand, no pattern, no draft: altering and combining are out."""
    out = {one.route for one in judged(off_by(-3.5)) if one.standing is Standing.RULED_OUT}
    assert out == {Route.AS_DRAWN, Route.ALTER, Route.COMBINE, Route.STUDY}
    assert recommend(judged(off_by(-3.5))) is Route.GRADE


@pytest.mark.parametrize(
    ("stand_in", "effects"),
    # The wearer has 32 in; up to 1/2 in larger the stand still serves.
    [(None, [AGAINST]), (32, []), (32.5, []), (32.6, [OUT]), (31.9, [AGAINST])],
)
def test_a_stand_may_be_smaller_but_not_larger(stand_in, effects):
    stand_mm = None if stand_in is None else {"waist": inches(stand_in), "knee": inches(99)}
    assert told(able(0), Route.DRAPE, stand_mm=stand_mm) == [("stand", one) for one in effects]


@pytest.mark.parametrize(
    ("fit", "stand_in", "effects"),
    # Loose is a minimum only: a stand that is larger there does no harm, one that is smaller is padded.
    [
        (Fit.LOOSE, 36, []),
        (Fit.LOOSE, 30, [AGAINST]),
        (Fit.GATHERED, 36, []),
        (Fit.GATHERED, 30, []),
    ],
)
def test_a_stand_is_held_against_what_is_fitted(fit, stand_in, effects):
    stand_mm = {"waist": inches(32), "bust": inches(stand_in)}
    found = told(able(0, 0), Route.DRAPE, stand_mm=stand_mm, fit={"bust": fit})
    assert found == [("stand", one) for one in effects]


def test_a_stand_is_padded_by_what_goes_round_and_its_nape_to_waist_is_said():
    """1 in round is 1/(2π) in of padding: 0.159 in, in sixteenths 3/16."""
    case = able(0, stand_mm={"waist": inches(31), "nape to waist": inches(15)})
    body = replace(case.body, lengths={"nape to waist": BodyMeasure(mm=inches(15.5))})
    drape = judged(case, body=body)[3]
    assert drape.reasons[0].read["padding_mm"] == pytest.approx(25.4 / 6.283185, rel=1e-6)
    assert drape.reasons[0].sentence == (
        "The stand is smaller than the wearer by 1 in: pad it by 3/16 in all round. "
        "Its nape to waist is 1/2 in shorter."
    )


def test_drafting_wants_a_draft_in_the_catalogue():
    assert told(able(0), Route.DRAFT, has_draft=False) == [("draft", AGAINST)]
    assert told(able(0), Route.DRAFT) == []


@pytest.mark.parametrize(
    ("patterns", "combine", "adapt"),
    [
        (Patterns.NONE, [("patterns in hand", OUT)], [("patterns in hand", AGAINST)]),
        (Patterns.WITHOUT_PARTS, [("patterns in hand", OUT)], []),
        (Patterns.WITH_PARTS, [], []),
    ],
)
def test_a_pattern_is_wanted_in_hand(patterns, combine, adapt):
    assert told(able(0), Route.COMBINE, patterns_in_hand=patterns) == combine
    assert told(able(0), Route.ADAPT, patterns_in_hand=patterns) == adapt


@pytest.mark.parametrize(("days_left", "late"), [(None, False), (1.5, False), (1.4, True), (0, True)])
def test_what_takes_longer_than_is_left_counts_against(days_left, late):
    # Enlarging takes 3 hours, at 2 a day 1 1/2 days.
    assert (("days left", AGAINST) in told(able(0), Route.AS_DRAWN, days_left=days_left)) is late


def test_the_makers_own_hours_take_the_place_of_guesses():
    hours = dict(able(0).hours) | {Route.AS_DRAWN: 9.0}
    assert judged(able(0), hours=hours)[0].hours == 9.0
    assert ("days left", AGAINST) in told(able(0), Route.AS_DRAWN, hours=hours, days_left=4)


def test_the_least_sure_line_decides():
    # The waist fits, the bust is 1 in off: as drawn is out, altering is spoken for.
    case = able(0, -1)
    assert told(case, Route.AS_DRAWN) == [("fits", OUT)]
    assert told(case, Route.ALTER) == [("alterable", FOR)]


def test_a_loose_level_decides_nothing_while_others_are_fitted():
    case = able(0, -8)
    assert told(case, Route.AS_DRAWN, fit={"bust": Fit.LOOSE}) == [("fits", FOR)]
    assert told(case, Route.AS_DRAWN, fit={"waist": Fit.LOOSE, "bust": Fit.LOOSE}) == [("fits", OUT)]


def test_a_garment_that_is_loose_all_over_is_judged_by_its_loose_levels():
    case = make_case(make_plate(make_piece(hip=4)), hip_in=36, fit={"hip": Fit.LOOSE})
    assert told(case, Route.AS_DRAWN) == [("fits", FOR)]


def test_the_open_and_spoken_for_are_recommended_before_the_open():
    # As drawn (3 h) is spoken for; adapting (4 h) is open.
    assert recommend(judged(able(0))) is Route.AS_DRAWN
    # Altering (6 h) is spoken for and adapting (4 h) only open.
    assert recommend(judged(able(-1))) is Route.ALTER


def test_else_the_open_of_fewest_hours():
    assert recommend(judged(able(-3.5))) is Route.ADAPT
    assert recommend(judged(able(-3.5), hours=dict.fromkeys(Route, 5))) is Route.GRADE


def test_else_the_one_against_of_fewest_hours():
    case = able(0, days_left=0)
    assert {one.standing for one in judged(case)} == {Standing.AGAINST, Standing.RULED_OUT}
    assert recommend(judged(case)) is Route.AS_DRAWN


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
