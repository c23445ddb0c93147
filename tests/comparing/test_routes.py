"""Every row of the table of rules, one at a time; those on grading and on what is in hand stand apart."""

from dataclasses import replace

import pytest

from fitting.comparing.calculation.assessment import assess
from fitting.comparing.calculation.case import SeamCount
from fitting.comparing.calculation.route.judgement import recommend
from fitting.comparing.calculation.routes import ENLARGEMENTS, Route, Standing
from fitting.outfits.calculation.garment import Fit, Purpose
from tests.makers.cases import ALL_SKILLS, inches, make_case, make_piece, make_plate
from tests.makers.routes import AGAINST, FOR, OUT, able, judged, told


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
