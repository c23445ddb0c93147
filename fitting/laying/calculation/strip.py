"""Pieces as they lie on the strip of cloth: x across from 0 to its width, y along it from 0 upwards."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from shapely import Polygon, STRtree, box

from fitting.laying.calculation.piece import Outline, Point, ring
from fitting.laying.calculation.trapezoids import Trapezoids, trapezoids
from fitting.laying.calculation.wrapping import wrapped

OUTSIDE_MM = 0.02  # a lay is sound if nothing is farther outside the cloth
OVERLAP_MM2 = 1e-4  # what rounding leaves of two edges that touch
SHORT_MM = 1e-6  # and of a gap
AS_SHORT_MM = 0.01  # a lay this near to the shortest there can be needs no search
FITS_MM = 0.01  # a piece this much wider than the cloth still fits it


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """Where one copy lies: its cut outline, mirrored in x if `mirrored`, turned counter-clockwise, moved."""

    piece: str
    mirrored: bool
    rotation_deg: int
    x_mm: float
    y_mm: float


def placed_outline(outline: Outline, placement: Placement) -> Outline:
    """The outline where it lies."""
    there = turned(outline, mirrored=placement.mirrored, rotation_deg=placement.rotation_deg)
    return tuple((x + placement.x_mm, y + placement.y_mm) for x, y in there)


def turned(outline: Outline, *, mirrored: bool, rotation_deg: int) -> Outline:
    """An outline mirrored in x, then turned by quarters: exact, as sines and cosines are not."""
    points = [(-x, y) for x, y in reversed(outline)] if mirrored else list(outline)
    for _ in range(rotation_deg // 90 % 4):
        points = [(-y, x) for x, y in points]
    return tuple(points)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """One outline to place `copies` times, at any of the turns it fits the strip in.

    `at_fold`: half a piece, its left side at the strip's left edge. Turned round it is mirrored as well, so
    that the fold stays there. `match`: the point of it that lies at one place of a repeat.
    """

    name: str
    outline: Outline
    mirrored: bool
    copies: int
    turns_deg: tuple[int, ...]
    at_fold: bool = False
    match: Point = (0.0, 0.0)

    def ways(self) -> Iterator[tuple["Shape", int]]:
        """The shape, as drawn or mirrored, and its turn."""
        for turn in self.turns_deg:
            if not self.at_fold or turn == 0:
                yield self, turn
            elif turn == 180:
                yield replace(self, mirrored=not self.mirrored), turn


class TurnedShape:
    """A shape at one turn, with all that packing asks of it, worked out once.

    `spaced` is wrapped round the outline and grown by half the gap: where two of these do not overlap, the
    pieces keep the gap.
    """

    def __init__(self, shape: Shape, rotation_deg: int, gap_mm: float) -> None:
        self.shape, self.rotation_deg = shape, rotation_deg
        self.outline = turned(shape.outline, mirrored=shape.mirrored, rotation_deg=rotation_deg)
        (self.match,) = turned((shape.match,), mirrored=shape.mirrored, rotation_deg=rotation_deg)
        self.spaced = grown(wrapped(self.outline), gap_mm / 2)
        self.left, self.low, self.right, self.high = bounds(self.outline)
        self.spaced_left, self.spaced_low, self.spaced_right, self.spaced_high = bounds(self.spaced)

    @cached_property
    def trapezoids(self) -> Trapezoids:
        return trapezoids(self.spaced)

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.high - self.low


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedCopy:
    """One copy on the strip; x and y move the turned shape."""

    turned: TurnedShape
    x: float
    y: float

    @property
    def bottom(self) -> float:
        return self.y + self.turned.low

    @property
    def top(self) -> float:
        return self.y + self.turned.high

    def at(self, *, x: float | None = None, y: float | None = None) -> "PlacedCopy":
        return replace(self, x=self.x if x is None else x, y=self.y if y is None else y)

    def placement(self) -> Placement:
        shape = self.turned.shape
        return Placement(
            piece=shape.name,
            mirrored=shape.mirrored,
            rotation_deg=self.turned.rotation_deg,
            x_mm=self.x + 0.0,  # no minus before nothing
            y_mm=self.y + 0.0,
        )


@dataclass(frozen=True, slots=True)
class Strip:
    """The cloth to lay on, and every shape that is to lie there, by turn."""

    width: float
    gap: float
    shapes: tuple[tuple[TurnedShape, ...], ...]

    @classmethod
    def of(cls, shapes: Iterable[Shape], *, width: float, gap: float) -> "Strip":
        return cls(
            width, gap, tuple(tuple(TurnedShape(*way, gap) for way in shape.ways()) for shape in shapes)
        )

    @property
    def area(self) -> float:
        """Of every copy with its allowance."""
        areas = (Polygon(turns[0].outline).area * turns[0].shape.copies for turns in self.shapes)
        return float(sum(areas))

    @property
    def has_fold(self) -> bool:
        """Whether any piece must lie at the strip's left edge."""
        return any(turns[0].shape.at_fold for turns in self.shapes)

    @property
    def least_length(self) -> float:
        """No lay is shorter: the area over the width, or the piece that is longest whichever way it lies."""
        longest = max(min(one.height for one in turns) for turns in self.shapes)
        return max(longest, self.area / self.width)

    def within(self, lying: PlacedCopy) -> PlacedCopy:
        """Moved onto the cloth, where rounding has left it beyond an edge."""
        least, most = -lying.turned.left, self.width - lying.turned.right
        x = (least + most) / 2 if most < least else min(max(lying.x, least), most)
        x = least if lying.turned.shape.at_fold else x
        return lying.at(x=x, y=max(lying.y, -lying.turned.low))

    def is_sound(self, lay: Sequence[PlacedCopy]) -> bool:
        """Every copy there, none outside the cloth, none over another or nearer than the gap."""
        wanted = sum(turns[0].shape.copies for turns in self.shapes)
        return len(lay) == wanted and all(map(self._is_on_cloth, lay)) and not too_near(lay, self.gap)

    def _is_on_cloth(self, lying: PlacedCopy) -> bool:
        left, right = lying.x + lying.turned.left, lying.x + lying.turned.right
        if lying.turned.shape.at_fold and left > OUTSIDE_MM:
            return False
        return left >= -OUTSIDE_MM and right <= self.width + OUTSIDE_MM and lying.bottom >= -OUTSIDE_MM


