"""The drawn plates of the demo as traced pieces: points, edges, level lines, darts, grain and lengths."""

from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import LevelLine, Mark, TracedShape
from fitting.pattern.calculation.grading.values import PieceToGrade
from fixtures.demo.draw.piece import DraftPiece, DraftPlate

INCH_MM = 25.4


def at(piece: DraftPiece, point: tuple[float, float]) -> complex:
    """A drawn point on the page of its plate, in millimetres at full size."""
    return complex(point[0] + piece.place[0], point[1] + piece.place[1]) * INCH_MM


def to_grade(piece: DraftPiece) -> PieceToGrade:
    nodes = [
        Node(
            at=at(piece, point),
            corner=place == 0,
            curved=not edge.is_straight,
            edge=edge.name if place == 0 else "",
        )
        for edge in piece.outline
        for place, point in enumerate(edge.points[:-1])
    ]
    darts = (
        Mark(kind="dart", points=tuple(at(piece, p) for p in (d.left, d.tip, d.right, d.foot) if p))
        for d in piece.darts
    )
    lengths = (
        Mark(kind="length", line=line, points=tuple(at(piece, p) for p in ends))
        for line, ends in piece.lengths.items()
    )
    grain = Mark(kind="grain", points=tuple(at(piece, p) for p in piece.grain))
    notches = (Mark(kind="notch", points=(at(piece, place),)) for place, _ in piece.notch_places())
    fold = [Mark(kind="fold", points=_ends(piece, piece.fold_edge))] if piece.on_fold else []
    xs = [point[0] for edge in piece.outline for point in edge.points]
    levels = tuple(
        LevelLine(line=level, start=at(piece, (min(xs) - 2, height)), end=at(piece, (max(xs) + 2, height)))
        for level, height in piece.levels.items()
    )
    shape = TracedShape(
        name=piece.name, outline=Outline(nodes=tuple(nodes)), marks=(*darts, *lengths, grain, *notches, *fold)
    )
    whole = piece.cut * (2 if piece.on_fold else 1)
    return PieceToGrade(shape=shape, levels=levels, round_body=whole, round_limb=max(1, whole // 2))


def plate_to_grade(plate: DraftPlate) -> list[PieceToGrade]:
    return [to_grade(piece) for piece in plate.pieces if piece.cloth == "outer"]


def _ends(piece: DraftPiece, edge: str) -> tuple[complex, complex]:
    points = piece.edge(edge).points
    return at(piece, points[0]), at(piece, points[-1])
