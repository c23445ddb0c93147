"""Which steps at random are kept: those that no rule refuses, and that no rounding decides."""

import numpy as np
from shapely import LineString, Point

from tests.oracle.pattern import mm, right_of
from tests.oracle.pattern_steps import crossings

# mm, of a side before and after a step; and the sine below which two edges are too nearly in one line.
LEAST_SIDE, LEAST_LEFT, LEAST_TURN = 12, 0.5, 0.35


def is_plain(ring) -> bool:
    if not ring.is_sound:
        return False
    sides = np.roll(ring.points, -1, axis=0) - ring.points
    lengths = np.hypot(*sides.T)
    if lengths.min() < LEAST_SIDE:
        return False
    before = np.roll(sides, 1, axis=0)
    turns = np.abs(sides[:, 0] * before[:, 1] - sides[:, 1] * before[:, 0]) / lengths / np.roll(lengths, 1)
    return bool(turns.min() > LEAST_TURN)


def is_sound(before, after, step) -> bool:
    """Whether every outline holds, no edge vanished or is met twice, and nothing lies too near to a limit."""
    for name, ring in after.items():
        if name in before and np.array_equal(ring.points, before[name].points):
            continue
        lengths = np.hypot(*(np.roll(ring.points, -1, axis=0) - ring.points).T)
        if not ring.is_sound or lengths.min() < LEAST_LEFT or _has_an_edge_twice(ring.names):
            return False
        for level in ring.levels:
            ring.level(level)
    return CHECKS.get(step["step"], lambda *_: True)(before, after, step)


def _has_an_edge_twice(names) -> bool:
    return sum(name != names[i - 1] for i, name in enumerate(names)) > max(len(set(names)), 1)


def _sides_keep_their_way(before, after, step) -> bool:
    """No side was taken off whole, and no two that part too flatly were moved."""
    for name in step.get("pieces", [step.get("piece")]):
        one, other = before[name].points, after[name].points
        edges = {step["edge"]} if "edge" in step else set(step["edges"])
        if any(_stands_on(before[name], edges, dart) for dart in before[name].darts):
            return False
        if len(one) != len(other) or len(set(before[name].names)) == 1 or not is_plain(before[name]):
            return False
        ways = [np.roll(points, -1, axis=0) - points for points in (one, other)]
        if (np.sum(ways[0] * ways[1], axis=1) <= 0).any():
            return False
    return True


def _stands_on(ring, edges, dart) -> bool:
    """Whether a dart has a foot on one of these edges, with which it would go."""
    sides = zip(ring.names, ring.points, np.roll(ring.points, -1, axis=0), strict=True)
    lines = [LineString([one, other]) for name, one, other in sides if name in edges]
    return any(line.distance(Point(foot)) < 1 for line in lines for foot in (dart[0], dart[2]))


def _opens_within(before, after, step) -> bool:
    """The cut lies within, and its two ends are far enough from each other and from the corners."""
    ring, cut = before[step["piece"]], np.array(step["cut"])
    crossings(ring, *cut)  # drawn on, too, it crosses twice
    line = LineString(cut)
    return (
        line.length > 80
        and ring.polygon.buffer(1e-6).contains(line)
        and np.hypot(*(ring.points[:, None] - cut[None]).T).min() > 3
        and line.interpolate(0.5, normalized=True).distance(ring.polygon.exterior) > 5
    )


def _dart_goes(before, after, step) -> bool:
    """The new place is clear of the old mouth and of corners, and the cut to the point meets nothing."""
    ring, to = before[step["piece"]], np.array(step["to"])
    dart = ring.darts[step["dart"]]
    line = LineString([to, dart[1]])
    outline = ring.polygon.exterior
    feet_stand = all(outline.distance(Point(foot)) < 1e-6 for foot in (dart[0], dart[2]))
    return (
        feet_stand
        and line.length > 20
        and ring.polygon.buffer(1e-6).contains(line)
        and line.crosses(LineString(dart)) is False
        and min(np.hypot(*(to - foot)) for foot in (dart[0], dart[2])) > 15
        and np.hypot(*(ring.points - to).T).min() > 3
        and _is_whole(ring, dart)
        and _is_whole(after[step["piece"]], after[step["piece"]].darts[-1])
    )


