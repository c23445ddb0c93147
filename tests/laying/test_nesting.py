"""The process that nests: ended in time or when asked to, its panics and nonsense kept out of the lay."""

import json
import os
import time
from pathlib import Path

import pytest

from fitting.laying.calculation import nesting
from fitting.laying.calculation.cloth import Cloth
from fitting.laying.calculation.lay_out import Order, lay_out
from fitting.laying.calculation.search import Ending, Progress
from fitting.laying.exchange.lay_answer import lay_said
from fitting.laying.exchange.lay_file import read_lay
from tests.makers.lays import LAYS, assert_sound, make_piece, until

WEDGE = [(0.0, 0.0), (200.0, 0.0), (110.0, 900.0), (90.0, 900.0)]


@pytest.fixture
def order() -> Order:
    wedges = make_piece("gore", WEDGE, copies=6, paired=True, allowance_mm=10)
    return Order(cloth=Cloth(width_mm=500, gap_mm=2), pieces=(wedges,), seconds=0.5)


def run_instead(monkeypatch: pytest.MonkeyPatch, folder: Path, *lines: str) -> None:
    script = folder / "instead.py"
    script.write_text("\n".join(("import json, os, sys, time", "asked = json.load(sys.stdin)", *lines)))
    monkeypatch.setattr(nesting, "_NEST", script)


def test_nesting_beats_boxes():
    order = read_lay((LAYS / "walking_dress.json").read_text(encoding="utf-8")).order
    boxes = lay_out(order, watch=lambda progress: False)
    assert_sound(boxes)
    nested = lay_out(Order(cloth=order.cloth, pieces=order.pieces), watch=until(2))
    assert nested.length_mm < 0.9 * boxes.length_mm


def test_the_search_is_told_of_and_stopped_when_asked(order):
    seen = []

    def watch(progress: Progress) -> bool:
        seen.append(progress)
        return progress.lays == 0

    start = time.monotonic()
    lay = lay_out(Order(cloth=order.cloth, pieces=order.pieces, seconds=60), watch=watch)
    assert time.monotonic() - start < 20
    assert_sound(lay)
    assert [progress.lays for progress in seen] == [0] * (len(seen) - 1) + [1]
    assert seen[-1].of_seconds == 60


@pytest.mark.parametrize(
    "line",
    [
        "sys.exit(101)",
        "os.abort()",
        "print('no lay at all')",
        "print('[[0, 0.0')",
        "print(json.dumps([[0, 0.0, 0.0, 0.0]]))",
        "print(json.dumps([[0, 0.0, float('nan'), 0.0]] * 3 + [[1, 0.0, 0.0, 0.0]] * 3))",
    ],
    ids=["exit", "abort", "words", "cut short", "pieces missing", "nowhere"],
)
def test_what_is_no_lay_leaves_the_plain_one(monkeypatch, tmp_path, order, line):
    run_instead(monkeypatch, tmp_path, line)
    assert_sound(lay_out(order))


def test_pieces_all_in_one_place_are_slid_apart_or_left_out(monkeypatch, tmp_path, order):
    everything = [[0, 0.0, 500.0, 500.0]] * 3 + [[1, 0.0, 500.0, 500.0]] * 3
    run_instead(monkeypatch, tmp_path, f"print({json.dumps(json.dumps(everything))})")
    assert_sound(lay_out(order))


def test_a_process_that_does_not_end_is_ended(monkeypatch, tmp_path, order):
    note = tmp_path / "pid"
    run_instead(monkeypatch, tmp_path, f"open({str(note)!r}, 'w').write(str(os.getpid()))", "time.sleep(600)")
    start = time.monotonic()
    assert_sound(lay_out(order))
    assert time.monotonic() - start < 10
    with pytest.raises(ProcessLookupError):
        os.kill(int(note.read_text()), 0)


def test_one_file_gives_one_lay(monkeypatch):
    # So few tries that the minute they may take ends no machine's search: the count does.
    monkeypatch.setattr(nesting, "_TRIES_A_SECOND", 1)
    order = read_lay((LAYS / "walking_dress.json").read_text(encoding="utf-8")).order
    first, second = (lay_out(Order(cloth=order.cloth, pieces=order.pieces, seconds=60)) for _ in range(2))
    assert first.ending is second.ending is Ending.TRIES
    assert first.placements == second.placements


def test_the_clock_is_said_to_have_ended_a_search(monkeypatch, tmp_path, order):
    run_instead(monkeypatch, tmp_path, "time.sleep(600)")
    lay = lay_out(order)
    assert lay.ending is Ending.CLOCK
    assert any(sentence.startswith("The clock ended the search") for sentence in lay_said(lay))
