"""Steps on edges and on whole pieces, and all steps by their words. See `pattern.py` for what a ring is."""

import numpy as np
from shapely import Polygon

from tests.oracle.pattern import NEAR, Ring, cross, meeting, mm, reflected, ring_of
from tests.oracle.pattern_steps import move_dart, opened, parted, spread, turn


def answer_to(document):
    """The rings after the last step, in no order."""
    rings = {piece["name"]: ring_of(piece) for piece in document["pieces"]}
    for step in document["steps"]:
        STEPS[step["step"]](rings, step)
    return list(rings.values())


def add(rings, step):
    rings[step["piece"]] = added(rings[step["piece"]], [step["edge"]], mm(step["by"]))


def added(ring, edges, by):
    """The sides of these edges go out by so much, and their neighbours run on to meet them."""
    return ring.with_(offset(ring, dict.fromkeys(edges, by)), ring.names)


def offset(ring, by):
    """The corners of the outline once each side has gone out by what its edge does."""
    points, ends = ring.points, np.roll(ring.points, -1, axis=0)
    along = (ends - points) / np.hypot(*(ends - points).T)[:, None]
    out = np.array([by.get(name, 0) for name in ring.names])[:, None] * np.c_[along[:, 1], -along[:, 0]]
    starts, stops = points + out, ends + out
    corners = []
    for i in range(len(points)):
        if abs(cross(along[i - 1], along[i])) < NEAR:  # Straight on: no corner to meet at.
            corners.append(starts[i])
        else:
            corners.append(meeting(starts[i - 1], stops[i - 1], starts[i], stops[i]))
    return corners


def move_seam(rings, step):
    for name, edge, sign in zip(step["pieces"], step["edges"], (1, -1), strict=True):
        rings[name] = added(rings[name], [edge], sign * mm(step["by"]))


def cut(rings, step):
    ring = rings.pop(step["piece"])
    parts = parted(ring, *np.array(step["along"], float))
    for name, (points, names) in zip(step["names"], parts, strict=True):
        rings[name] = ring.with_(points, [*names, "cut"], name=name)
        rings[name].levels = {k: v for k, v in ring.levels.items() if len(rings[name].level(k))}
        inside = rings[name].polygon.buffer(NEAR)
        rings[name].darts = [dart for dart in ring.darts if inside.contains(Polygon(dart))]


def edge_run(ring, edge):
    """The points of an edge, and the rest of the ring from where the edge ends to where it starts."""
    starts = [i for i, name in enumerate(ring.names) if name == edge and ring.names[i - 1] != edge]
    start = ring.points[starts[0]]
    count = ring.names.count(edge)
    end = ring.points[(starts[0] + count) % len(ring.points)]
    return opened(ring, start, end)


def join(rings, step):
    first, second = (rings.pop(name) for name in step["pieces"])
    (seam, rest), (other_seam, other_rest) = (
        edge_run(ring, edge) for ring, edge in zip((first, second), step["edges"], strict=True)
    )
    start, end = seam[0][0], seam[0][-1]
    from_start, from_end = other_seam[0][0], other_seam[0][-1]
    # end − start of the one lies on start − end of the other; complex numbers turn and move at once.
    turned = complex(*(start - end)) / complex(*(from_end - from_start))
    turned /= abs(turned)

    def moved(point):
        to = turned * complex(*(point - from_start))
        return end + np.array([to.real, to.imag])

    names = second_names(rest[1], other_rest[1])
    done = first.with_(
        [*rest[0][:-1], *[moved(p) for p in other_rest[0][:-1]]], [*rest[1], *names], name=step["name"]
    )
    done.levels = {
        level: strung(
            level in first.levels and first.level(level),
            level in second.levels and [moved(p) for p in second.level(level)],
        )
        for level in {**first.levels, **second.levels}
    }
    done.darts = [*first.darts, *[np.array([moved(p) for p in dart]) for dart in second.darts]]
    rings[step["name"]] = done


def second_names(rest, other):
    """Edges of one name that meet are one; another of the second piece that is there already bears a 2."""
    meets = {i for i, name in enumerate(other) if name == rest[-1] and set(other[: i + 1]) == {name}}
    meets |= {i for i, name in enumerate(other) if name == rest[0] and set(other[i:]) == {name}}
    return [name if i in meets or name not in rest else f"{name} 2" for i, name in enumerate(other)]


