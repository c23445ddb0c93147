"""What holds of curved sides whatever they are: lengths, areas and girths that a step keeps or makes."""

from math import cos, pi, radians, sin

import numpy as np
import pytest

from tests.makers.patterns import answer_to, document, outline_of, piece

FIGURES = ("area_mm2", "perimeter_mm", "edges", "levels_mm")
GIRTHS = {"bust": [[-10, 160], [300, 160]], "waist": [[-10, 390], [300, 390]]}


def bodice(name, armhole=100.0, side=260.0, hem=240.0, arc=5, **given):
    """A front or back; its armhole is a quarter of a circle about (160 + armhole, 40), in curved points."""
    drawn = piece(
        name,
        [((0, 40), "neck"), ((60, 0), "shoulder"), *arc_points(160 + armhole, 40, armhole, arc),
         ((160 + armhole, 40 + armhole), "side"), ((hem, 400), "hem"), ((0, 400), "centre")],
        levels={**GIRTHS, "across": [[-10, 90], [300, 90]]},
        **given,
    )  # fmt: skip
    for number, node in enumerate(drawn["nodes"][2 : 2 + arc]):
        node |= {"curved": True, "corner": number == 0}
    return drawn


def arc_points(x, y, r, count):
    turns = [radians(180 - 90 * step / count) for step in range(count)]
    return [((x + r * cos(turn), y + r * sin(turn)), "" if i else "armhole") for i, turn in enumerate(turns)]


FRONT, BACK = bodice("front"), bodice("back", armhole=110.0, hem=250.0)


def after(*pieces, **step):
    return answer_to(document(*pieces, steps=[step]))["pieces"]


def measured(*pieces, **more):
    return answer_to(document(*pieces, **more))


def check_same(told, as_told):
    for figure in FIGURES:
        assert told[figure] == pytest.approx(as_told[figure], rel=1e-9, abs=0.01)


# A quarter of a circle of 100: 157.08 long; it takes r² (¼π − ½) from the piece whose armhole is its chord.
def test_an_armhole_of_curved_points_is_near_to_its_circle():
    told = measured(bodice("front", arc=8))["pieces"]["front"]
    chord = piece("front", [((0, 40), "neck"), ((60, 0), "shoulder"), ((160, 40), "armhole"),
                            ((260, 140), "side"), ((240, 400), "hem"), ((0, 400), "centre")])  # fmt: skip
    straight = measured(chord)["pieces"]["front"]["area_mm2"]
    assert told["edges"]["armhole"] == pytest.approx(100 * pi / 2, rel=1e-3)
    assert told["area_mm2"] == pytest.approx(straight - 100**2 * (pi / 4 - 1 / 2), rel=1e-3)
    # At y = 90 the circle stands at 260 − √(100² − 50²).
    assert told["levels_mm"]["across"] == pytest.approx(260 - 7500**0.5, abs=0.1)


def test_lengthened_through_the_armhole_it_grows_by_the_width_there():
    was = measured(FRONT)["pieces"]["front"]
    told = after(FRONT, step="lengthen", piece="front", line=[[0, 90], [1, 90]], by="1/2 in")["front"]
    assert told["area_mm2"] - was["area_mm2"] == pytest.approx(12.7 * was["levels_mm"]["across"], rel=1e-4)
    for edge, more in {
        "armhole": 12.7,
        "centre": 12.7,
        "neck": 0,
        "shoulder": 0,
        "side": 0,
        "hem": 0,
    }.items():
        assert told["edges"][edge] - was["edges"][edge] == pytest.approx(more, abs=0.01)


