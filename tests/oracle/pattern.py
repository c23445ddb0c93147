"""Pieces of a pattern and what they measure, reckoned a second time, from the written rules alone.

Nothing of the product is imported. Sides are straight; a piece is a ring of points, each with the name of the
edge to which the side that leaves it belongs, and it always runs clockwise on the page (y downwards).
"""

from copy import deepcopy
from dataclasses import dataclass, field
from fractions import Fraction

import numpy as np
from shapely import LinearRing, LineString, Polygon

NEAR = 1e-7
FAR = 1e4
UNITS = {"in": Fraction("25.4"), "cm": Fraction(10), "mm": Fraction(1)}


def mm(text):
    """“-1 1/2 in”, “3.2 cm”."""
    number, unit = text.strip().rsplit(" ", 1)
    sign = -1 if number.startswith("-") else 1
    return sign * float(sum(map(Fraction, number.lstrip("-").split())) * UNITS[unit])


@dataclass
class Ring:
    """One piece: `points` (n × 2), `names` of the sides that leave them, levels; darts, three points each."""

    name: str
    points: np.ndarray
    names: list
    cut: int = 1
    mirrored: bool = False
    levels: dict = field(default_factory=dict)
    darts: list = field(default_factory=list)
    cutting_line: np.ndarray | None = None

    def __post_init__(self):
        self.points = np.asarray(self.points, float)
        if not LinearRing(self.points).is_ccw:  # which is clockwise on the page, where y points down
            self.points = np.roll(self.points[::-1], 1, axis=0)
            self.names = [self.names[-1 - index] for index in range(len(self.names))]

    def with_(self, points, names, **more):
        """As this one, with another outline; points said twice in a row are one."""
        kept = [i for i, p in enumerate(points) if np.hypot(*(p - points[i - len(points) + 1])) > NEAR]
        other = deepcopy(self)
        other.points, other.names = np.array([points[i] for i in kept]), [names[i] for i in kept]
        for key, value in more.items():
            setattr(other, key, value)
        return other

    @property
    def polygon(self):
        return Polygon(self.points)

    @property
    def is_sound(self):
        return len(self.points) > 2 and self.polygon.is_valid and LinearRing(self.points).is_ccw

    def edges(self):
        lengths = {}
        for name, one, other in zip(self.names, self.points, np.roll(self.points, -1, axis=0), strict=True):
            lengths[name] = lengths.get(name, 0) + float(np.hypot(*(other - one)))
        return lengths

    def level(self, name):
        """A level from outline to outline."""
        inside = LineString(run_out(self.levels[name])).intersection(self.polygon)
        if inside.geom_type == "Point":  # It touches a corner.
            return np.empty((0, 2))
        if inside.geom_type != "LineString":
            raise ValueError("The level leaves the piece and comes back.")
        return np.array(inside.coords)

    def widths(self):
        """Of each level, less what the darts take up on it."""
        return {level: self._width(line) for level, line in self.levels.items()}

    def _width(self, line):
        inside = LineString(run_out(line)).intersection(self.polygon)
        return inside.length - sum(taken_up(inside, dart) for dart in self.darts)


def taken_up(line, dart):
    """What a dart takes of a level that crosses both its legs; one that ends at its mouth loses nothing."""
    legs = LineString(dart[:2]), LineString(dart[1:])
    return line.intersection(Polygon(dart)).length if all(map(line.crosses, legs)) else 0.0


def run_out(line):
    """A level that reaches the outline reaches it after each step: here it goes on far beyond it."""
    line = np.array([p for i, p in enumerate(line) if i == 0 or np.hypot(*(p - line[i - 1])) > NEAR])
    first, last = line[0] - line[1], line[-1] - line[-2]
    ends = line[0] + FAR * first / np.hypot(*first), line[-1] + FAR * last / np.hypot(*last)
    return np.vstack([ends[0], line, ends[1]])


def ring_of(piece):
    """A piece of a document. A name holds until the next one, and round the end."""
    given = [node.get("edge", "") for node in piece["nodes"]]
    names, name = [], next(name for name in reversed(given) if name)
    for one in given:
        name = one or name
        names.append(name)
    return Ring(
        name=piece["name"],
        points=[node["at"] for node in piece["nodes"]],
        names=names,
        cut=piece["cut"],
        mirrored=piece["mirrored"],
        levels={level: np.array(line, float) for level, line in piece.get("levels", {}).items()},
        darts=[np.array(mark["points"], float) for mark in piece.get("marks", ()) if mark["kind"] == "dart"],
    )


def figures(rings, fastening=None):
    """What the answer says of pieces, by their names, and of the girths of all of them."""
    pieces = {
        ring.name: {
            "area_mm2": ring.polygon.area,
            "perimeter_mm": ring.polygon.length,
            "edges": ring.edges(),
            "levels_mm": ring.widths(),
        }
        for ring in rings
    }
    girths = {}
    for ring in rings:
        for level, width in ring.widths().items():
            girths[level] = girths.get(level, 0) + ring.cut * width
    for level in girths:
        girths[level] += fastened(fastening, "gap", level) - fastened(fastening, "overlap", level)
    return {"pieces": pieces, "girths": girths}


def fastened(fastening, name, level):
    width = (fastening or {}).get(name, "0 in")
    return mm(width if isinstance(width, str) else width.get(level, "0 in"))


def cross(one, other):
    return one[..., 0] * other[..., 1] - one[..., 1] * other[..., 0]


def right_of(points, start, end):
    """How far points lie to the right of a line walked from start to end, on a page whose y points down."""
    along = np.subtract(end, start)
    return cross(along, np.asarray(points, float) - start) / np.hypot(*along)


def rotated(points, about, angle):
    c, s = np.cos(angle), np.sin(angle)
    return (np.asarray(points, float) - about) @ np.array([[c, s], [-s, c]]) + about


def reflected(points, start, end):
    along = np.subtract(end, start) / np.hypot(*np.subtract(end, start))
    to = np.asarray(points, float) - start
    return start + 2 * (to @ along)[..., None] * along - to


def meeting(a, b, c, d):
    """Where the endless line through a and b meets the one through c and d."""
    r, s = b - a, d - c
    return a + cross(c - a, s) / cross(r, s) * r
