"""The command that lays: its answer judged by its words alone, and what it says of what it cannot read."""

import json
import math
import subprocess
import sys
from pathlib import Path

import pytest
from django.core.management import call_command
from shapely import Polygon

from catalogue.lengths.calculation.lengths import parse_length
from fitting.laying.calculation.strip import Placement
from tests.makers.lays import (
    INCH_MM,
    LAYS,
    OUTSIDE_MM,
    OVERLAP_MM2,
    largest_overlap_mm2,
    least_distance_mm,
    most_outside_mm,
    placed,
)

ROOT = Path(__file__).resolve().parents[2]
SQUARE = {"name": "square", "outline": [[0, 0], [100, 0], [100, 100], [0, 100]]}


def make_order(**values) -> dict:
    """Nine squares that fill 300 mm of cloth; `cloth` adds to what is said of it."""
    cloth = {"width": "300 mm"} | values.pop("cloth", {})
    return {"cloth": cloth, "pieces": [SQUARE | {"cut": 9}], "seconds": 0.3} | values


def answer_to(order: dict, folder: Path, capsys: pytest.CaptureFixture[str]) -> dict:
    file = folder / "order.json"
    file.write_text(json.dumps(order), encoding="utf-8")
    call_command("lay", str(file), "--json")
    return json.loads(capsys.readouterr().out)


def run(*arguments: str, text: str = "") -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "manage.py", "lay", *arguments]
    return subprocess.run(command, input=text, capture_output=True, text=True, cwd=ROOT, check=False)


def shapes_laid(order: dict, answer: dict) -> list[Polygon]:
    """Cut outlines from the file, parts from the answer, each placed as the format words it."""
    outlines = {}
    for piece in order["pieces"]:
        allowance_mm = float(parse_length(piece.get("allowance", "0 in")))
        outlines[piece["name"]] = Polygon(piece["outline"]).buffer(
            allowance_mm, join_style="mitre", mitre_limit=5
        )
    for piecing in answer["piecing"]:
        outlines |= {part["name"]: Polygon(part["outline"]) for part in piecing["parts"]}
    return [
        placed(
            outlines[one["piece"]].exterior.coords,
            Placement(
                piece=one["piece"],
                mirrored=one["mirrored"],
                rotation_deg=one["rotation_deg"],
                x_mm=one["x_mm"],
                y_mm=one["y_mm"],
            ),
        )
        for one in answer["placements"]
    ]


@pytest.mark.parametrize(
    ("name", "usable_mm", "gap_mm", "copies"),
    [
        ("walking_dress.json", 21.5 * INCH_MM * 0.99, 0, 26),
        ("bedgown_of_narrow_silk.json", 19.75 * INCH_MM, INCH_MM / 8, 14),
    ],
)
def test_the_answer_is_a_lay_by_its_own_words(name, usable_mm, gap_mm, copies, tmp_path, capsys):
    order = json.loads((LAYS / name).read_text(encoding="utf-8")) | {"seconds": 0.5}
    answer = answer_to(order, tmp_path, capsys)
    assert list(answer)[:5] == ["length_mm", "length_to_buy_mm", "density", "placements", "piecing"]
    assert list(answer)[5:] == ["repeat", "ended_by", "said"]
    assert all(
        list(one) == ["piece", "mirrored", "rotation_deg", "x_mm", "y_mm"] for one in answer["placements"]
    )
    shapes = shapes_laid(order, answer)
    assert len(shapes) == copies
    assert most_outside_mm(shapes, width_mm=usable_mm, length_mm=answer["length_mm"]) <= OUTSIDE_MM
    assert largest_overlap_mm2(shapes) <= OVERLAP_MM2
    assert least_distance_mm(shapes) >= gap_mm - 1e-6
    area = sum(shape.area for shape in shapes)
    assert math.isclose(answer["density"], area / (usable_mm * answer["length_mm"]), rel_tol=1e-9)


