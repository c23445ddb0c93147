"""Routes judged, for tests, and cases with nothing in their way but differences."""

from dataclasses import replace

from fitting.comparing.calculation.case import Patterns
from fitting.comparing.calculation.comparison import compare
from fitting.comparing.calculation.route.judgement import judge_routes
from fitting.wearers.calculation.body import Body, BodyMeasure
from tests.makers.cases import ALL_SKILLS, inches, make_piece, off_by

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


def trunk(off_in, **given):
    """A case without doubt worth the name, of 32 in everywhere, off by so much at each level."""
    plate = replace(off_by(0).plate, pieces=(make_piece("half", **dict.fromkeys(off_in, 2.0)),))
    girths = {level: BodyMeasure(mm=inches(32 - off), doubt_mm=inches(0.01)) for level, off in off_in.items()}
    return replace(able(0), plate=plate, body=Body(girths=girths), **given)
