"""Nesting in a process of its own: started, watched, ended in time, its best lay brought back to the strip.

The solver reckons in single precision on a strip of fixed height that grows to the right. So the strip is
turned onto its side and scaled, each shape moved to its own origin and grown by a hair, and what comes back
is placed again by exact sums.
"""

import json
import subprocess
import sys
import time
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from queue import Empty, SimpleQueue
from threading import Thread

from shapely import Polygon

from fitting.laying.calculation.piece import ring
from fitting.laying.calculation.search import SEED, Ending, Progress, Watch
from fitting.laying.calculation.strip import PlacedCopy, Strip, TurnedShape, bounds, grown, turned
from fitting.laying.calculation.wrapping import wrapped

_NEST = Path(__file__).with_name("nest.py")
_HEIGHT = 1000.0  # of the scaled strip
_HAIR = 0.005  # grown by this on the scaled strip; single precision at 8000 errs by a tenth of it
_HAIR_ALONG = 5e-7  # and by this part of the strip's length, where it is longer
_ROOM = 0.05  # the solver tries places at random: it finds none for a shape that fills the height with less
_GRACE_S = 0.25  # for starting the process, and for its last words
_TICK_S = 0.1
# What a second is worth: usual machines do so much well within it. Most lays end by failures, at which the
# solver has tried in vain to make a lay a thousandth shorter; those of very many pieces by tries.
_TRIES_A_SECOND = 100
_SECONDS_A_FAILURE = 5
_LONGEST_S = 600  # for the solver to explore in: what it does there depends on no other clock


_Placed = list[tuple[int, float, float, float]]  # shape, turn, x, y: as the process prints them


def nested(
    strip: Strip, *, seconds: float, length: float, watch: Watch | None = None
) -> tuple[list[PlacedCopy] | None, Ending]:
    """The best lay found in the tries that `seconds` are worth, within them, before `watch` answered False.

    None where none was found.
    `length` is that of a lay already known, for the precision to reckon with. What comes back is not checked:
    rounding may leave tiny overlaps.
    """
    scale = _HEIGHT / strip.width
    hair = max(_HAIR, _HAIR_ALONG * length * scale) / scale
    forms = [_Form(turns, strip, hair, scale) for turns in strip.shapes]
    widest = max(min(one.width for one in turns) for turns in strip.shapes)
    room = _ROOM / scale if strip.width - widest < _ROOM / scale else hair
    asked = {
        "height": (strip.width + strip.gap + 2 * hair + room) * scale,
        "seconds": _LONGEST_S,
        "seed": SEED,
        "tries": max(1, int(seconds * _TRIES_A_SECOND)),
        "failures": max(1, int(seconds / _SECONDS_A_FAILURE)),
        "shapes": [form.asked for form in forms],
    }
    placed, ending = _run(json.dumps(asked), seconds, watch)
    if placed is None:
        return None, ending
    middle = strip.width + strip.gap / 2 + hair + room / 2
    return [forms[number].lying(turn, x / scale, y / scale, middle) for number, turn, x, y in placed], ending


class _Form:
    """A shape as the solver is given it: on its side, grown, about its own origin, scaled."""

    def __init__(self, turns: Sequence[TurnedShape], strip: Strip, hair: float, scale: float) -> None:
        self.by_turn = {one.rotation_deg: one for one in turns}
        shape = turns[0].shape
        as_drawn = turned(shape.outline, mirrored=shape.mirrored, rotation_deg=0)
        # Points nearer to one another than single precision tells apart end the solver.
        round_it = ring(Polygon(grown(wrapped(as_drawn), strip.gap / 2 + hair)).simplify(hair / 4))
        on_side = turned(round_it, mirrored=False, rotation_deg=270)
        left, low, right, high = bounds(on_side)
        self.centre = ((left + right) / 2, (low + high) / 2)
        self.asked = {
            "points": [((x - self.centre[0]) * scale, (y - self.centre[1]) * scale) for x, y in on_side],
            "copies": shape.copies,
            "turns": list(self.by_turn),
        }

    def lying(self, turn: float, x: float, y: float, width: float) -> PlacedCopy:
        """Back upright: the solver's x runs up the cloth, its y from the right edge to the left."""
        degrees = round(turn) % 360
        ((centre_x, centre_y),) = turned((self.centre,), mirrored=False, rotation_deg=degrees)
        # On its side a point is (y, −x); turned back it is (−y, x).
        return PlacedCopy(turned=self.by_turn[degrees], x=width - (y - centre_y), y=x - centre_x)


def _run(asked: str, seconds: float, watch: Watch | None) -> tuple[_Placed | None, Ending]:
    """Ends the process in the end, whatever happens: it has no way of its own to stop."""
    lays: SimpleQueue[_Placed | None] = SimpleQueue()
    process = subprocess.Popen(  # noqa: S603 - this Python and a file beside this one
        [sys.executable, "-P", str(_NEST)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    )
    talk = Thread(target=_talk, args=(process, asked, lays))
    talk.start()
    try:
        return _best_in_time(lays, seconds, watch)
    finally:
        process.kill()
        talk.join()


def _best_in_time(
    lays: "SimpleQueue[_Placed | None]", seconds: float, watch: Watch | None
) -> tuple[_Placed | None, Ending]:
    started, best, count = time.monotonic(), None, 0
    while (ran := time.monotonic() - started) < seconds + _GRACE_S:
        if watch and not watch(Progress(seconds=min(ran, seconds), of_seconds=seconds, lays=count)):
            return best, Ending.STOPPED
        try:
            lay = lays.get(timeout=_TICK_S)
        except Empty:
            continue
        if lay is None:
            return best, Ending.TRIES
        best, count = lay, count + 1
    return best, Ending.CLOCK


def _talk(process: "subprocess.Popen[str]", asked: str, lays: "SimpleQueue[_Placed | None]") -> None:
    """Ask, and pass on every lay; None when the process has ended or says what nobody can read."""
    with process, suppress(OSError, ValueError):
        assert process.stdin  # noqa: S101 - both are pipes: said for the type checker
        assert process.stdout  # noqa: S101
        process.stdin.write(asked)
        process.stdin.close()
        for line in process.stdout:
            lays.put(json.loads(line))
    lays.put(None)
