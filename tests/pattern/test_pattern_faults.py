"""What `pattern` cannot do is said with its place, one fault a line; nothing is printed and the exit is 2."""

import json
from copy import deepcopy

import pytest

from tests.makers.patterns import document, faults_of, piece, square

LENGTHEN = {"step": "lengthen", "piece": "front", "line": [[0, 300], [300, 300]], "by": "1 in"}
SIDES = {"pieces": ["front", "back"], "edges": ["right", "left"]}
DART = {"kind": "dart", "points": [[140, 400], [150, 250], [160, 400]]}

OFF = {"kind": "dart", "points": [[140, 399.8], [150, 250], [160, 400]]}


def with_step(*pieces, **step):
    return document(*(pieces or (square(), square("back"))), steps=[step])


def of_front(word, *pieces, **more):
    return with_step(*pieces, **{"step": word, "piece": "front", **more})


def changed(path, value):
    """A sound document with one value of it another, or one more."""
    given = deepcopy(document(square(marks=[DART]), square("back"), steps=[LENGTHEN]))
    at = given
    for key in path[:-1]:
        at = at[key]
    at[path[-1]] = value
    return given


# Its right side crosses its left.
BOW_TIE = piece("front", {(0, 0): "a", (300, 400): "b", (300, 0): "c", (0, 400): "d"})
# A skirt with two legs: a level line meets it four times.
TWO_LEGS = piece(
    "front",
    {(0, 0): "top", (300, 0): "right", (300, 400): "hem", (200, 400): "inner", (150, 100): "inner 2",
     (100, 400): "hem 2", (0, 400): "left"},
)  # fmt: skip
# Its right side goes on below in nearly one line: 20 in 200 is 5.7°.
FLAT = piece(
    "front", {(0, 0): "top", (300, 0): "right", (300, 200): "below", (280, 400): "hem", (0, 400): "left"}
)

