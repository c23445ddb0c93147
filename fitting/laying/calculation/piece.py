"""A piece as it is laid: its outline checked, its allowance added, how many are cut."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from shapely import Polygon

Point = tuple[float, float]
Outline = tuple[Point, ...]

MITRE_LIMIT = 5  # a corner's allowance reaches no farther than five times its width
_NO_AREA_MM2 = 1e-6


class OutlineNotUsable(ValueError):
    """An outline that encloses no piece; `sentence` names the points to put right, counted from 1."""

    def __init__(self, sentence: str) -> None:
        self.sentence = sentence
        super().__init__(sentence)


@dataclass(frozen=True, slots=True, kw_only=True)
class LayPiece:
    """A piece to cut. Both outlines are in the piece's own millimetres, y along the cloth's length.

    `copies` counts all that are cut, half of them mirrored in a `mirrored_pair`; `allowance_mm` is what each
    side of a piecing line gets if the piece is wider than the cloth. On folded cloth `copies` counts how
    often both layers are cut through, and `on_fold` is half a piece, its left side laid at the fold. `match`
    is the point that lies at one place of a repeat; None for its lowest.
    """

    name: str
    outline: Outline
    cut_outline: Outline
    copies: int = 1
    mirrored_pair: bool = False
    allowance_mm: float = 0.0
    on_fold: bool = False
    match: Point | None = None

    @property
    def match_at(self) -> Point:
        """Where it is matched; of several points equally low the leftmost."""
        return self.match or min(self.outline, key=lambda point: (point[1], point[0]))

    @property
    def copies_by_side(self) -> dict[bool, int]:
        """How many are cut as drawn (False) and mirrored (True)."""
        if self.mirrored_pair:
            return {False: self.copies // 2, True: self.copies // 2}
        return {False: self.copies}


def read_outline(points: Sequence[Point]) -> Outline:
    """The outline counter-clockwise, without points that come twice in a row or close it.

    Raises OutlineNotUsable where it crosses or touches itself or encloses nothing.
    """
    corners = [(at, point) for at, point in enumerate(points, start=1) if point != points[at - 2] or at == 1]
    if len(corners) > 1 and corners[0][1] == corners[-1][1]:
        corners.pop()
    if len(corners) < 3:
        raise OutlineNotUsable("An outline needs at least three points that differ.")
    polygon = Polygon([point for _, point in corners])
    if polygon.convex_hull.area < _NO_AREA_MM2:
        raise OutlineNotUsable("These points lie on one line: they enclose no cloth.")
    if not polygon.is_valid:
        raise OutlineNotUsable(_crossing(corners))
    if polygon.area < _NO_AREA_MM2:
        raise OutlineNotUsable("This outline encloses no cloth.")
    return ring(polygon)


def cut_outline(outline: Outline, allowance_mm: float) -> Outline:
    """The outline with its allowance all round, corners mitred. Raises OutlineNotUsable."""
    if not allowance_mm:
        return outline
    grown = Polygon(outline).buffer(allowance_mm, join_style="mitre", mitre_limit=MITRE_LIMIT)
    if not isinstance(grown, Polygon) or grown.interiors:
        raise OutlineNotUsable(
            "With this allowance the piece closes round a hole: make the allowance smaller, or the piece two."
        )
    return ring(grown)


def ring(polygon: Polygon) -> Outline:
    """The outer edge of a polygon, counter-clockwise, each point once."""
    coordinates = list(polygon.exterior.coords)[:-1]
    if not polygon.exterior.is_ccw:
        coordinates.reverse()
    return tuple((float(x), float(y)) for x, y in coordinates)


def _crossing(corners: Sequence[tuple[int, Point]]) -> str:
    """Which two edges meet where they should not."""
    edges = list(zip(corners, [*corners[1:], corners[0]], strict=True))
    for (at, one), (other_at, other) in combinations(enumerate(edges), 2):
        names = [f"the edge from point {start[0]} to point {end[0]}" for start, end in (one, other)]
        if other_at - at in (1, len(edges) - 1):
            if _folds_back(*((one, other) if other_at == at + 1 else (other, one))):
                return f"The outline doubles back: {names[0]} and {names[1]} lie on one another."
        elif _meet(one[0][1], one[1][1], other[0][1], other[1][1]):
            return f"The outline crosses itself: {names[0]} meets {names[1]}."
    return "The outline crosses or touches itself."


_Edge = tuple[tuple[int, Point], tuple[int, Point]]


def _folds_back(one: _Edge, following: _Edge) -> bool:
    (start, corner), (_, end) = (one[0][1], one[1][1]), (following[0][1], following[1][1])
    back, on = (start[0] - corner[0], start[1] - corner[1]), (end[0] - corner[0], end[1] - corner[1])
    return back[0] * on[1] == back[1] * on[0] and back[0] * on[0] + back[1] * on[1] > 0


def _meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether two segments have a point in common."""
    if max(a[0], b[0]) < min(c[0], d[0]) or max(c[0], d[0]) < min(a[0], b[0]):
        return False
    if max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1]):
        return False
    return _apart(a, b, c, d) <= 0 and _apart(c, d, a, b) <= 0


def _apart(a: Point, b: Point, c: Point, d: Point) -> float:
    """Above 0 where c and d lie on one side of the line through a and b."""
    sides = [(b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) for p in (c, d)]
    return sides[0] * sides[1]