@pytest.mark.parametrize("along", [[[0, 90], [1, 90]], [[110, 0], [110, 9]], [[0, 60], [200, 160]]])
def test_cut_in_two_its_areas_add_and_joined_again_it_is_as_before(along):
    was = measured(FRONT)["pieces"]["front"]
    cut = {"step": "cut", "piece": "front", "along": along, "names": ["l", "r"]}
    parts = after(FRONT, **cut)
    assert sum(part["area_mm2"] for part in parts.values()) == pytest.approx(was["area_mm2"], rel=1e-6)
    lengths = [part["edges"].get("armhole", 0) for part in parts.values()]
    assert sum(lengths) == pytest.approx(was["edges"]["armhole"], abs=0.01)
    assert parts["l"]["edges"]["cut"] == pytest.approx(parts["r"]["edges"]["cut"], abs=0.01)
    join = {"step": "join", "pieces": ["l", "r"], "edges": ["cut", "cut"], "name": "front"}
    told = answer_to(document(FRONT, steps=[cut, join]))["pieces"]["front"]
    for figure in FIGURES:
        assert told[figure] == pytest.approx(was[figure], rel=1e-6, abs=0.02)


@pytest.mark.parametrize("step", [{"step": "mirror"}, {"step": "copy", "name": "lining"}])
def test_mirrored_and_copied_curves_measure_the_same(step):
    for told in after(FRONT, piece="front", **step).values():
        check_same(told, measured(FRONT)["pieces"]["front"])


def test_unfolded_it_measures_twice_as_much():
    was = measured(FRONT)["pieces"]["front"]
    told = after(FRONT, step="unfold", piece="front", edge="centre")["front"]
    assert told["area_mm2"] == pytest.approx(2 * was["area_mm2"])
    assert told["edges"]["neck"] == pytest.approx(2 * was["edges"]["neck"])
    for edge in ("armhole", "armhole 2"):
        assert told["edges"][edge] == pytest.approx(was["edges"]["armhole"])
    assert told["levels_mm"] == pytest.approx({level: 2 * mm for level, mm in was["levels_mm"].items()})


def test_a_seam_moved_between_curved_pieces_keeps_the_girths():
    seam = {"step": "move seam", "pieces": ["front", "back"], "edges": ["side", "side"], "by": "1/2 in"}
    was, told = (
        measured(FRONT, FRONT | {"name": "back"}),
        measured(FRONT, FRONT | {"name": "back"}, steps=[seam]),
    )
    assert told["girths"] == pytest.approx(was["girths"], abs=0.01)
    assert told["pieces"]["front"]["area_mm2"] > was["pieces"]["front"]["area_mm2"] > 0


TAKE_OVER = {
    "step": "take over edge",
    "pieces": ["front", "back"],
    "edges": ["armhole", "armhole"],
    "from": ["other front", "other back"],
    "donor_edges": ["armhole", "armhole"],
    "blend": "3 in",
}


@pytest.mark.parametrize("hold", ["start", "end"])
def test_an_edge_that_is_taken_over_is_the_donors_point_for_point(hold):
    donors = bodice("other front", armhole=108.0), bodice("other back", armhole=116.0)
    told = measured(FRONT, BACK, *donors, steps=[{**TAKE_OVER, "hold": hold}])["pieces"]
    for name, drawn in (("front", FRONT), ("back", BACK)):
        other = told[f"other {name}"]
        assert told[name]["edges"]["armhole"] == pytest.approx(other["edges"]["armhole"], abs=0.01)
        assert told[name]["edges"]["hem"] == pytest.approx(
            measured(drawn)["pieces"][name]["edges"]["hem"], abs=0.01
        )
        edge, theirs = edge_points(told[name], "armhole"), edge_points(other, "armhole")
        held = edge_points(drawn, "armhole")[0 if hold == "start" else -1]
        assert edge[0 if hold == "start" else -1] == pytest.approx(held, abs=0.01)
        assert edge - edge[0] == pytest.approx(theirs - theirs[0], abs=0.01)


def edge_points(told, edge):
    """The points of an edge, from its own to the next that has a name, as drawn."""
    points, names = outline_of(told), [node.get("edge", "") for node in told["nodes"]]
    start = names.index(edge)
    count = next(step for step in range(1, len(names) + 1) if names[(start + step) % len(names)])
    return np.array([points[(start + step) % len(points)] for step in range(count + 1)])


