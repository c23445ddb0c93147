"""Cases at random against a second reckoning that shares nothing with the first: unrounded, line by line."""

import json
from random import Random

import pytest

from fitting.comparing.calculation.assessment import assess
from fitting.comparing.calculation.verdict import Verdict
from fitting.comparing.exchange.answer import assessment_to_json
from fitting.comparing.exchange.case_file import read_case
from tests.oracle.cases import sound_case
from tests.oracle.figures import largest_doubt
from tests.oracle.routes import assess as reckon

CASES, PARTS = 1500, 10
SEED = 20260
FIGURES = ("garment_mm", "body_mm", "ease_mm", "wanted_mm", "difference_mm", "u_mm")
BEGINS = {
    "Read a level on": "read",
    "Settle whether": "allowance",
    "Say how well": "skill",
    "Make a miniature": "miniature",
    "Make a toile": "toile",
    "Read ": "finer rule",
}


def cases(part: int):
    random = Random(SEED + part)  # noqa: S311  cases, no secret
    return [sound_case(random) for _ in range(CASES // PARTS)]


def answer_to(file: dict) -> dict:
    case_file = read_case(json.dumps(file))
    return assessment_to_json(assess(case_file.case), defaults_used=case_file.defaults_used)


def near(figure):
    return pytest.approx(figure, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("part", range(PARTS))
def test_every_figure_and_standing_is_that_of_the_second_reckoning(part):
    for file in cases(part):
        answer, second = answer_to(file), reckon(file)
        try:
            check_lines(answer["levels"], answer["lengths"], second["lines"])
            assert ("levels_if_included" in answer) is (second["if_included"] is not None)
            if other := second["if_included"]:
                check_lines(answer["levels_if_included"], answer["lengths_if_included"], other)
            check_enlargement(answer["plain_enlargement"], second["plain_enlargement"])
            assert {one["route"]: one["standing"] for one in answer["routes"]} == second["standings"]
            assert answer["recommended"] == second["recommended"]
            kinds = (kind for start, kind in BEGINS.items() if answer["next_step"].startswith(start))
            assert next(kinds, "act") == second["next"]
            assert answer["answer"].startswith(answer["recommended"].capitalize())
        except AssertionError:
            print(json.dumps(file))
            raise


def check_lines(levels, lengths, second):
    assert [*levels, *lengths] == [line["name"] for line in second]
    for line in second:
        found = {**levels, **lengths}[line["name"]]
        assert found["verdict"] == line["verdict"]
        if line["chances"] is None:
            assert (found["chances"], found["ratio"]) == (None, near(line["ratio"]))
            continue
        assert {name: found[name] for name in FIGURES} == near({name: line[name] for name in FIGURES})
        assert list(found["chances"]) == list(line["chances"])
        assert found["chances"] == near(line["chances"])
        check_doubt(found["largest_doubt"], line)


def check_doubt(found, line):
    second = largest_doubt(line)
    assert found["input"] == second["input"]
    assert found["share"] == near(second["share"])
    assert found["u_mm_with_finer_rule"] == near(second["u_mm_with_finer_rule"])


def check_enlargement(found, second):
    if second is None:
        assert found is None
        return
    assert found["made_to_fit"] == second["made_to_fit"]
    assert found["factor"] == near(second["factor"])
    grown = {name: line["garment_mm"] for part in ("levels", "lengths") for name, line in found[part].items()}
    assert grown == near(second["grown"])


def test_the_cases_are_of_every_kind():
    """Each verdict and next step comes among them, and each route stands in each way that it can."""
    verdicts, standings, recommended, steps = set(), set(), set(), set()
    for part in range(4):
        for second in map(reckon, cases(part)):
            verdicts |= {line["verdict"] for line in second["lines"]}
            standings |= set(second["standings"].items())
            recommended |= {second["recommended"]}
            steps |= {second["next"]}
    assert verdicts == {verdict.value for verdict in Verdict}
    assert steps == {*BEGINS.values(), "act"}
    assert recommended >= {
        *("enlarge as drawn", "enlarge and alter", "enlarge and grade", "drape on a stand"),
        *("adapt a sized pattern", "study only"),
    }
    # A file has no catalogue: drafting is never open. Studying has nothing against it but the days left.
    assert len(standings) == 8 * 3 - 1
