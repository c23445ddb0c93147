"""The boxes of each step: what a maker says is what the step is asked; a fault stands beside its box."""

import json
from dataclasses import replace

import pytest
from django.utils.datastructures import MultiValueDict

from catalogue.workroom.models import User
from fitting.outfits.calculation.garment import Fit
from fitting.pattern.calculation.working.pattern import Pattern, PatternSeam
from fitting.pattern.calculation.working.steps import STEPS
from fitting.pattern.forms.giving_edges import crossing_edges, usual_parts
from fitting.pattern.forms.step_places import along, places_on
from fitting.pattern.forms.steps import STEP_FORMS
from fitting.pattern.loading.wanted import Wanted, WantedLine
from fitting.pattern.showing.pattern_places import origin
from tests.makers.pattern_bodice import PATTERN, PIECES

INCH = 25.4


def wanted(**lines: float) -> Wanted:
    """Over the body by what is said, in millimetres."""
    given = {
        line: WantedLine(body_mm=PATTERN.girths()[line] + by_mm, ease_mm=0.0, doubt_mm=9.5, fit=Fit.FITTED)
        for line, by_mm in lines.items()
    }
    return Wanted(lines=given, fits_mm=12.7, length_fits_mm=9.5)


def form(slug: str, *, pattern: Pattern = PATTERN, system: str = "in", asks: Wanted | None = None, **boxes):
    """Typed into its boxes; unbound where nothing is."""
    typed = MultiValueDict(
        {name: value if isinstance(value, list) else [value] for name, value in boxes.items()}
    )
    user = User(system=system, denominator=16)
    return STEP_FORMS[slug](typed or None, pattern=pattern, wanted=asks or wanted(), user=user)


def pair(one, other) -> str:
    return json.dumps([one, other], ensure_ascii=False)


def place(piece: str, kind: str, which) -> str:
    return json.dumps([piece, kind, which], ensure_ascii=False)


WRIST = pair("upper sleeve", "wrist")
SIDE = {"one": pair("under-arm", "side seam"), "other": pair("side back", "side seam")}
SIDE_PARTS = {"parts-under-arm:-side-seam": "1", "parts-side-back:-skirt-back": "1"}
TAKEN = {
    "alter": {"to-bust": "1 in", **SIDE_PARTS},
    "grade": {"to-bust": "35 in", **SIDE_PARTS},
    "slope-shoulder": {
        "shoulder": pair("back", "shoulder"),
        "armhole": pair("back", "armhole"),
        "by": "-1/4 in",
    },
    "lengthen": {"pieces": ["upper sleeve"], "by": "1 in", "lies": "level elbow"},
    "add": {"edge": WRIST, "by": "1/2 in"},
    "spread": {"piece": "upper sleeve", "by": "1 in", "lies": "level elbow", "below": "2 in"},
    "turn": {"opens": place("collar", "middle", "upper edge"), "by": "1/4 in",
             "hinge": place("collar", "middle", "neck edge")},
    "full-bust": {"opens": place("front", "middle", "hem"), "hinge": place("front", "middle", "shoulder"),
                  "up": "15 in", "by": "1/4 in"},
    "move-corner": {"edge": pair("front", "centre front"), "other": pair("front", "hem"), "down": "1/2 in"},
    "lay-pleat": {"piece": "upper sleeve", "depth": "1/2 in", "lies": "level elbow"},
    "wrap": {"edge": pair("front", "centre front"), "width": "1/2 in"},
    "move-dart": {"dart": pair("front", 0), "to": place("front", "middle", "under-arm seam")},
    "part-dart": {"dart": pair("front", 0), "to": place("front", "middle", "under-arm seam"), "share": "0.5"},
    "gather-dart": {"dart": pair("front", 0)},
    "true": {**SIDE, "gives_way": "one"},
    "true-corner": {**SIDE, "end": "start"},
    "move-seam": {"one": pair("front", "shoulder"), "other": pair("back", "shoulder"), "by": "1/4 in"},
    "allowance": {"piece": "front", "all": "1/2 in", "edge_1": pair("front", "hem"), "own_1": "2 in"},
    "match-notches": {**SIDE, "at_1": "2 in"},
    "turn-pitch": {"edge": pair("upper sleeve", "upper head"), "by": "1/4 in"},
    "set-grain": {"piece": "collar", "lies": "rulers", "from_across": "1 in", "from_down": "0",
                  "to_across": "2 in", "to_down": "1 in"},
    "cut": {"piece": "upper sleeve", "lies": "level elbow"},
    "unfold": {"edge": pair("collar", "centre back")},
    "mirror": {"piece": "front"},
    "copy": {"piece": "front"},
    "sides": {"piece": "front"},
    "facing": {"edge": pair("front", "centre front"), "width": "2 in"},
    "band": {"edge": WRIST, "height": "2 in"},
    "line-with": {"piece": "front", "cloth": "lining"},
    "outer-layer": {"pieces": [piece.name for piece in PIECES], "by": "1/8 in"},
}  # fmt: skip
NOT_ON_THIS_BODICE = {"join", "take-over-edge", "true-sleeve"}


