"""Documents for `pattern`, and what the command says to one."""

import json
import tempfile
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command

from fitting.management.commands.pattern import Command

Point = tuple[float, float]


def piece(name: str, corners: dict[Point, str] | list[tuple[Point, str]], **given: Any) -> dict[str, Any]:
    """One of straight sides: each corner with the name of the edge that leaves it, empty to go on."""
    rows = corners.items() if isinstance(corners, dict) else corners
    nodes = [{"at": list(at), **({"edge": edge} if edge else {})} for at, edge in rows]
    return {"name": name, "cut": 2, "mirrored": True, "nodes": nodes, **given}


def square(name: str = "front", width: float = 300, height: float = 400, **given: Any) -> dict[str, Any]:
    """Upright, its waist half-way down, its first point on the left above."""
    corners = {(0, 0): "top", (width, 0): "right", (width, height): "bottom", (0, height): "left"}
    levels = {"waist": [[0, height / 2], [width, height / 2]]}
    return piece(name, corners, **{"levels": levels, **given})


def document(*pieces: dict[str, Any], steps: Any = (), **given: Any) -> dict[str, Any]:
    return {
        "format": "plate-and-toile pattern",
        "version": 1,
        "pieces": list(pieces),
        "steps": list(steps),
        **given,
    }


def run(given: str, *options: str) -> tuple[int, str, str]:
    """The exit, what is printed, and what is said of faults."""
    out, err = StringIO(), StringIO()
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "pattern.json"
        file.write_text(given)
        try:
            call_command(Command(), str(file), "--json", *options, stdout=out, stderr=err)
        except SystemExit as end:
            return int(end.code or 0), out.getvalue(), err.getvalue()
    return 0, out.getvalue(), err.getvalue()


def answer_to(given: dict[str, Any]) -> dict[str, Any]:
    """Of a document without faults; its pieces by their names."""
    code, out, err = run(json.dumps(given))
    assert (code, err) == (0, ""), err
    answer = json.loads(out)
    return {**answer, "pieces": {one["name"]: one for one in answer["pieces"]}, "list": answer["pieces"]}


def faults_of(given: dict[str, Any] | str) -> list[str]:
    """One a line, each with its place; nothing else is printed."""
    code, out, err = run(given if isinstance(given, str) else json.dumps(given))
    assert (code, out) == (2, "")
    assert err
    return err.splitlines()


def check_piece(told: dict[str, Any], *, area=None, perimeter=None, edges=None, levels=None) -> None:
    """What is asked for to a hundredth of a millimetre, and a millionth of the area."""
    if area is not None:
        assert told["area_mm2"] == pytest.approx(area, rel=1e-6)
    if perimeter is not None:
        assert told["perimeter_mm"] == pytest.approx(perimeter, abs=0.01)
    for name, wanted in (("edges", edges or {}), ("levels_mm", levels or {})):
        assert {key: told[name][key] for key in wanted} == pytest.approx(wanted, abs=0.01)


def outline_of(told: dict[str, Any]) -> list[list[float]]:
    return [node["at"] for node in told["nodes"]]