def strung(one, other):
    """Two levels of one name, laid end to end at the ends that are nearest; or the one that there is."""
    if one is False or other is False:
        return np.array(other if one is False else one)
    one, other = np.array(one), np.array(other)
    ways = [(a, b) for a in (one, one[::-1]) for b in (other, other[::-1])]
    return np.vstack(min(ways, key=lambda way: np.hypot(*(way[0][-1] - way[1][0]))))


def mirror(rings, step):
    rings[step["piece"]] = _mirrored(rings[step["piece"]], np.zeros(2), np.array([0.0, 1]))


def _mirrored(ring, start, end, **more):
    other = ring.with_(ring.points, ring.names)
    return Ring(
        points=reflected(ring.points, start, end),
        names=ring.names,
        levels={level: reflected(line, start, end) for level, line in ring.levels.items()},
        darts=[reflected(dart, start, end) for dart in ring.darts],
        **{"name": ring.name, "cut": other.cut, "mirrored": other.mirrored, **more},
    )


def unfold(rings, step):
    ring = rings[step["piece"]]
    fold, rest = edge_run(ring, step["edge"])
    other = edge_run(_mirrored(ring, fold[0][0], fold[0][-1]), step["edge"])[1]
    done = ring.with_([*rest[0][:-1], *other[0][:-1]], [*rest[1], *second_names(rest[1], other[1])])
    done.levels = {
        level: strung(ring.level(level), reflected(ring.level(level), fold[0][0], fold[0][-1]))
        for level in ring.levels
    }
    done.darts = [*ring.darts, *[reflected(dart, fold[0][0], fold[0][-1]) for dart in ring.darts]]
    if ring.mirrored:  # A pair of halves is one whole.
        done.cut, done.mirrored = 1, False
    rings[step["piece"]] = done


def copy(rings, step):
    ring = rings[step["piece"]]
    rings[step["name"]] = ring.with_(ring.points, ring.names, name=step["name"])


def sides(rings, step):
    ring = rings.pop(step["piece"])
    left, right = step["names"]
    rings[left] = ring.with_(ring.points, ring.names, name=left, cut=1, mirrored=False)
    rings[right] = _mirrored(ring, np.zeros(2), np.array([0.0, 1]), name=right, cut=1, mirrored=False)


def facing(rings, step):
    """The strip between the edges and their parallel within, cut off by the neighbours."""
    ring = rings[step["piece"]]
    inner = added(ring, step["edges"], -mm(step["width"])).points
    indices = [i for i, name in enumerate(ring.names) if name in step["edges"]]
    start = next(i for i in indices if i - 1 not in indices and (i - 1) % len(ring.names) not in indices)
    run = [(start + step) % len(ring.names) for step in range(len(indices) + 1)]
    points = [*ring.points[run], *inner[run[::-1]]]
    names = [*[ring.names[i] for i in run[:-1]], "end", *["inner"] * len(indices), "start"]
    rings[step["name"]] = ring.with_(points, names, name=step["name"], levels={}, darts=[])


def band(rings, step):
    ring = rings[step["piece"]]
    length, height = sum(ring.edges()[edge] for edge in step["edges"]), mm(step["height"])
    corners = np.array([[0, 0], [length, 0], [length, height], [0, height]], float)
    rings[step["name"]] = ring.with_(corners, list("abcd"), name=step["name"], levels={}, darts=[])


def allowance(rings, step):
    ring = rings[step["piece"]]
    every = dict.fromkeys(ring.names, step["all"])
    said = {edge: mm(text) for edge, text in {**every, **step.get("edges", {})}.items()}
    ring.cutting_line = np.array(offset(ring, said))


STEPS = {
    "lengthen": spread,
    "spread": spread,
    "turn": turn,
    "move dart": move_dart,
    "add": add,
    "move seam": move_seam,
    "cut": cut,
    "join": join,
    "mirror": mirror,
    "unfold": unfold,
    "copy": copy,
    "sides": sides,
    "facing": facing,
    "band": band,
    "allowance": allowance,
}