def test_every_step_has_its_boxes():
    assert {form.step for form in STEP_FORMS.values()} == set(STEPS)
    assert set(TAKEN) | NOT_ON_THIS_BODICE == set(STEP_FORMS)


@pytest.mark.parametrize("slug", TAKEN)
def test_what_is_said_in_the_boxes_is_taken(slug):
    said = form(slug, **TAKEN[slug])
    assert said.is_valid(), said.errors
    assert type(said.step_asked) is STEPS[said.step].asks
    assert said.outcome.pattern != PATTERN or slug in ("true", "true-corner")


@pytest.mark.parametrize("slug", STEP_FORMS)
def test_sent_empty_each_says_beside_a_box_what_it_wants(slug):
    said = form(slug, lies="level waist")
    assert not said.is_valid()
    assert all(name in said.fields or name == "__all__" for name in said.errors)


@pytest.mark.parametrize("slug", STEP_FORMS)
def test_what_the_pattern_no_longer_has_is_refused_beside_its_box(slug):
    """As when somebody joined or cut the piece since the page was opened."""
    sash = Pattern(pieces=(replace(PATTERN.piece("collar"), name="sash"),))
    boxes = TAKEN.get(slug, {"one": WRIST, "other": WRIST})
    said = form(slug, pattern=sash, **boxes)
    assert not said.is_valid()
    assert said.data == MultiValueDict(
        {name: value if isinstance(value, list) else [value] for name, value in boxes.items()}
    )


def test_a_seam_is_trued_whichever_gives_way():
    said = form("add", edge=WRIST, by="1/2 in")
    assert said.is_valid()
    for gives_way in ("both", "one", "other"):
        boxes = {"one": pair("upper sleeve", "fore arm seam"), "other": pair("under sleeve", "fore arm seam")}
        trued = form("true", pattern=said.outcome.pattern, gives_way=gives_way, **boxes)
        assert trued.is_valid()
        made = trued.outcome.pattern
        one, other = (made.edge(name, "fore arm seam").length for name in ("upper sleeve", "under sleeve"))
        assert one == pytest.approx(other, abs=0.01)


def test_a_line_below_a_level_is_as_far_below_it_as_was_said():
    said = form("spread", piece="upper sleeve", by="1 in", lies="level elbow", below="2 in")
    assert said.is_valid()
    start, end = PATTERN.piece("upper sleeve").levels["elbow"]
    assert start.imag == end.imag
    for at in said.step_asked.cut:
        assert at.imag == pytest.approx(start.imag + 2 * INCH)


def test_a_line_by_the_rulers_is_read_from_the_left_and_the_top_of_the_piece_in_the_readers_unit():
    rulers = {"from_across": "0", "from_down": "30", "to_across": "10", "to_down": "30"}
    said = form("spread", system="cm", piece="upper sleeve", by="2", lies="rulers", **rulers)
    assert said.is_valid(), said.errors
    corner = origin(PATTERN.piece("upper sleeve"))
    assert said.step_asked.cut == pytest.approx((corner + 300j, corner + 100 + 300j))
    assert said.step_asked.by_mm == pytest.approx(20.0)


def test_a_line_from_place_to_place_runs_through_both():
    piece = PATTERN.piece("upper sleeve")
    places = {label: (json.dumps(["upper sleeve", *key]), at) for key, label, at in places_on(piece)}
    ends = [places[f"middle of the {edge}"] for edge in ("hind arm seam", "fore arm seam")]
    said = form("cut", piece="upper sleeve", lies="places", start=ends[0][0], end=ends[1][0])
    assert said.is_valid(), said.errors
    assert said.step_asked.along == pytest.approx((ends[0][1], ends[1][1]))
    assert {one.name for one in said.outcome.pattern.pieces} >= {"upper sleeve 1", "upper sleeve 2"}


