"""Skirts in gores and over a support as sheets, with their drawing."""

import math
from collections.abc import Iterator, Sequence

from shapely import LinearRing

from fitting.pattern.calculation.fair_curve import fair_curve
from fitting.pattern.calculation.skirts import Gore, GoreShare, RingPiece, gores, uneven_seams
from fitting.pattern.calculation.support import SkirtLengths, Train, skirt_lengths
from fitting.pattern.loading.sheet_answer import (
    AnswerLine,
    Grid,
    Point,
    SheetAnswer,
    Sketch,
    SketchWord,
    Stroke,
    Sum,
    number,
)

_GAP_MM = 120.0
LEAST_SWELL_MM = 1.0  # less is within the width of a chalk line
_ROUGH_MM = 0.5


def gores_sheet(
    shares: Sequence[GoreShare],
    *,
    waist_mm: float,
    hip_mm: float,
    hem_mm: float,
    length_mm: float,
    hip_depth_mm: float,
) -> SheetAnswer:
    """Raises Faults as `gores` does."""
    girths = {"waist_mm": waist_mm, "hip_mm": hip_mm, "hem_mm": hem_mm}
    cut = gores(shares, **girths, length_mm=length_mm, hip_depth_mm=hip_depth_mm)
    counts = {share.name: share.cut for share in shares}
    return SheetAnswer(
        figures={name: mm for gore in cut for name, mm in _figures(gore)},
        lines=tuple(
            AnswerLine(
                label=f"{gore.name}: room at the hip",
                parts=(gore.piece.width_at_mm(hip_depth_mm), " − ", gore.hip_mm, " = ", gore.hip_room_mm),
            )
            for gore in cut
        ),
        grids=(
            Grid(
                caption="Each gore, sewn edge to sewn edge",
                heads=_GORE_HEADS,
                rows=tuple(_gore_row(gore, counts[gore.name]) for gore in cut),
            ),
        ),
        flags=(
            *(_too_narrow(gore) for gore in cut if gore.swell_each_mm > LEAST_SWELL_MM),
            *(_uneven(one, other) for one, other in uneven_seams(cut)),
        ),
        drawings=(_gores_drawn(cut),),
    )


_GORE_HEADS = (
    "gore",
    "top",
    "hem",
    "length",
    "top curves by",
    "hem curves by",
    "room at the hip",
    "swell of each edge",
)


def _figures(gore: Gore) -> Iterator[tuple[str, float]]:
    yield f"{gore.name}, top", gore.piece.top_mm
    yield f"{gore.name}, hem", gore.piece.hem_mm
    yield f"{gore.name}, hem curve", gore.piece.hem_curve_mm
    yield f"{gore.name}, swell", gore.swell_each_mm


def _gore_row(gore: Gore, count: int) -> tuple[Sum, ...]:
    piece = gore.piece
    sizes = (piece.top_mm, piece.hem_mm, piece.length_mm, piece.top_curve_mm, piece.hem_curve_mm)
    cells = (*sizes, gore.hip_room_mm, gore.swell_each_mm)
    return ((f"{gore.name}, cut {count}",), *((mm,) for mm in cells))


def _uneven(one: Gore, other: Gore) -> Sum:
    return (
        f"The seam of {one.name} and {other.name} is ",
        one.piece.length_mm,
        " long on one side and ",
        other.piece.length_mm,
        " on the other: give both one length, or slope one’s hem.",
    )


def _too_narrow(gore: Gore) -> Sum:
    return (
        f"{gore.name}: straight sides are too narrow at the hip by ",
        -gore.hip_room_mm,
        ". Let each edge that may swell out by ",
        gore.swell_each_mm,
        " there.",
    )


def support_sheet(
    heights: Sequence[tuple[float, float]], *, clearance_mm: float, train: Train
) -> SheetAnswer:
    lengths = skirt_lengths(heights, clearance_mm=clearance_mm, train=train)
    places = [step / 8 for step in range(9)]
    rows: tuple[tuple[Sum, ...], ...] = tuple(
        (
            (_place(place),),
            (lengths.taped.at(place),),
            (lengths.at(place),),
            (lengths.cut_away_at_top(place),),
            *(((lengths.at_hem(place),),) if train.length_mm else ()),
        )
        for place in places
    )
    heads = ("place", "taped to the floor", "skirt", "off at the top, its hem straight")
    return SheetAnswer(
        figures={"longest": lengths.longest_mm} | {f"at {place:g}": lengths.at(place) for place in places},
        lines=(AnswerLine(label="breadths cut as long as", parts=(lengths.longest_mm,)),),
        grids=(
            Grid(
                caption="Round one half, from centre front to centre back",
                heads=(*heads, "on at the hem, for the train") if train.length_mm else heads,
                rows=rows,
            ),
        ),
        drawings=(_lengths_drawn(lengths, places),),
    )


