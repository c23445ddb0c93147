"""Lays for tests: pieces of any shape, and a judge that knows nothing of how a lay was made."""

import math
from collections.abc import Callable
from pathlib import Path

from hypothesis import assume
from hypothesis import strategies as st
from shapely import Point, Polygon, affinity

from fitting.laying.calculation.cloth import Cloth, Direction
from fitting.laying.calculation.lay_out import Arrangement, Order
from fitting.laying.calculation.piece import LayPiece, OutlineNotUsable, cut_outline, read_outline
from fitting.laying.calculation.search import Progress
from fitting.laying.calculation.strip import Placement

LAYS = Path(__file__).resolve().parents[2] / "fixtures" / "lays"
INCH_MM, YARD_MM = 25.4, 914.4
OUTSIDE_MM = 0.02
OVERLAP_MM2 = 1e-6
PLACE_MM = 0.01


def until(lays: int) -> Callable[[Progress], bool]:
    """Watches a search and ends it at its so-many-th lay, however quick the machine is.

    The nester itself knows no bound but time: the seconds of an order are for the search that finds nothing.
    """
    return lambda progress: progress.lays < lays


def rectangle(width_mm: float, length_mm: float) -> list[tuple[float, float]]:
    return [(0.0, 0.0), (width_mm, 0.0), (width_mm, length_mm), (0.0, length_mm)]


def make_piece(
    name: str,
    points,
    *,
    copies: int = 1,
    paired: bool = False,
    allowance_mm: float = 0,
    on_fold: bool = False,
    match: tuple[float, float] | None = None,
) -> LayPiece:
    outline = read_outline(points)
    return LayPiece(
        name=name,
        outline=outline,
        cut_outline=cut_outline(outline, allowance_mm),
        copies=copies,
        mirrored_pair=paired,
        allowance_mm=allowance_mm,
        on_fold=on_fold,
        match=match,
    )


def placed(outline, placement: Placement) -> Polygon:
    """As the format words it: mirrored in x, turned counter-clockwise about the origin, moved. By shapely."""
    shape = Polygon(outline)
    if placement.mirrored:
        shape = affinity.scale(shape, xfact=-1, yfact=1, origin=(0, 0))
    turned = affinity.rotate(shape, placement.rotation_deg, origin=(0, 0))
    return affinity.translate(turned, placement.x_mm, placement.y_mm)


def assert_matched(lay: Arrangement) -> None:
    """Every matching point, moved by shapely, lies where the first does, whole repeats and drops from it."""
    repeat = lay.cloth.repeat.shrunk(length=lay.cloth.shrinkage_length, width=lay.cloth.shrinkage_width)
    there = [
        placed_point(lay.matched_at(one.piece), one)
        for one in lay.placements
        if one.piece not in lay.unmatched
    ]
    for x, y in there:
        columns = round((x - there[0][0]) / repeat.across_mm) if repeat.across_mm else 0
        if repeat.across_mm:
            assert math.isclose(x - there[0][0], columns * repeat.across_mm, abs_tol=PLACE_MM)
        if repeat.along_mm:
            off = (y - there[0][1] - columns * repeat.drop_mm) / repeat.along_mm
            assert abs(off - round(off)) * repeat.along_mm <= PLACE_MM


def placed_point(point: tuple[float, float], placement: Placement) -> tuple[float, float]:
    """A point of a piece where the piece lies."""
    there = Point(point)
    if placement.mirrored:
        there = affinity.scale(there, xfact=-1, yfact=1, origin=(0, 0))
    there = affinity.rotate(there, placement.rotation_deg, origin=(0, 0))
    return there.x + placement.x_mm, there.y + placement.y_mm


def most_outside_mm(shapes: list[Polygon], *, width_mm: float, length_mm: float) -> float:
    """How far beyond an edge of the cloth anything lies."""
    edges = [shape.bounds for shape in shapes]
    return max(max(-left, -low, right - width_mm, high - length_mm) for left, low, right, high in edges)


def largest_overlap_mm2(shapes: list[Polygon]) -> float:
    return max(
        (one.intersection(other).area for at, one in enumerate(shapes) for other in shapes[:at]), default=0.0
    )


def least_distance_mm(shapes: list[Polygon]) -> float:
    return min(
        (one.distance(other) for at, one in enumerate(shapes) for other in shapes[:at]), default=math.inf
    )