def test_an_outer_layer_is_as_much_larger_as_its_circle():
    """At 3 mm further out each girth is 2π · 3 more, whatever is fixed of it at a fastening."""
    fastening = {"overlap": {"waist": "1 in"}, "gap": "0 in"}
    step = {"step": "outer layer", "pieces": ["front", "back"], "by": "3 mm", "keep": []}
    was = measured(FRONT, BACK, fastening=fastening)["girths"]
    told = measured(FRONT, BACK, fastening=fastening, steps=[step])["girths"]
    assert told == pytest.approx({level: mm + 6 * pi for level, mm in was.items()}, abs=0.05)


@pytest.mark.parametrize(("ease", "ease_mm"), [("0 in", 0), ("1/4 in", 6.35)])
@pytest.mark.parametrize("gives_way", ["front", "back"])
def test_a_trued_seam_is_equal_but_for_its_ease(ease, ease_mm, gives_way):
    pieces, edges = ["front", "back"], ["side", "side"]
    seams = [{"pieces": pieces, "edges": edges, "ease": ease}]
    step = {"step": "true", "pieces": pieces, "edges": edges, "gives_way": gives_way}
    was, told = (measured(FRONT, BACK, seams=seams, steps=steps)["pieces"] for steps in ([], [step]))
    assert told["front"]["edges"]["side"] - told["back"]["edges"]["side"] == pytest.approx(ease_mm, abs=0.01)
    stays = "back" if gives_way == "front" else "front"
    assert told[stays]["edges"]["side"] == pytest.approx(was[stays]["edges"]["side"], abs=0.01)


SHARES = [["front", "side", 0.5], ["back", "side", 0.5]]


def test_altered_girths_change_by_what_was_asked():
    step = {"step": "alter", "changes": {"waist": "1 1/2 in", "bust": "-1/2 in"}, "seams": SHARES}
    was, told = measured(FRONT, BACK)["girths"], measured(FRONT, BACK, steps=[step])["girths"]
    assert told["waist"] - was["waist"] == pytest.approx(38.1, abs=0.01)
    assert told["bust"] - was["bust"] == pytest.approx(-12.7, abs=0.01)


def test_graded_girths_are_those_wanted():
    step = {"step": "grade", "girths": {"waist": "38 in", "bust": "41 in"}, "seams": SHARES}
    told = measured(FRONT, BACK, steps=[step])["girths"]
    assert told["waist"] == pytest.approx(38 * 25.4, abs=0.5)
    assert told["bust"] == pytest.approx(41 * 25.4, abs=0.5)


@pytest.mark.parametrize(
    "step",
    [
        {"step": "turn", "piece": "front", "cut": [[0, 300], [160, 40]], "by": "1/2 in"},
        {"step": "spread", "piece": "front", "cut": [[110, 0], [110, 9]], "by": "1/2 in"},
        {"step": "add", "piece": "front", "edge": "side", "by": "1/2 in"},
        {"step": "add", "piece": "front", "edge": "armhole", "by": "-1/4 in"},
        {"step": "facing", "piece": "front", "edges": ["armhole"], "width": "1 1/2 in", "name": "facing"},
        {"step": "band", "piece": "front", "edges": ["armhole"], "height": "1 in", "name": "band"},
        {"step": "outer layer", "pieces": ["front", "back"], "by": "2 mm", "keep": []},
        {"step": "alter", "changes": {"waist": "1 in"}, "seams": SHARES},
    ],
    ids=lambda step: step["step"],
)
def test_what_comes_of_curves_is_a_document_again(step):
    """As near as the format holds a curve, which has no handles: a hundredth, a millionth of the area."""
    told = answer_to(document(FRONT, BACK, steps=[step]))
    again = answer_to(document(*told["list"]))
    assert again["girths"] == pytest.approx(told["girths"], abs=0.01)
    for name, one in told["pieces"].items():
        for figure in FIGURES:
            assert again["pieces"][name][figure] == pytest.approx(one[figure], rel=1e-6, abs=0.01)