def _place(place: float) -> str:
    named = {0.0: "centre front", 0.5: "side", 1.0: "centre back"}
    return named.get(place, f"{number(8 * place, 0)}/8 round")


def down(points: Sequence[Point], right_mm: float = 0.0) -> tuple[Point, ...]:
    """Mirrored so that y runs downwards, thinned to what a drawing of this size can show."""
    line = LinearRing(points).simplify(_ROUGH_MM)
    return tuple((round(x + right_mm, 1), round(-y, 1)) for x, y in line.coords[:-1])


def words(ring: RingPiece, right_mm: float, name: str) -> tuple[SketchWord, ...]:
    named = [SketchWord(at=(right_mm, (ring.inner_mm + ring.outer_mm) / 2), parts=(name,))] if name else []
    return (
        SketchWord(at=(right_mm, ring.inner_mm), parts=("top ", ring.top_mm)),
        SketchWord(at=(right_mm, ring.outer_mm), parts=("hem ", ring.hem_mm)),
        *named,
    )


def _gores_drawn(cut: Sequence[Gore]) -> Sketch:
    strokes, words, right = [], [], 0.0
    for gore in cut:
        outline = gore.piece.outline(straight_edge=gore.straight_edge)
        left, far = min(x for x, _ in outline), max(x for x, _ in outline)
        top = max(y for _, y in outline)
        moved = [(x - left + right, y - top) for x, y in outline]
        strokes.append(Stroke(points=down(moved), look="cloth", is_closed=True))
        strokes += [
            Stroke(points=tuple((x - left + right, top - y) for x, y in edge), look="new")
            for edge in _swollen(gore)
        ]
        middle = right + (far - left) / 2
        words.append(SketchWord(at=(middle, gore.piece.length_mm / 2), parts=(gore.name,)))
        words.append(SketchWord(at=(middle, gore.piece.length_mm * 0.92), parts=("hem ", gore.piece.hem_mm)))
        right += far - left + _GAP_MM
    names = ", ".join(gore.name for gore in cut)
    return Sketch(
        title="The gores, one of each",
        says=f"Outlines of {names}, grain upright, top above. Dashed: where an edge swells for the hip.",
        strokes=tuple(strokes),
        words=tuple(words),
    )


def _swollen(gore: Gore) -> Iterator[list[Point]]:
    """Each edge that must swell, as it leaves the straight one above the hip and comes back to it below."""
    if gore.swell_each_mm <= LEAST_SWELL_MM:
        return
    piece, deep = gore.piece, gore.hip_depth_mm
    swell = fair_curve([(0.0, 0.0), (deep, gore.swell_each_mm), (min(2 * deep, piece.length_mm), 0.0)])
    first = -math.pi / 2 if gore.straight_edge else -math.pi / 2 - piece.turn / 2
    for angle, out in ((first, -1), (first + piece.turn, 1)):
        if gore.straight_edge and out < 0:
            continue
        along, across = (math.cos(angle), math.sin(angle)), (-math.sin(angle), math.cos(angle))
        depths = [swell.places[-1] * step / 24 for step in range(25)]
        yield [
            (
                along[0] * (piece.inner_mm + depth) + out * across[0] * swell.at(depth),
                along[1] * (piece.inner_mm + depth) + out * across[1] * swell.at(depth),
            )
            for depth in depths
        ]


def _lengths_drawn(lengths: SkirtLengths, places: Sequence[float]) -> Sketch:
    """Breadths with a straight hem: the half laid flat, its top cut away, a train below."""
    longest, width = lengths.longest_mm, lengths.longest_mm * 1.5
    level = lengths.cut_away_at_top(0) + lengths.at(0) - lengths.at_hem(0)
    fine = [step / 40 for step in range(41)]
    top = [(place * width, lengths.cut_away_at_top(place)) for place in fine]
    hem = [(place * width, level + lengths.at_hem(place)) for place in fine]
    return Sketch(
        title="Half the skirt laid flat",
        says="The upper edge dips where the skirt is shorter, the hem is straight but for a train; across is "
        "not to scale.",
        strokes=(
            Stroke(points=((0.0, 0.0), (width, 0.0)), look="level"),
            Stroke(points=((0.0, level), (width, level)), look="level"),
            Stroke(points=(*top, *reversed(hem)), look="cloth", is_closed=True),
        ),
        words=tuple(
            SketchWord(
                at=(place * width, longest * 0.5),
                parts=(lengths.at(place),),
                anchor={0.0: "start", 1.0: "end"}.get(place, "middle"),
            )
            for place in places
            if place in (0.0, 0.25, 0.5, 0.75, 1.0)
        ),
    )
