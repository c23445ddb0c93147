"""Traced pieces as a sheet of pattern work needs them: outline, named edges, where each level crosses."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from statistics import fmean

from catalogue.tracing.calculation.tracing import LevelLine, TracedShape, level_widths
from catalogue.tracing.loading.outlines import levels_of, map_of
from fitting.pattern.calculation.motion import upright
from fitting.pattern.calculation.working.pattern import PatternPiece
from fitting.pattern.loading.traced_plate import TracedPlate

Point = tuple[float, float]
_MEETS_MM = 0.5
_STEPS = 12  # chords of a curved side, for a drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceShape:
    """Millimetres at full size, grain upright, y downwards. `level_y`: how far down each level crosses it."""

    outline: tuple[Point, ...]
    edges: Mapping[str, tuple[Point, ...]]
    level_y: Mapping[str, float]

    def below_top(self, line: str, edge: str) -> float | None:
        """How far a level lies below the top of an edge; None where it has no such edge or level."""
        if line not in self.level_y or edge not in self.edges:
            return None
        return self.level_y[line] - min(y for _, y in self.edges[edge])

    def downwards(self, edge: str) -> tuple[Point, ...]:
        """An edge from its top, with those that go on from its foot, as a skirt does; empty where none."""
        if edge not in self.edges:
            return ()
        points, used = _from_top(self.edges[edge]), {edge}
        while True:
            below = (
                (name, _from_top(other))
                for name, other in self.edges.items()
                if name not in used and abs(complex(*_from_top(other)[0]) - complex(*points[-1])) < _MEETS_MM
            )
            name, other = next(((name, one) for name, one in below if _is_upright(one)), ("", ()))
            if not other:
                return points
            points, used = (*points, *other[1:]), {*used, name}


def _from_top(points: tuple[Point, ...]) -> tuple[Point, ...]:
    return points if points[0][1] <= points[-1][1] else points[::-1]


def _is_upright(points: tuple[Point, ...]) -> bool:
    """Whether an edge falls more than it runs across: a hem does not."""
    (x, y), (to_x, to_y) = points[0], points[-1]
    return abs(to_y - y) > abs(to_x - x)


def shapes_of(traced: TracedPlate, *, growth: float = 1.0) -> dict[str, PieceShape]:
    """The traced pieces of a plate by their name; none before its scan is calibrated.

    `growth`: how many times as large a proportional draft is drawn out. No outline says what of it is plain.
    """
    if traced.calibration is None:
        return {}
    levels = levels_of(traced.plate, map_of(traced.calibration))
    return {shape.name: _shape(shape, levels, growth) for shape in traced.shapes.values()}


def shape_of_piece(piece: PatternPiece) -> PieceShape:
    """A piece of a working pattern; of a level that was parted both ends count."""
    lines = [LevelLine(line=name, start=path[0], end=path[-1]) for name, path in piece.levels.items()]
    return _shape(piece.shape, lines, 1.0)


def _shape(drawn: TracedShape, drawn_levels: list[LevelLine], growth: float) -> PieceShape:
    shape, levels = upright(drawn, drawn_levels)

    def grown(points: Iterable[complex]) -> tuple[Point, ...]:
        return tuple((growth * at.real, growth * at.imag) for at in points)

    edges = {
        edge.name: grown([edge.sides[0].start, *(p for side in edge.sides for p in side.flattened(_STEPS))])
        for edge in shape.outline.edges()
        if edge.name
    }
    return PieceShape(
        outline=grown(shape.outline.flattened()),
        edges=edges,
        level_y={
            width.line: growth * fmean(end.imag for span in width.spans for end in span)
            for width in level_widths(shape, levels)
        },
    )