def _is_whole(ring, dart) -> bool:
    """Whether each level crosses both legs of a dart or none: none runs out at its mouth."""
    legs = LineString(dart[:2]), LineString(dart[1:])
    levels = [LineString(ring.level(level)) for level in ring.levels]
    return all((line.distance(legs[0]) < 1e-6) == (line.distance(legs[1]) < 1e-6) for line in levels)


def _strip_lies_within(before, after, step) -> bool:
    ring, strip = before[step["piece"]], after[step["name"]]
    inside = ring.polygon.buffer(1e-6).contains(strip.polygon)
    outline = ring.polygon.exterior
    ends_there = all(outline.distance(Point(point)) < 1e-6 for point in strip.points)
    return is_plain(ring) and inside and ends_there and len(strip.points) == 4


def _corners_are_blunt(before, after, step) -> bool:
    line = after[step["piece"]].cutting_line
    ring = before[step["piece"]]
    far = np.hypot(*(line - ring.points).T)
    return is_plain(ring) and far.max() < 50 and _is_simple(line)


def _is_simple(points) -> bool:
    return LineString([*points, points[0]]).is_simple


def _fold_is_straight(before, after, step) -> bool:
    ring = before[step["piece"]]
    return ring.names.count(step.get("edge") or step["edges"][0]) == 1


def _unfolds(before, after, step) -> bool:
    """Along one straight side that every level meets."""
    ring = before[step["piece"]]
    if not _fold_is_straight(before, after, step):
        return False
    at = ring.names.index(step["edge"])
    fold = LineString([ring.points[at], ring.points[(at + 1) % len(ring.points)]])
    return all(LineString(ring.level(level)).distance(fold) < 1e-6 for level in ring.levels)


def _both_are_straight(before, after, step) -> bool:
    seam = zip(step["pieces"], step["edges"], strict=True)
    return all(before[name].names.count(edge) == 1 for name, edge in seam)


def _misses_the_darts(before, after, step) -> bool:
    """A dart that is crossed gets more points; a lap may cover a corner or a dart; one cut may be there."""
    for name in step.get("pieces", [step.get("piece")]):
        start, end = np.array(step.get("line") or step.get("cut") or step["along"], float)
        sides = [right_of(dart, start, end) for dart in before[name].darts]
        under_mm = max(0, -mm(step["by"])) if "by" in step else 0  # what a lap covers
        if any(min(side) < 1 and max(side) > -1 - under_mm for side in sides):
            return False
        off = right_of(before[name].points, start, end)
        if any(-under_mm - 1 < corner < 0 for corner in off):
            return False
        if step["step"] == "cut" and "cut" in before[name].names:
            return False
    return True


def _turns_clear(before, after, step) -> bool:
    is_level_lapped = step["by"].startswith("-") and before[step["piece"]].levels
    return (
        _misses_the_darts(before, after, step) and _opens_within(before, after, step) and not is_level_lapped
    )


def _has_two(before, after, step) -> bool:
    ring = before[step["piece"]]
    return ring.cut == 2 and ring.mirrored


CHECKS = {
    "add": _sides_keep_their_way,
    "move seam": _sides_keep_their_way,
    "lengthen": _misses_the_darts,
    "spread": _misses_the_darts,
    "cut": _misses_the_darts,
    "turn": _turns_clear,
    "move dart": _dart_goes,
    "facing": _strip_lies_within,
    "allowance": _corners_are_blunt,
    "unfold": _unfolds,
    "join": _both_are_straight,
    "band": _fold_is_straight,
    "sides": _has_two,
}
