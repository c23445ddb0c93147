"""Documents for `pattern` at random: pieces of straight sides, and steps that no rule refuses."""

from copy import deepcopy
from random import Random
from typing import Any

import numpy as np
from shapely import LineString, Point
from shapely.errors import GEOSException

from tests.oracle.pattern import right_of, ring_of, rotated
from tests.oracle.pattern_pieces import STEPS
from tests.oracle.pattern_soundness import is_plain, is_sound

EDGES = ("neck", "shoulder", "armhole", "side", "hem", "centre", "front")
# What the second reckoning raises where a step has nothing to stand on.
UNSOUND = (ValueError, IndexError, KeyError, StopIteration, GEOSException)


def sound_document(random: Random) -> dict[str, Any]:
    """Of one to three pieces and as many steps, none of which any rule refuses."""
    pieces = [_piece(random, name) for name in ("one", "two", "three")[: random.choice((1, 1, 2, 3))]]
    if random.random() < 0.4 and ring_of(partner := _partner(random, pieces[0])).is_sound:
        pieces.append(partner)
    document = {"format": "plate-and-toile pattern", "version": 1, "pieces": pieces, "steps": []}
    if random.random() < 0.3:
        document["fastening"] = {"overlap": {"waist": "1/2 in"}, "gap": random.choice(("0 in", "1 in"))}
    rings = {piece["name"]: ring_of(piece) for piece in pieces}
    placed = set(rings)  # whose place on the page is told by the rules
    while placed and len(document["steps"]) < random.choice((1, 1, 2, 3)):
        step = _step(random, rings, placed)
        after = deepcopy(rings)
        try:
            STEPS[step["step"]](after, step)
            is_kept = is_sound(rings, after, step)
        except UNSOUND:
            continue
        if is_kept:
            rings = after
            document["steps"].append(step)
            placed = _placed(placed, step)
            if step["step"] == "allowance":  # The cutting line is that of the outline as it is then.
                break
    return document


def _piece(random: Random, name: str) -> dict[str, Any]:
    """A convex outline of four to seven corners, run either way, begun anywhere."""
    while True:
        count = random.randrange(4, 8)
        angles = np.sort([random.uniform(0, 2 * np.pi) for _ in range(count)])
        across, down = random.uniform(120, 300), random.uniform(150, 400)
        points = np.c_[across * np.cos(angles), down * np.sin(angles)].round(2)
        names = [EDGES[i] if i < 2 or random.random() < 0.7 else "" for i in range(count)]
        if random.random() < 0.5:
            points = points[::-1]
        start = random.randrange(count)
        rows = zip(np.roll(points, start, axis=0).tolist(), [*names[-start:], *names[:-start]], strict=True)
        nodes = [{"at": at, **({"edge": edge} if edge else {})} for at, edge in rows]
        piece = {"name": name, "cut": random.choice((1, 2, 2, 3)), "nodes": nodes}
        piece["mirrored"] = piece["cut"] == 2
        if is_plain(ring_of(piece)):
            return _with_marks(random, piece)


def _partner(random: Random, piece: dict[str, Any]) -> dict[str, Any]:
    """One with an edge as long as a side of the other's, lying elsewhere, turned, and run either way."""
    ring = ring_of(piece)
    length = random.choice([mm for name, mm in ring.edges().items() if ring.names.count(name) == 1] or [200])
    down = random.uniform(80, 200)
    square = [[0, 0], [length, 0], [length + random.uniform(-20, 60), down], [random.uniform(-60, 20), down]]
    points = rotated(square, np.zeros(2), random.uniform(0, 6)) + random.uniform(-500, 500)
    names = ["seam", "side", "hem", "back"]
    if random.random() < 0.5:  # run the other way, each side keeping its name
        points, names = points[::-1], [*names[-2::-1], names[-1]]
    nodes = [{"at": at, "edge": name} for at, name in zip(points.tolist(), names, strict=True)]
    return {"name": "gore", "cut": piece["cut"], "mirrored": piece["mirrored"], "nodes": nodes}


def _with_marks(random: Random, piece: dict[str, Any]) -> dict[str, Any]:
    """Levels that reach the outline or beyond, and a dart on the longest side of some."""
    ring = ring_of(piece)
    piece["levels"] = {}
    for level in random.sample(("waist", "bust", "hip"), random.choice((0, 1, 1, 2))):
        y = random.uniform(0.3, 0.7) * np.ptp(ring.points[:, 1]) + ring.points[:, 1].min()
        ends = LineString([(-1e4, y), (1e4, y)]).intersection(ring.polygon).coords
        beyond = random.choice((0, 0, 10))
        piece["levels"][level] = [[min(ends)[0] - beyond, y], [max(ends)[0] + beyond, y]]
    if random.random() < 0.5:
        i = int(np.argmax(np.hypot(*(np.roll(ring.points, -1, axis=0) - ring.points).T)))
        a, b = ring.points[i], ring.points[(i + 1) % len(ring.points)]
        place, half = random.uniform(0.3, 0.7), random.uniform(0.02, 0.06)
        inwards = np.array([a[1] - b[1], b[0] - a[0]]) / np.hypot(*(b - a))
        tip = a + place * (b - a) + inwards * random.uniform(40, 90) + (b - a) * random.uniform(-0.05, 0.05)
        feet = [a + (place + sign * half) * (b - a) for sign in (-1, 1)]
        if ring.polygon.buffer(-20).contains(Point(tip)):
            points = [feet[0].tolist(), tip.tolist(), feet[1].tolist()]
            piece["marks"] = [{"kind": "dart", "points": points}]
    return piece


