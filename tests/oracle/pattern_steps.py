"""Steps that part a piece and move one side of it: each takes the rings by name and its words of the file."""

import numpy as np
from shapely import LineString, Point, Polygon

from tests.oracle.pattern import NEAR, Ring, cross, meeting, mm, right_of, rotated, run_out

# A ring opened at two places: the runs from one to the other, each its points with the names that leave them.


def with_point(ring, at):
    """The ring with a point more, on the side that it lies on, and its index."""
    at = np.asarray(at, float)
    for index, point in enumerate(ring.points):
        if np.hypot(*(point - at)) < NEAR:
            return ring, index
    ends = np.roll(ring.points, -1, axis=0)
    index = min(range(len(ends)), key=lambda i: LineString([ring.points[i], ends[i]]).distance(Point(at)))
    points, names = list(ring.points), list(ring.names)
    points.insert(index + 1, at)
    names.insert(index + 1, names[index])
    return ring.with_(points, names), index + 1


def opened(ring, one, other):
    """The runs one → other and other → one: all points, and the names of the sides between them."""
    ring, _ = with_point(ring, one)
    ring, last = with_point(ring, other)
    ring, first = with_point(ring, one)
    count = len(ring.points)

    def run(start, stop):
        indices = [(start + step) % count for step in range((stop - start) % count + 1)]
        return [ring.points[i] for i in indices], [ring.names[i] for i in indices[:-1]]

    return run(first, last), run(last, first)


def crossings(ring, start, end):
    """Where an endless line crosses the outline, in the order of its points."""
    off = right_of(ring.points, start, end)
    found = []
    for i, here in enumerate(off):
        before, after = off[i - 1], off[(i + 1) % len(off)]
        if abs(here) < NEAR and before * after < 0:
            found.append(ring.points[i])
        elif here * after < 0 and min(abs(here), abs(after)) > NEAR:
            along = ring.points[(i + 1) % len(off)] - ring.points[i]
            found.append(ring.points[i] + along * here / (here - after))
    if len(found) != 2:
        raise ValueError("The line does not cross the outline twice.")
    return found


def parted(ring, start, end):
    """The run that stays and the run that moves, each from one crossing to the other."""
    runs = opened(ring, *crossings(ring, start, end))
    return sorted(runs, key=lambda run: right_of(np.mean(run[0][1:-1], axis=0), start, end))


def trimmed(run, start, end):
    """What of a run lies left of a line: both its ends are cut back to it."""
    points, names = list(run[0]), list(run[1])
    for which in (0, -1):
        while right_of(points[(which and -2) or 1], start, end) > 0:
            points.pop(which), names.pop(which)
        near, far = points[which], points[(which and -2) or 1]
        if right_of(near, start, end) > 0:
            points[which] = meeting(near, far, np.asarray(start, float), np.asarray(end, float))
    return points, names


def with_moved(ring, stays, moves, moved, names):
    """Both runs in one ring; `names` of the sides that join the one's end to the other's start.

    It begins where it began, for the first point tells which part stays when a dart is moved.
    """
    done = ring.with_([*stays[0], *moved], [*stays[1], names[0], *moves[1], names[1]])
    first = ring.points[0]
    at = [i for i, point in enumerate(moves[0][1:-1], 1) if np.hypot(*(point - first)) < NEAR]
    first = moved[at[0]] if at else first
    return begun_at(done, first)


def begun_at(ring, point):
    _, begins = with_point(ring, point)
    ring.points = np.roll(ring.points, -begins, axis=0)
    ring.names = [*ring.names[begins:], *ring.names[:begins]]
    return ring


def spread(rings, step):
    line, by = np.array(step.get("line", step.get("cut")), float), mm(step["by"])
    for name in step.get("pieces", [step.get("piece")]):
        rings[name] = _spread(rings[name], *line, by)


def _spread(ring, start, end, by):
    along = (end - start) / np.hypot(*(end - start))
    shift = by * np.array([-along[1], along[0]])
    stays, moves = parted(ring, start, end)
    names = stays[1][-1], stays[1][0]
    moved = [point + shift for point in moves[0]]
    if by < 0:  # The moved side lies on top: of the other is seen what it leaves.
        stays = trimmed(stays, start + shift, end + shift)
    done = with_moved(ring, stays, moves, moved, names)
    done.levels = {k: _moved_line(v, start, end, lambda p: p + shift, by) for k, v in ring.levels.items()}
    done.darts = [
        np.array([p + shift * (right_of(p, start, end) > NEAR) for p in dart]) for dart in ring.darts
    ]
    return done


def _moved_line(line, start, end, move, by):
    """Of a level moves what lies right of the line; one that is crossed goes straight over what opens."""
    off = right_of(line, start, end)
    if not (off > NEAR).any():
        return line
    if not (off < -NEAR).any():
        return np.array([move(p) for p in line])
    points = []
    for i, p in enumerate(line):
        points.append(move(p) if off[i] > NEAR else p)
        if i + 1 < len(line) and off[i] * off[i + 1] < 0:
            at = meeting(p, line[i + 1], start, end)
            under = at if by > 0 else meeting(p, line[i + 1], move(start), move(end))
            both = [under, move(at)]
            points += both if off[i] < 0 else both[::-1]
    return np.array(points)


