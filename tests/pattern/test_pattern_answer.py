"""What `pattern` prints of pieces and steps: its keys, girths, what each step changed, and the drawing."""

import json
import subprocess
import sys
from math import hypot
from pathlib import Path
from xml.etree import ElementTree

import pytest

from tests.makers.patterns import answer_to, document, piece, run, square

ROOT = Path(__file__).resolve().parents[2]
DART = {"kind": "dart", "points": [[140, 400], [150, 250], [160, 400]]}
LENGTHEN = {"step": "lengthen", "piece": "front", "line": [[0, 300], [300, 300]], "by": "1 in"}
MEASURED = {"area_mm2", "perimeter_mm", "edges", "levels_mm"}


def test_the_answer_has_the_keys_of_the_format():
    given = document(square(marks=[DART]), steps=[LENGTHEN])
    _, out, _ = run(json.dumps(given))
    answer = json.loads(out)
    assert {"pieces", "girths", "steps"} <= set(answer)
    [front] = answer["pieces"]
    assert {*given["pieces"][0], *MEASURED} <= set(front)
    [told] = answer["steps"]
    assert set(told) == {"step", "said", "changed", "broke"}
    assert (told["step"], type(told["said"]), type(told["broke"])) == ("lengthen", str, list)


def test_without_steps_pieces_are_measured_as_they_are():
    answer = answer_to(document(square()))
    front = answer["pieces"]["front"]
    assert (front["area_mm2"], front["perimeter_mm"]) == (pytest.approx(120000), pytest.approx(1400))
    assert front["edges"] == pytest.approx({"top": 300, "right": 400, "bottom": 300, "left": 400})
    assert answer["steps"] == []


def test_what_a_step_changed_is_told_before_and_after():
    [told] = answer_to(document(square(), square("back"), steps=[LENGTHEN]))["steps"]
    assert told["changed"] == {
        "front": {
            "area_mm2": pytest.approx([120000, 127620]),
            "right": pytest.approx([400, 425.4]),
            "left": pytest.approx([400, 425.4]),
        }
    }


# Twice 300 and once 260 are 860 at the waist; there 12.7 lies double and 25.4 stays open. The hip is the
# front's.
def test_girths_are_widths_by_how_often_they_are_cut_less_what_lies_double():
    front = square(levels={"waist": [[0, 200], [300, 200]], "hip": [[0, 300], [300, 300]]})
    back = square("back", width=260, cut=1, mirrored=False)
    fastening = {"overlap": {"waist": "1/2 in"}, "gap": "1 in"}
    told = answer_to(document(front, back, fastening=fastening))
    assert told["girths"] == pytest.approx({"waist": 860 - 12.7 + 25.4, "hip": 600 + 25.4})


# The dart is 20 broad at its mouth and 150 long: 50 above the mouth 20 · 100 ÷ 150 of it.
def test_a_level_is_less_by_what_a_dart_takes_up_on_it():
    levels = {"waist": [[0, 350], [300, 350]], "bust": [[0, 240], [300, 240]]}
    told = answer_to(document(square(marks=[DART], levels=levels)))["pieces"]["front"]
    assert told["levels_mm"] == pytest.approx({"waist": 300 - 20 * 100 / 150, "bust": 300}, abs=0.01)
    assert (told["edges"]["bottom"], told["perimeter_mm"]) == (pytest.approx(300), pytest.approx(1400))


def test_a_level_is_measured_within_the_outline():
    levels = {"waist": [[-10, 200], [320, 200]], "bust": [[0, 100], [150, 140], [300, 100]]}
    told = answer_to(document(square(levels=levels)))["pieces"]["front"]["levels_mm"]
    assert told == pytest.approx({"waist": 300, "bust": 2 * hypot(150, 40)}, abs=0.01)


def test_parts_take_the_place_of_what_was_cut_and_other_new_pieces_go_last():
    steps = [
        {"step": "copy", "piece": "front", "name": "lining"},
        {"step": "cut", "piece": "front", "along": [[100, 0], [100, 9]], "names": ["one", "other"]},
        {"step": "band", "piece": "back", "edges": ["top"], "height": "1 in", "name": "band"},
    ]
    told = answer_to(document(square(), square("back"), steps=steps))["list"]
    assert [part["name"] for part in told] == ["one", "other", "back", "lining", "band"]


def test_a_piece_made_by_one_step_is_there_for_the_next():
    steps = [
        {"step": "copy", "piece": "front", "name": "lining"},
        {"step": "add", "piece": "lining", "edge": "bottom", "by": "-1 in"},
    ]
    told = answer_to(document(square(), steps=steps))["pieces"]
    assert told["lining"]["area_mm2"] == pytest.approx(300 * 374.6)


def test_two_sides_are_each_cut_once_and_the_girth_stays():
    step = {"step": "sides", "piece": "front", "names": ["left", "right"]}
    told = answer_to(document(square(), steps=[step]))
    assert {name: (one["cut"], one["mirrored"]) for name, one in told["pieces"].items()} == {
        "left": (1, False),
        "right": (1, False),
    }
    assert told["girths"] == pytest.approx({"waist": 600})


def test_an_edge_is_named_by_the_point_that_it_starts_from_and_wraps():
    """The first point bears no name: its side goes on with the edge that the last one began."""
    drawn = piece("front", [((0, 0), ""), ((300, 0), "right"), ((300, 400), "round")])
    told = answer_to(document(drawn))["pieces"]["front"]
    assert told["edges"] == pytest.approx({"right": 400, "round": 500 + 300})


def test_people_are_told_in_words(tmp_path):
    file = tmp_path / "pattern.json"
    file.write_text(json.dumps(document(square(), steps=[LENGTHEN])))
    done = subprocess.run(
        [sys.executable, str(ROOT / "manage.py"), "pattern", "-"],
        cwd=tmp_path,
        input=file.read_bytes(),
        capture_output=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, b"")
    assert "front" in done.stdout.decode()


def test_it_is_drawn_at_full_size(tmp_path):
    file = tmp_path / "pattern.svg"
    run(json.dumps(document(square(), steps=[LENGTHEN])), "--svg", str(file))
    root = ElementTree.parse(file).getroot()  # noqa: S314  drawn by ourselves
    assert root.get("width").endswith("mm")
    assert float(root.get("width").removesuffix("mm")) >= 300
    assert float(root.get("height").removesuffix("mm")) >= 425.4


def test_the_bodice_of_the_fixtures_is_altered_and_trued():
    """1 1/2 in more at the bust, 1 in at the waist; the side seams meet when the dart in one is sewn."""
    given = (ROOT / "fixtures" / "patterns" / "bodice.json").read_text()
    plain = json.loads(run(json.dumps(json.loads(given) | {"steps": json.loads(given)["steps"][:2]}))[1])
    answer = json.loads(run(given)[1])
    assert answer["girths"]["bust"] - plain["girths"]["bust"] == pytest.approx(38.1, abs=0.01)
    assert answer["girths"]["waist"] - plain["girths"]["waist"] == pytest.approx(25.4, abs=0.01)
    front, back = answer["pieces"]
    foot, _, other = next(mark["points"] for mark in front["marks"] if mark["kind"] == "dart")
    mouth = hypot(foot[0] - other[0], foot[1] - other[1])
    assert front["edges"]["side"] - mouth == pytest.approx(back["edges"]["side"], abs=0.01)