FAULTS = [
    pytest.param(changed(["pieces", 0], BOW_TIE), "pieces[0].nodes", id="an outline that crosses itself"),
    pytest.param(changed(["pieces", 0, "colour"], "red"), "pieces[0].colour", id="a key that is not known"),
    pytest.param(changed(["colour"], "red"), "colour", id="a key that is not known at the top"),
    pytest.param(changed(["steps", 0, "angle"], "1 in"), "steps[0].angle", id="a key of no such step"),
    pytest.param(changed(["steps", 0, "step"], "iron"), "steps[0].step", id="a step that is not known"),
    pytest.param(changed(["steps", 0, "piece"], "sleeve"), "steps[0].piece", id="a piece that is not there"),
    pytest.param(changed(["steps", 0, "by"], 25.4), "steps[0].by", id="a bare number as a length"),
    pytest.param(changed(["steps", 0, "by"], "25.4"), "steps[0].by", id="a length without a unit"),
    pytest.param(changed(["steps", 0, "by"], "1/0 in"), "steps[0].by", id="a length divided by nothing"),
    pytest.param(changed(["steps", 0, "line"], [[0, 500], [300, 500]]), "steps[0].line",
                 id="a line beside it"),
    pytest.param(changed(["steps", 0, "line"], [[0, 300], [0, 300]]), "steps[0].line",
                 id="a line of one point"),
    pytest.param(changed(["steps", 0, "line"], [[0, 0], [300, 0]]), "steps[0].line",
                 id="a line along a side"),
    pytest.param(changed(["pieces", 1, "name"], "front"), "pieces[1].name", id="two pieces of one name"),
    pytest.param(changed(["pieces", 0, "nodes", 3, "edge"], "top"), "pieces[0].nodes", id="an edge twice"),
    pytest.param(changed(["pieces", 0, "nodes", 0, "at"], ["0", 0]), "pieces[0].nodes[0].at",
                 id="a word in a point"),
    pytest.param(changed(["pieces", 0, "nodes", 0, "at"], [0]), "pieces[0].nodes[0].at", id="half a point"),
    pytest.param(changed(["pieces", 0, "nodes", 0, "corner"], "yes"), "pieces[0].nodes[0].corner",
                 id="a word for yes"),
    pytest.param(changed(["pieces", 0, "nodes"], []), "pieces[0].nodes", id="no outline"),
    pytest.param(changed(["pieces", 0, "cut"], 0), "pieces[0].cut", id="cut not once"),
    pytest.param(changed(["pieces"], []), "pieces", id="no pieces"),
    pytest.param(changed(["format"], "plate-and-toile lay"), "format", id="another format"),
    pytest.param(changed(["version"], 2), "version", id="another version"),
    pytest.param(of_front("lengthen", TWO_LEGS, line=[[0, 300], [1, 300]], by="1 in"), "steps[0].line",
                 id="a line that crosses four times"),
    pytest.param(of_front("cut", TWO_LEGS, along=[[0, 300], [1, 300]], names=["l", "r"]), "steps[0].along",
                 id="a cut that crosses four times"),
    pytest.param(of_front("add", edge="collar", by="1 in"), "steps[0].edge", id="an edge that is not there"),
    pytest.param(of_front("add", FLAT, edge="right", by="1 in"), "steps[0]", id="a neighbour under 15°"),
    pytest.param(of_front("add", edge="right", by="-20 in"), "steps[0]", id="more taken off than there is"),
    pytest.param(of_front("turn", cut=[[150, 50], [150, 400]], by="1 in"), "steps[0].cut",
                 id="a cut that opens within"),
    pytest.param(of_front("turn", cut=[[150, 0], [150, 400]], by="800.1 mm"), "steps[0].by",
                 id="a chord longer than its circle is broad"),
    pytest.param(of_front("move dart", square(marks=[OFF]),
                          to=[300, 250]), "steps[0].dart", id="a foot of a dart off the outline"),
    pytest.param(of_front("move dart", to=[300, 250]), "steps[0].dart", id="no dart"),
    pytest.param(of_front("move dart", square(marks=[DART]), to=[200, 250]), "steps[0].to",
                 id="a place for a dart within"),
    pytest.param(with_step(square(), square("back", height=400.6), step="join", **SIDES, name="whole"),
                 "steps[0]", id="edges that differ by 0.6 mm"),
    pytest.param(with_step(step="join", **SIDES, name="back and front", piece="front"), "steps[0].piece",
                 id="a key of another step"),
    pytest.param(of_front("sides", square(cut=1, mirrored=False), names=["l", "r"]), "steps[0]",
                 id="two sides of what is cut once"),
    pytest.param(of_front("copy", name="back"), "steps[0].name", id="a name that is borne"),
    pytest.param(of_front("cut", along=[[100, 0], [100, 9]], names=["l", "l"]), "steps[0].names",
                 id="two parts of one name"),
    pytest.param(with_step(step="alter", changes={"waist": "1 in"},
                           seams=[["front", "right", 0.5], ["back", "left", 0.4]]),
                 "steps[0].seams", id="shares that are not one in sum"),
    pytest.param(with_step(step="alter", changes={"elbow": "1 in"}, seams=[["front", "right", 1]]),
                 "steps[0].changes", id="a level that is not there"),
    pytest.param(of_front("facing", edges=["top", "bottom"], width="1 in", name="facing"), "steps[0].edges",
                 id="a facing of edges that do not meet"),
    pytest.param(of_front("facing", edges=["top"], width="40 in", name="facing"), "steps[0]",
                 id="a facing broader than the piece"),
    pytest.param(with_step(step="take over edge", pieces=["front"], edges=["right"], donor_edges=["left"],
                           **{"from": ["donor"]}, hold="end", blend="2 in"), "steps[0].from",
                 id="a donor that is not there"),
]  # fmt: skip


@pytest.mark.parametrize(("given", "place"), FAULTS)
def test_a_fault_is_said_with_its_place(given, place):
    assert [line for line in faults_of(given) if line.startswith(place)], faults_of(given)


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("[1,", "file"),
        ("[]", "file"),
        (json.dumps(document(square())).replace('"version": 1', '"version": 1, "version": 1'), "version"),
        (json.dumps(document(square())).replace("[0, 0]", "[NaN, 0]"), "pieces[0].nodes[0].at"),
        (json.dumps(document(square())).replace("[0, 0]", "[1e999, 0]"), "pieces[0].nodes[0].at"),
    ],
    ids=["not JSON", "a list", "a key twice", "not a number", "no end"],
)
def test_what_no_document_says_is_said_with_its_place(text, place):
    assert any(place in line.split(":")[0] for line in faults_of(text)), faults_of(text)


def places(*steps, **given):
    told = faults_of({**document(square(), steps=steps), **given})
    return [line.split(":")[0] for line in told]


def test_all_faults_are_told_at_once():
    steps = [{**LENGTHEN, "by": 1}, {**LENGTHEN, "piece": "sleeve"}]
    assert set(places(*steps, colour="red")) == {"colour", "steps[0].by", "steps[1].piece"}


def test_a_later_step_that_cannot_be_done_has_its_own_place():
    beside = {**LENGTHEN, "line": [[0, 440], [300, 440]]}
    assert places(beside) == ["steps[0].line"]
    assert places(LENGTHEN, beside) == ["steps[1].line"]
    # Once an inch longer it is 425.4 high, twice 450.8: then 440 lies within.
    assert places(LENGTHEN, LENGTHEN, beside, {**beside, "line": [[0, 480], [9, 480]]}) == ["steps[3].line"]
