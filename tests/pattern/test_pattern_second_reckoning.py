"""Steps at random on straight-sided pieces against a second reckoning that shares nothing with the first."""

import json
from random import Random

import numpy as np
import pytest
from shapely import LinearRing, Polygon

from tests.examples import examples
from tests.makers.patterns import answer_to, document, outline_of
from tests.oracle import pattern
from tests.oracle.pattern_cases import lies_where, sound_document
from tests.oracle.pattern_pieces import STEPS
from tests.oracle.pattern_pieces import answer_to as reckon

PARTS = 10
SEED = 20261


def documents(part: int, most: int = 1200):
    random = Random(SEED + part)  # noqa: S311  cases, no secret
    return [sound_document(random) for _ in range(examples(most) // PARTS)]


@pytest.mark.parametrize("part", range(PARTS))
def test_every_figure_is_that_of_the_second_reckoning(part):
    for given in documents(part):
        try:
            check(given, answer_to(given))
        except AssertionError:
            print(json.dumps(given))
            raise


def check(given, answer):
    rings = reckon(given)
    second = pattern.figures(rings, given.get("fastening"))
    assert set(answer["pieces"]) == set(second["pieces"])
    assert answer["girths"] == pytest.approx(second["girths"], abs=0.01)
    places = lies_where(given)
    for ring in rings:
        told, figures = answer["pieces"][ring.name], second["pieces"][ring.name]
        assert told["area_mm2"] == pytest.approx(figures["area_mm2"], rel=1e-6)
        assert told["perimeter_mm"] == pytest.approx(figures["perimeter_mm"], abs=0.01)
        assert told["levels_mm"] == pytest.approx(figures["levels_mm"], abs=0.01)
        if "facing" not in ring.name and "band" not in ring.name:  # whose ends no rule names
            assert told["edges"] == pytest.approx(figures["edges"], abs=0.01)
        if ring.name in places:
            assert LinearRing(outline_of(told)).hausdorff_distance(LinearRing(ring.points)) < 0.01
        else:
            assert misfit(np.array(outline_of(told)), ring.points) < 0.01
        if ring.cutting_line is not None:
            area = Polygon(ring.cutting_line).area
            assert Polygon(told["cutting_line"]).area == pytest.approx(area, rel=1e-6)


def misfit(one, other):
    """How far two outlines are apart with one moved onto the other, and turned over where that is nearer."""
    one, other = without_straight_on(one), without_straight_on(other)
    if len(one) != len(other):
        return np.inf
    ways = (np.roll(way, shift) for way in (one, one[::-1]) for shift in range(len(one)))
    return min(apart(way, other) for turned in ways for way in (turned, turned.conjugate()))


def apart(one, other):
    turned = np.vdot(one, other)
    return np.abs(one * turned / abs(turned) - other).max() if turned else np.inf


def without_straight_on(points):
    """Complex, about their middle, without points at which the outline does not turn."""
    z = points[:, 0] + 1j * points[:, 1]
    before, after = z - np.roll(z, 1), np.roll(z, -1) - z
    z = z[np.abs((before.conjugate() * after).imag) > 1e-6 * np.abs(before * after)]
    return z - z.mean()


def test_its_pieces_are_a_document_again():
    for given in documents(PARTS, most=400):
        answer = answer_to(given)
        more = {"fastening": given["fastening"]} if "fastening" in given else {}
        again = answer_to(document(*answer["list"], **more))
        assert again["girths"] == pytest.approx(answer["girths"], abs=1e-6)
        for name, told in answer["pieces"].items():
            for figure in ("area_mm2", "perimeter_mm", "edges", "levels_mm"):
                assert again["pieces"][name][figure] == pytest.approx(told[figure], rel=1e-9, abs=1e-6)


def test_each_step_says_what_it_changed():
    """Before and after, by the second reckoning of one step fewer."""
    for given in documents(PARTS + 1, most=400):
        last = answer_to(given)["steps"][-1]
        assert last["step"] == given["steps"][-1]["step"]
        was, is_now = (by_figure(reckon({**given, "steps": given["steps"][:n]})) for n in (-1, None))
        for name in set(was) & set(is_now):
            told = last["changed"].get(name, {})
            for figure in set(was[name]) & set(is_now[name]):
                pair = [was[name][figure], is_now[name][figure]]
                if abs(pair[1] - pair[0]) > 0.01 or figure in told:
                    assert told[figure] == pytest.approx(pair, rel=1e-6, abs=0.01)


def by_figure(rings):
    """What `changed` may name of each piece. Where an edge bears the name of a level neither is asked for."""
    told = {}
    for name, one in pattern.figures(rings)["pieces"].items():
        both = {**one["edges"], **one["levels_mm"]}
        only = {key: mm for key, mm in both.items() if (key in one["edges"]) != (key in one["levels_mm"])}
        told[name] = {"area_mm2": one["area_mm2"], **only}
    return told


def test_the_documents_are_of_every_kind():
    """Each step comes among them, pieces run either way, and some begin within an edge."""
    steps, ways, begin = set(), set(), set()
    for part in range(4):
        for given in documents(part):
            steps |= {step["step"] for step in given["steps"]}
            for piece in given["pieces"]:
                ways.add(LinearRing([node["at"] for node in piece["nodes"]]).is_ccw)
                begin.add("edge" in piece["nodes"][0])
    assert (steps, ways, begin) == (set(STEPS), {True, False}, {True, False})