def length_of(lay: Iterable[PlacedCopy]) -> float:
    """How far along the cloth a lay reaches."""
    return max((lying.top for lying in lay), default=0.0)


def too_near(lay: Sequence[PlacedCopy], gap_mm: float) -> list[tuple[int, int]]:
    """Pairs of copies that lie over one another or nearer than the gap, by their places in the list.

    Judged by every point of their outlines, whatever the lay was packed with.
    """
    there = [Polygon([(x + one.x, y + one.y) for x, y in one.turned.outline]) for one in lay]
    firsts, seconds = STRtree(there).query(there, predicate="dwithin", distance=gap_mm)
    pairs = [(int(a), int(b)) for a, b in zip(firsts, seconds, strict=True) if a < b]
    return [
        (a, b)
        for a, b in pairs
        if there[a].distance(there[b]) < gap_mm - SHORT_MM
        or there[a].intersection(there[b]).area > OVERLAP_MM2
    ]


def grown(outline: Outline, by_mm: float) -> Outline:
    """The outline moved outward, corners cut off along the arc; hollows that close are filled."""
    if by_mm <= 0:
        return outline
    left, low, right, high = bounds(outline)
    # A mitre limit of 1 cuts each corner along the arc's tangent: nothing within the distance is left out. A
    # slanted cut reaches beyond the grown box, and a piece as wide as the cloth would be found too wide.
    out = Polygon(outline).buffer(by_mm, join_style="mitre", mitre_limit=1)
    return ring(out.intersection(box(left - by_mm, low - by_mm, right + by_mm, high + by_mm)))


def bounds(outline: Outline) -> tuple[float, float, float, float]:
    """Left, low, right, high."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return min(xs), min(ys), max(xs), max(ys)


def fitting_turns(outline: Outline, turns_deg: Iterable[int], width: float) -> tuple[int, ...]:
    """The turns in which an outline is no wider than the strip."""
    left, low, right, high = bounds(outline)
    across = {0: right - left, 180: right - left, 90: high - low, 270: high - low}
    return tuple(turn for turn in turns_deg if across[turn] <= width + FITS_MM)