def turn(rings, step):
    ring = rings[step["piece"]]
    opening, hinge = np.array(step["cut"], float)
    by, radius = mm(step["by"]), np.hypot(*(opening - hinge))
    if abs(by) > radius:
        raise ValueError("A chord is no longer than the cut that opens, in cases.")
    # Seen from the opening the right side turns away from the cut, so that it opens there.
    angle = -2 * np.arcsin(by / 2 / radius)
    angle = angle if right_of(rotated([opening], hinge, angle), opening, hinge)[0] * by > 0 else -angle
    first, second = opened(ring, opening, hinge)
    is_right = Polygon([*first[0]]).representative_point()
    right, left = (first, second) if right_of(is_right.coords[0], opening, hinge) > 0 else (second, first)
    moved = list(rotated(right[0], hinge, angle))
    if by < 0:
        left = _trimmed_at_opening(left, hinge, rotated([opening], hinge, angle)[0])
    opens_last = left is second or np.hypot(*(left[0][0] - hinge)) < NEAR
    name = left[1][-1] if opens_last else left[1][0]
    done = with_moved(ring, left, right, moved, (name, name))
    done.levels = {
        level: _moved_line(line, opening, hinge, lambda p: rotated([p], hinge, angle)[0], by)
        for level, line in ring.levels.items()
    }
    is_right = [right_of(dart, opening, hinge) > NEAR for dart in ring.darts]
    done.darts = [
        np.where(right[:, None], rotated(dart, hinge, angle), dart)
        for dart, right in zip(ring.darts, is_right, strict=True)
    ]
    rings[step["piece"]] = done


def _trimmed_at_opening(run, hinge, foot):
    points, names = list(run[0]), list(run[1])
    which = -1 if np.hypot(*(points[0] - hinge)) < NEAR else 0
    if which == -1:
        points, names = points[::-1], names[::-1]
    side = np.sign(right_of(points[len(points) // 2], hinge, foot))
    while right_of(points[1], hinge, foot) * side < 0:
        points.pop(0), names.pop(0)
    points[0] = meeting(points[0], points[1], hinge, foot)
    return (points[::-1], names[::-1]) if which == -1 else (points, names)


def move_dart(rings, step):
    ring = rings[step["piece"]]
    first = ring.points[0]
    dart = ring.darts.pop(step.get("dart", 0))
    feet, tip = [dart[0], dart[2]], dart[1]
    mouths = opened(ring, *feet)
    mouth, rest = sorted(mouths, key=lambda run: LineString(run[0]).length)
    # The rest runs from where the mouth ends, by the place that opens, to where the mouth begins.
    end, begin = rest[0][0], rest[0][-1]
    whole = Ring(ring.name, [*rest[0], tip], [*rest[1], "leg", "leg"])
    to = np.asarray(step["to"], float)
    whole, at = with_point(whole, to)
    start = next(i for i, p in enumerate(whole.points) if np.hypot(*(p - end)) < NEAR)
    count = len(whole.points)
    order = [(start + i) % count for i in range(count)]
    cut = order.index(at)
    points, names = [whole.points[i] for i in order[:-1]], [whole.names[i] for i in order[:-2]]
    one, other = (points[: cut + 1], names[:cut]), (points[cut:], names[cut:])
    angle = np.arctan2(cross(begin - tip, end - tip), np.dot(begin - tip, end - tip))
    turns_one = any(np.hypot(*(p - first)) < NEAR for p in other[0])
    angles = (-angle, 0) if turns_one else (0, angle)
    parts = [
        ([*run[0], tip], lambda p, by=by: rotated([p], tip, by)[0])
        for run, by in zip((one, other), angles, strict=True)
    ]
    one, other = (
        (list(rotated(run[0], tip, by)), run[1]) for run, by in zip((one, other), angles, strict=True)
    )
    done = ring.with_([*one[0], *other[0]], [*one[1], names[cut], *other[1], mouth[1][0]])
    done = begun_at(done, first)
    new = np.array([one[0][-1], tip, other[0][0]])
    middle = (new[0] + new[2]) / 2 - tip
    new[1] += mm(step.get("short", "0 in")) * middle / np.hypot(*middle)
    done.darts.insert(step.get("dart", 0), new)
    done.levels = {k: _closed(v, parts) for k, v in ring.levels.items()}
    rings[step["piece"]] = done


def _closed(line, parts):
    """A level across a dart that is closed: what lies in each part goes with it, in the level's own order."""
    line = LineString(run_out(line))
    pieces = []
    for outline, move in parts:
        inside = line.intersection(Polygon(outline))
        for piece in getattr(inside, "geoms", [inside]):
            if piece.length > NEAR:
                pieces.append((line.project(piece.centroid), [move(p) for p in piece.coords]))
    return np.array([p for _, points in sorted(pieces, key=lambda one: one[0]) for p in points])