def _line(random: Random, ring) -> list[list[float]]:
    """Through a place within, clear of every corner; steeply and flatly alike."""
    inside = ring.polygon.representative_point()
    while True:
        place = np.array([inside.x + random.uniform(-60, 60), inside.y + random.uniform(-60, 60)])
        angle = random.choice((0, np.pi / 2, np.pi, random.uniform(0, 2 * np.pi)))
        way = np.array([np.cos(angle), np.sin(angle)]) * random.uniform(5, 100)
        line = np.array([place, place + way]).round(3)
        if np.abs(right_of(ring.points, *line)).min() > 3:
            return line.tolist()


def _length(random: Random, most: float, signed: bool = True) -> str:
    size = random.uniform(2, most)
    sign = random.choice(("", "-")) if signed else ""
    return sign + random.choice(
        (f"{size:.1f} mm", f"{size / 10:.2f} cm", f"{max(1, round(size / 25.4 * 8))}/8 in")
    )


def _on_outline(random: Random, ring) -> list[float]:
    i = random.randrange(len(ring.points))
    return (
        ring.points[i] + random.uniform(0.2, 0.8) * (ring.points[(i + 1) % len(ring.points)] - ring.points[i])
    ).tolist()


def _step(random: Random, rings, placed) -> dict[str, Any]:
    """One that may turn out not to be sound."""
    name = random.choice(sorted(placed))
    ring = rings[name]
    edges = list(ring.edges())
    word = random.choice(
        [*STEPS, "turn", "move dart", "move dart", "add", "move seam", "join", "join", "join"]
    )
    new = f"{word} {random.randrange(10**6)}"
    more: dict[str, Any] = {
        "lengthen": lambda: {"piece": name, "line": _line(random, ring), "by": _length(random, 40)},
        "spread": lambda: {"piece": name, "cut": _line(random, ring), "by": _length(random, 40)},
        "turn": lambda: {
            "piece": name,
            "cut": [_on_outline(random, ring), _on_outline(random, ring)],
            "by": _length(random, 30),
        },
        "move dart": lambda: {"piece": name, "dart": 0, "to": _on_outline(random, ring)},
        "add": lambda: {"piece": name, "edge": random.choice(edges), "by": _length(random, 25)},
        "move seam": lambda: _seam(random, rings, placed, new=None) | {"by": _length(random, 20)},
        "cut": lambda: {"piece": name, "along": _line(random, ring), "names": [f"{name} l", f"{name} r"]},
        "join": lambda: _seam(random, rings, placed, new=new),
        "mirror": lambda: {"piece": name},
        "unfold": lambda: {"piece": name, "edge": random.choice(edges)},
        "copy": lambda: {"piece": name, "name": new},
        "sides": lambda: {"piece": name, "names": [f"{name} left", f"{name} right"]},
        "facing": lambda: {
            "piece": name,
            "edges": [random.choice(edges)],
            "width": _length(random, 40, signed=False),
            "name": new,
        },
        "band": lambda: {"piece": name, "edges": [random.choice(edges)], "height": "1 1/2 in", "name": new},
        "allowance": lambda: {
            "piece": name,
            "all": "1/2 in",
            "edges": {random.choice(edges): _length(random, 30, signed=False)},
        },
    }[word]()
    return {"step": word, **more}


def _seam(random: Random, rings, placed, new: str | None) -> dict[str, Any]:
    """Two edges of two pieces; to be joined, of one length."""
    pairs = [
        (one, edge, other, beside)
        for one in sorted(placed)
        for other in sorted(placed - {one})
        for edge, mm in rings[one].edges().items()
        for beside, other_mm in rings[other].edges().items()
        if new is None or abs(mm - other_mm) < 0.001
    ]
    if not pairs:
        return {"pieces": ["", ""], "edges": ["", ""], "name": new}
    one, edge, other, beside = random.choice(pairs)
    return {"pieces": [one, other], "edges": [edge, beside], **({"name": new} if new else {})}


def lies_where(document) -> set[str]:
    """The pieces of whose place on the page the rules tell, after the last step."""
    placed = {piece["name"] for piece in document["pieces"]}
    given = frozenset(placed)
    for step in document["steps"]:
        placed = _placed(placed, step)
        if step["step"] == "move dart" and step["piece"] not in given:
            placed -= {step["piece"]}  # Which point is the first of a piece that was made is not told.
    return placed


def _placed(before: set[str], step) -> set[str]:
    """What is cut lies where it lay, and of two joined the first does; what is mirrored may lie anywhere."""
    if step["step"] == "cut":
        return before - {step["piece"]} | set(step["names"])
    if step["step"] == "join":
        return before - set(step["pieces"]) | {step["name"]}
    return before - {step["piece"]} if step["step"] in ("mirror", "sides") else before