def test_so_far_along_an_outline_is_measured_on_it():
    """From a corner of the collar's straight edge: the straight line is the way along it."""
    piece = PATTERN.piece("collar")
    edge = piece.edges["centre back"]
    assert along(piece, edge.start, 10.0) == pytest.approx(
        edge.start + (edge.end - edge.start) * 10.0 / edge.length, abs=1e-6
    )
    there_and_back = along(piece, along(piece, edge.start, 400.0), -400.0)
    assert there_and_back == pytest.approx(edge.start, abs=1e-4)
    whole_round = along(piece, edge.start, piece.outline.perimeter)
    assert whole_round == pytest.approx(edge.start, abs=1e-4)


@pytest.mark.parametrize(
    ("slug", "boxes", "box"),
    [
        # A sleeve taken in by more than it is wide would be turned inside out.
        ("add", {"edge": pair("collar", "upper edge"), "by": "-20 in"}, "by"),
        ("turn", {"opens": place("collar", "middle", "upper edge"), "hinge": place("front", "middle", "hem"),
                  "by": "1 in"}, "hinge"),
        ("spread", {"piece": "collar", "by": "1 in", "lies": "level elbow"}, "lies"),
        ("spread", {"piece": "collar", "by": "1 in", "lies": "places"}, "start"),
        ("spread", {"piece": "collar", "by": "soon", "lies": "level neck"}, "by"),
        ("spread", {"piece": "collar", "by": "1 in", "lies": "rulers", "from_across": "90 in",
                    "from_down": "0", "to_across": "90 in", "to_down": "1 in"}, "lies"),
        ("copy", {"piece": "front", "name": "back"}, "name"),
        ("facing", {"edge": pair("front", "hem"), "second": pair("back", "hem"), "width": "2 in"}, "second"),
        ("allowance", {"piece": "front", "edge_1": pair("back", "hem"), "own_1": "2 in"}, "edge_1"),
        ("allowance", {"piece": "front", "own_2": "2 in"}, "edge_2"),
        ("move-dart", {"dart": pair("front", 0), "to": place("back", "middle", "hem")}, "to"),
        ("alter", {"to-waist": "1 in"}, "to waist"),
        ("true-sleeve", {"piece": "collar"}, "piece"),
        ("take-over-edge", {"edge_1": pair("front", "armhole"), "from_1": pair("back", "armhole"),
                            "edge_2": pair("front", "neck")}, "from_2"),
    ],
)  # fmt: skip
def test_a_fault_stands_beside_its_box_and_nothing_typed_is_lost(slug, boxes, box):
    said = form(slug, **boxes)
    assert not said.is_valid()
    assert box in said.errors
    for name, typed in boxes.items():
        assert said.data[name] == typed


def test_what_does_not_fit_is_filled_in_and_what_fits_is_not():
    boxes = form("alter", asks=wanted(waist=25.4, bust=5.0))
    assert boxes["to waist"].value() == "1 in"
    assert not boxes["to bust"].value()
    # 34.723 in at the bust, and 1 in: written as the nearest sixteenth.
    assert PATTERN.girths()["bust"] == pytest.approx(34.723 * INCH, abs=0.02)
    assert form("grade", asks=wanted(bust=25.4))["to bust"].value() == "35 3/4 in"


def test_the_seams_that_take_a_change_first_have_the_parts():
    """The side seam and what goes on from it below the waist are one: at the waist it counts once."""
    boxes = form("alter", asks=wanted(waist=25.4))
    taking = {name for name in boxes.fields if name.startswith("parts") and boxes[name].value()}
    assert taking == {"parts under-arm: side seam", "parts side back: skirt back"}
    girths = PATTERN.girths()
    for level in ("bust", "waist", "hip"):
        said = form("alter", **{f"to-{level}": "1 in"}, **SIDE_PARTS)
        assert said.is_valid(), said.errors
        assert said.outcome.pattern.girths() == pytest.approx(girths | {level: girths[level] + INCH})


def test_both_edges_of_a_seam_take_a_change_whichever_bears_the_word():
    """Of a sleeve cut in one the seam's edges are called after its front and its back."""
    sleeve = PATTERN.piece("upper sleeve")
    called = {"fore arm seam": "front of sleeve seam", "hind arm seam": "back of sleeve seam"}
    nodes = [replace(node, edge=called.get(node.edge, node.edge)) for node in sleeve.outline.nodes]
    in_one = replace(sleeve, outline=replace(sleeve.outline, nodes=tuple(nodes)))
    sewn = PatternSeam(pieces=("upper sleeve",) * 2, edges=("front of sleeve seam", "back of sleeve seam"))
    pattern = Pattern(pieces=(in_one,), seams=(sewn,), of_one_limb=frozenset({"upper arm", "elbow", "wrist"}))
    assert set(usual_parts(pattern, crossing_edges(pattern)).values()) == {1}
    assert len(usual_parts(pattern, crossing_edges(pattern))) == 2
