"""A piece turned over, unfolded at its fold, copied, or made apart for left and right."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.sides import Side, outline_of, turned_round
from catalogue.tracing.calculation.tracing import Mark
from fitting.pattern.calculation.working.level_lines import Path
from fitting.pattern.calculation.working.paths import Line, Move, left_of, right_of
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece
from fitting.pattern.calculation.working.rounds import (
    apart,
    each_edge_once,
    followed,
    meeting,
    merged,
    refuse_names,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mirror:
    piece: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Unfold:
    """A half drawn to a fold made whole; `edge` is the fold, which is straight."""

    piece: str
    edge: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    piece: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Sides:
    """A mirrored pair made into two pieces, so that left and right can differ; `names`: left, right."""

    piece: str
    names: tuple[str, str]


def mirror(pattern: Pattern, asked: Mirror) -> Pattern:
    """Turned over, about the middle of its breadth."""
    piece = pattern.piece(asked.piece)
    return pattern.with_pieces([_turned_over(piece)])


def _turned_over(piece: PatternPiece) -> PatternPiece:
    across = [node.at.real for node in piece.outline.nodes]
    middle = (min(across) + max(across)) / 2
    return piece.moved(lambda point: complex(2 * middle - point.real, point.imag))


def unfold(pattern: Pattern, asked: Unfold) -> Pattern:
    """Raises Faults where the fold is not straight."""
    piece = pattern.piece(asked.piece)
    fold = pattern.edge(asked.piece, asked.edge)
    line = (fold.start, fold.end)
    if any(abs(right_of(point, line)) > 0.1 for side in fold.sides for point in side.flattened(8)):
        sentence = f"The {asked.edge} is not straight, so nothing can be cut on it as a fold."
        raise Faults([Fault("edge", sentence)])
    along = chord(*line)

    def reflect(point: Point) -> Point:
        return line[0] + ((point - line[0]) / along).conjugate() * along

    _, half = apart(piece.sides, [asked.edge], "edge")
    other = turned_round([side.moved(reflect) for side in half])
    met = {half[0].edge, half[-1].edge}
    other = [
        replace(side, is_first=False, edge=side.edge if side.edge in met else f"{side.edge} 2")
        for side in other
    ]
    made = replace(
        piece,
        outline=outline_of(each_edge_once(merged([*half, *_cornered(other)]))),
        levels={name: _unfolded(path, line, reflect) for name, path in piece.levels.items()},
        marks=tuple(_marks_unfolded(piece.marks, line, reflect)),
        # Two halves of a mirrored pair are one whole; a half drawn to a fold is cut as often as before.
        cut=piece.cut // 2 if piece.mirrored and piece.cut % 2 == 0 and not piece.on_fold else piece.cut,
        mirrored=piece.mirrored and piece.on_fold and piece.cut % 2 == 0,
        on_fold=False,
    )
    return pattern.with_pieces([made])


def _cornered(sides: list[Side]) -> list[Side]:
    return [replace(sides[0], corner=True), *sides[1:]]


def _unfolded(path: Path, line: Line, reflect: Move) -> Path:
    """A level drawn on across the fold; what of it runs past the fold is left out first."""
    start_side = right_of(max(path, key=lambda point: abs(right_of(point, line))), line)
    half = left_of(path, line if start_side <= 0 else (line[1], line[0]))
    if len(half) < 2:
        return path
    if abs(right_of(half[0], line)) < abs(right_of(half[-1], line)):
        half = half[::-1]
    return meeting(half, tuple(reflect(point) for point in reversed(half)))


def _marks_unfolded(marks: Iterable[Mark], line: Line, reflect: Move) -> Iterable[Mark]:
    """Every mark on both halves; one that lies on the fold once, and the mark of the fold itself no more."""
    for mark in marks:
        lies_on = all(abs(right_of(point, line)) <= 5.0 for point in mark.points)
        if mark.kind == "fold" and lies_on:
            continue
        yield mark
        if not lies_on and mark.kind != "grain":
            yield replace(mark, points=tuple(reflect(point) for point in mark.points))


def copy(pattern: Pattern, asked: Copy) -> Pattern:
    piece = pattern.piece(asked.piece)
    refuse_names([asked.name], [one.name for one in pattern.pieces], "name")
    return replace(pattern, pieces=(*pattern.pieces, replace(piece, name=asked.name)))


def sides(pattern: Pattern, asked: Sides) -> Pattern:
    """The left as drawn, the right turned over. Raises Faults where it is not a mirrored pair."""
    piece = pattern.piece(asked.piece)
    if piece.cut != 2 or not piece.mirrored:
        sentence = (
            f"{piece.name} is not cut twice, one of them mirrored: only such a pair has a left and a right."
        )
        raise Faults([Fault("piece", sentence)])
    others = [one.name for one in pattern.pieces if one is not piece]
    refuse_names(asked.names, others, "names")
    made = [
        replace(shape, name=name, cut=1, mirrored=False)
        for shape, name in zip((piece, _turned_over(piece)), asked.names, strict=True)
    ]
    kept = tuple(one for one in pattern.pieces if one is not piece)
    return replace(pattern, pieces=(*kept, *made), seams=followed(pattern.seams, [piece], made))
