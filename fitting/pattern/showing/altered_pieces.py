"""A drawing of each piece that is altered, old edge and new: by its outline where it is traced, else by its
widths at the levels.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import fmean

from fitting.pattern.calculation.alteration import AlterationPlan, LevelChange
from fitting.pattern.calculation.fair_curve import FairCurve
from fitting.pattern.calculation.sums.sheet_answer import Sketch, SketchWord, Stroke
from fitting.pattern.loading.piece_shapes import PieceShape, Point

_PARTS = 8  # of each straight stretch, so that the new edge can curve


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedLevel:
    """A level's change, and the standard uncertainty of the difference that it puts right."""

    change: LevelChange
    u_mm: float


def altered_pieces(
    plan: AlterationPlan,
    levels: Sequence[PlannedLevel],
    widths_mm: Mapping[str, Mapping[str, float]],
    shapes: Mapping[str, PieceShape],
) -> Iterator[Sketch]:
    """In the order of the seams; a piece neither traced nor read at two levels is left out."""
    by_piece: dict[str, dict[str, FairCurve]] = {}
    for one in {change.seam: change for change in plan.changes}.values():
        for piece in one.pieces:
            by_piece.setdefault(piece, {})[one.seam] = plan.along[one.seam]
    for piece, curves in by_piece.items():
        shape = shapes.get(piece)
        if shape and curves.keys() & shape.edges.keys():
            yield _traced(piece, shape, curves)
            continue
        read = [
            (level.change.height_mm, widths_mm[piece][level.change.level], level.change.level)
            for level in levels
            if level.change.level in widths_mm.get(piece, {})
        ]
        if len(read) > 1:
            yield _boxed(piece, sorted(read), list(curves.values()))


def _traced(piece: str, shape: PieceShape, curves: Mapping[str, FairCurve]) -> Sketch:
    """Each altered edge moved level with the page, out from the middle of the piece."""
    middle = fmean(x for x, _ in shape.outline)
    strokes = [Stroke(points=shape.outline, look="old", is_closed=True)]
    for seam, curve in curves.items():
        edge = shape.downwards(seam)
        if edge and any(curve.amounts):
            side, top = (1 if fmean(x for x, _ in edge) > middle else -1), min(y for _, y in edge)
            moved = tuple((x + side * curve.at(y - top), y) for x, y in _finely(edge))
            strokes.append(Stroke(points=moved, look="new"))
    return Sketch(
        title=piece,
        says="As traced: the old edge full, the new one dashed.",
        strokes=tuple(strokes),
        words=tuple(SketchWord(at=(middle, y), parts=(line,)) for line, y in shape.level_y.items()),
    )


def _boxed(piece: str, read: Sequence[tuple[float, float, str]], curves: Sequence[FairCurve]) -> Sketch:
    """The first seam right, a second left; straight between the levels, since they were read, not traced."""
    heights, widths = [height for height, _, _ in read], [width for _, width, _ in read]
    right = tuple(zip([width / 2 for width in widths], heights, strict=True))
    left = tuple(zip([-width / 2 for width in widths], heights, strict=True))
    strokes = [Stroke(points=(*right, *reversed(left)), look="old", is_closed=True)]
    for curve, old, side in zip(curves, (right, left), (1, -1), strict=False):
        if any(curve.amounts):
            points = tuple((x + side * curve.at(y), y) for x, y in _finely(old))
            strokes.append(Stroke(points=points, look="new"))
    return Sketch(
        title=piece,
        says="The old edge full, the new one dashed; straight between the levels, since the piece was read "
        "at them and not traced.",
        strokes=tuple(strokes),
        words=tuple(SketchWord(at=(0.0, height), parts=(level,)) for height, _, level in read),
    )


def _finely(points: Sequence[Point]) -> Iterable[Point]:
    for (x, y), (to_x, to_y) in pairwise(points):
        yield from ((x + (to_x - x) * at / _PARTS, y + (to_y - y) * at / _PARTS) for at in range(_PARTS))
    yield points[-1]