def assert_sound(lay: Arrangement) -> None:
    """Every copy laid in a turn allowed, on the cloth, apart from the others, and not too good to be."""
    cloth, width_mm = lay.cloth, lay.order.width_mm
    shapes = [placed(lay.cut_outlines[one.piece], one) for one in lay.placements]
    assert most_outside_mm(shapes, width_mm=width_mm, length_mm=lay.length_mm) <= OUTSIDE_MM
    assert largest_overlap_mm2(shapes) <= OVERLAP_MM2
    assert least_distance_mm(shapes) >= cloth.gap_mm - 1e-6
    assert {one.rotation_deg for one in lay.placements} <= set(cloth.turns_deg)
    area = sum(shape.area for shape in shapes)
    assert lay.length_mm >= area / width_mm - 1e-6
    assert math.isclose(lay.density, area / (width_mm * lay.length_mm), rel_tol=1e-9)
    assert_all_cut(lay)


def assert_all_cut(lay: Arrangement) -> None:
    """As many of each as asked for, half of a pair mirrored; a piece that is joined counts by its parts."""
    parts = {piecing.piece.name: [part.name for part in piecing.parts] for piecing in lay.piecings}
    wanted = {}
    for piece in lay.order.pieces:
        for name in parts.get(piece.name, [piece.name]):
            wanted[name, False] = piece.copies // 2 if piece.mirrored_pair else piece.copies
            wanted[name, True] = piece.copies - wanted[name, False]
    laid = dict.fromkeys(wanted, 0)
    at_fold = {piece.name for piece in lay.order.pieces if piece.on_fold}
    for one in lay.placements:
        # Half a piece at the fold is the same piece mirrored.
        laid[one.piece, one.mirrored and one.piece not in at_fold] += 1
    assert laid == wanted


def with_points_between(outline, *parts: float) -> list[tuple[float, float]]:
    """More points on each side, at these parts of it."""
    return [
        (x + part * (to_x - x), y + part * (to_y - y))
        for (x, y), (to_x, to_y) in zip(outline, [*outline[1:], outline[0]], strict=True)
        for part in (0.0, *parts)
    ]


# None, one, one that nothing tells from the corner, as many as a traced curve has.
_BETWEEN = ((), (), (0.5,), (1e-8, 0.5), tuple(part / 40 for part in range(1, 40)))


@st.composite
def outlines(draw) -> list[tuple[float, float]]:
    """Stars and wedges about any point: hollow, pointed, thin; either way round, some with many points."""
    reaches = draw(st.lists(st.integers(5, 200), min_size=3, max_size=12))
    narrowed, across = draw(st.sampled_from((0.2, 0.5, 1, 2))), draw(st.integers(-500, 500))
    angles = (2 * math.pi * number / len(reaches) for number in range(len(reaches)))
    corners = [
        (across + narrowed * reach * math.cos(angle), reach * math.sin(angle))
        for reach, angle in zip(reaches, angles, strict=True)
    ]
    points = with_points_between(corners, *draw(st.sampled_from(_BETWEEN)))
    return points if draw(st.booleans()) else points[::-1]


@st.composite
def orders(draw, seconds: float = 2) -> Order:
    """Up to six kinds of piece on cloth from a ribbon to a sheet; on narrow cloth some must be joined."""
    pieces = []
    for number in range(draw(st.integers(1, 6))):
        paired = draw(st.booleans())
        copies = draw(st.integers(1, 3)) * (2 if paired else 1)
        allowance_mm = draw(st.sampled_from((0, 5, 12.7)))
        points = draw(outlines())
        try:
            pieces.append(
                make_piece(f"piece {number}", points, copies=copies, paired=paired, allowance_mm=allowance_mm)
            )
        except OutlineNotUsable:
            assume(False)
    cloth = Cloth(
        width_mm=draw(st.integers(150, 1500)),
        selvedge_mm=draw(st.sampled_from((0, 6.35))),
        direction=draw(st.sampled_from(tuple(Direction))),
        gap_mm=draw(st.sampled_from((0, 0, 1, 10))),
        shrinkage_width=draw(st.sampled_from((0, 0.03))),
    )
    return Order(cloth=cloth, pieces=tuple(pieces), seconds=seconds)