def test_a_piece_wider_than_the_cloth_is_listed_with_its_parts_where_they_lie(tmp_path, capsys):
    order = json.loads((LAYS / "bedgown_of_narrow_silk.json").read_text(encoding="utf-8")) | {"seconds": 0.5}
    answer = answer_to(order, tmp_path, capsys)
    (piecing,) = answer["piecing"]
    assert {key: piecing[key] for key in ("piece", "copies", "mirrored_pair")} == {
        "piece": "body",
        "copies": 4,
        "mirrored_pair": True,
    }
    assert piecing["allowance_mm"] == pytest.approx(0.375 * INCH_MM)
    assert [part["name"] for part in piecing["parts"]] == ["body part 1", "body part 2"]
    laid = [one for one in answer["placements"] if one["piece"].startswith("body")]
    listed = [one for part in piecing["parts"] for one in part["placements"]]
    assert len(laid) == 8
    assert sorted(map(str, laid)) == sorted(map(str, listed))
    # The two sides of the join overlap by its two allowances.
    first, second = (Polygon(part["outline"]).bounds for part in piecing["parts"])
    assert first[2] - second[0] == pytest.approx(0.75 * INCH_MM)
    assert (first[2] + second[0]) / 2 == pytest.approx(piecing["lines_x_mm"][0])


@pytest.mark.parametrize(
    ("cloth", "laid_mm", "bought_mm"),
    [
        ({"unit": "10 cm"}, 300, 300),
        ({"unit": "1/8 yd"}, 300, 342.9),
        ({"unit": "1 mm", "shrinkage": {"length": 0.04}}, 300, 313),  # 300 ÷ 0.96 = 312.5
        # Three rows of 100 start at 0, 125 and 250: 350 in three repeats of 125.
        ({"unit": "1 cm", "repeat": "125 mm"}, 350, 380),
    ],
)
def test_the_length_to_buy_is_in_the_shops_unit(cloth, laid_mm, bought_mm, tmp_path, capsys):
    answer = answer_to(make_order(cloth=cloth), tmp_path, capsys)
    assert answer["length_mm"] == pytest.approx(laid_mm)
    assert answer["density"] == pytest.approx(300 / laid_mm)
    assert answer["length_to_buy_mm"] == pytest.approx(bought_mm)


def test_half_of_a_pair_is_mirrored(tmp_path, capsys):
    piece = {"outline": [[0, 0], [90, 0], [0, 60]], "cut": 4, "mirrored_pair": True}
    answer = answer_to(make_order(pieces=[piece]), tmp_path, capsys)
    assert sorted(one["mirrored"] for one in answer["placements"]) == [False, False, True, True]
    assert {one["piece"] for one in answer["placements"]} == {"piece 1"}


def test_people_read_what_to_buy_and_where_each_piece_lies(tmp_path, capsys):
    drawing, file = tmp_path / "lay.svg", tmp_path / "order.json"
    order = json.loads((LAYS / "bedgown_of_narrow_silk.json").read_text(encoding="utf-8")) | {"seconds": 0.5}
    file.write_text(json.dumps(order), encoding="utf-8")
    call_command("lay", str(file), "--svg", str(drawing))
    text = capsys.readouterr().out
    assert "Lay on cloth 20 in wide, 19 3/4 in of it to use, two-way" in text
    assert " yd\n" in text.split("Buy", 1)[1]
    assert "“body” is wider than the cloth: 2 parts" in text
    assert "cloth.shrinkage.length 0" in text
    assert drawing.read_text(encoding="utf-8").startswith("<svg ")


def test_it_reads_standard_input_without_a_database():
    done = run("-", "--json", text=json.dumps(make_order()))
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)["length_mm"] == pytest.approx(300)


def test_every_fault_is_told_at_once_with_its_path_and_nothing_is_printed():
    bow_tie = {"name": "bow", "outline": [[0, 0], [9, 9], [9, 0], [0, 9]], "cut": 3, "mirrored_pair": True}
    order = make_order(
        cloth={"selvedge": "150 mm", "colour": "red"}, pieces=[bow_tie, SQUARE | {"name": "bow"}]
    )
    done = run("-", "--json", text=json.dumps(order))
    assert done.returncode == 2
    assert done.stdout == ""
    lines = done.stderr.splitlines()
    assert [line.split(": ")[0] for line in lines] == [
        "cloth.colour",
        "cloth.selvedge",
        "pieces[0].cut",
        "pieces[0].outline",
        "pieces[1].name",
    ]
    assert "from point 1 to point 2 meets the edge from point 3 to point 4" in lines[3]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["no such file.json"], "file: no such file.json cannot be read"),
        (["-", "--svg", "no such folder/lay.svg"], "svg: no such folder/lay.svg cannot be written"),
    ],
)
def test_what_cannot_be_opened_is_said(arguments, said):
    done = run(*arguments, text=json.dumps(make_order()))
    assert (done.returncode, done.stdout) == (2, "")
    assert said in done.stderr
