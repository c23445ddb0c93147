"""What a maker can do and has: skills, a stand, a draft, patterns in hand."""

from dataclasses import replace

import pytest

from fitting.comparing.calculation.case import Patterns
from fitting.comparing.calculation.route.judgement import recommend
from fitting.comparing.calculation.routes import Route, SkillLevel, Standing
from fitting.outfits.calculation.garment import Fit
from fitting.wearers.calculation.body import BodyMeasure
from tests.makers.cases import ALL_SKILLS, inches, off_by
from tests.makers.routes import AGAINST, OUT, able, judged, told

ROUTES_OF_SKILLS = [
    *((Route.ALTER, "alter"), (Route.GRADE, "grade"), (Route.DRAPE, "drape")),
    *((Route.COMBINE, "combine"), (Route.DRAFT, "draft")),
]


@pytest.mark.parametrize(("route", "skill"), ROUTES_OF_SKILLS)
def test_a_route_asks_for_its_skill(route, skill):
    case = able(-3.5)
    assert ("skills", OUT) in told(case, route, skills=ALL_SKILLS | {skill: SkillLevel.NONE})
    assert ("skills", AGAINST) in told(case, route, skills=ALL_SKILLS | {skill: SkillLevel.LEARNING})
    assert "skills" not in dict(told(case, route, skills=ALL_SKILLS))


@pytest.mark.parametrize(("route", "skill"), ROUTES_OF_SKILLS)
def test_a_skill_that_was_not_asked_tells_for_nothing(route, skill):
    assert told(able(-3.5), route, skills={}) == told(able(-3.5), route)
    assert told(able(-3.5), route, skills={skill: SkillLevel.NOT_ASKED}) == told(able(-3.5), route)


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
