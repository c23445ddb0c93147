"""A working pattern: the pieces of one garment at full size, as they will be cut. Millimetres, y downwards.

Values only. A step (`steps.py`) takes one pattern and makes the next; none is ever changed.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.outline import Edge, Outline
from catalogue.tracing.calculation.sides import Side, sides_of
from catalogue.tracing.calculation.tracing import Mark, TracedShape
from fitting.pattern.calculation.grading.values import GradingJoin
from fitting.pattern.calculation.motion import placed, upright
from fitting.pattern.calculation.seam_walk import TracedEdge, traced_edges
from fitting.pattern.calculation.working.level_lines import Path, cloth_mm, sewn_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowance:
    """What is added to a piece for its seams when it is cut: the usual one, and that of edges that differ."""

    usual_mm: float = 0.0
    by_edge: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class PatternPiece:
    """One piece of paper. `cut`: how many of it the garment has; half of them mirrored if `mirrored`.

    `levels`: the line of each level of the body, straight until a step parts it. `on_fold`: it is half of
    what is cut. `is_box`: nobody has drawn it; it is as long and as wide as its typed lengths.
    """

    name: str
    outline: Outline
    cut: int = 2
    mirrored: bool = True
    levels: Mapping[str, Path] = field(default_factory=dict)
    marks: tuple[Mark, ...] = ()
    allowance: Allowance = field(default_factory=Allowance)
    cloth: str = ""
    on_fold: bool = False
    is_box: bool = False

    @cached_property
    def sides(self) -> list[Side]:
        return sides_of(self.outline)

    @cached_property
    def edges(self) -> Mapping[str, Edge]:
        """By name, in order round the piece; none where no point names one."""
        return {edge.name: edge for edge in self.outline.edges() if edge.name}

    @cached_property
    def shape(self) -> TracedShape:
        return TracedShape(name=self.name, outline=self.outline, marks=self.marks)

    @cached_property
    def edges_walked(self) -> dict[tuple[str, str], list[TracedEdge]]:
        """Its edges as a walk along a seam takes them, the grain upright."""
        return traced_edges([upright(self.shape)[0]])

    @cached_property
    def outward(self) -> Point:
        """What a direction along the outline is multiplied by to point out of the piece."""
        return -1j * self.outline.turns

    @property
    def grain(self) -> Point:
        """The direction of its grain, downwards; straight down where none is marked."""
        points = next((mark.points for mark in self.marks if mark.kind == "grain"), None)
        along = chord(points[0], points[-1]) if points else 1j
        return -along if along.imag < 0 or (along.imag == 0 and along.real < 0) else along

    @cached_property
    def sewn_mm(self) -> Mapping[str, float]:
        """Each edge without the mouths of the darts and pleats that stand on it."""
        return {name: sewn_mm(edge, self.marks) for name, edge in self.edges.items()}

    @cached_property
    def measures(self) -> "PieceMeasures":
        return PieceMeasures(
            area_mm2=self.outline.area,
            perimeter_mm=self.outline.perimeter,
            edges={name: edge.length for name, edge in self.edges.items()},
            levels={name: cloth_mm(self.shape, path) for name, path in self.levels.items()},
        )

    def faults(self) -> list[str]:
        """What keeps it from being cut."""
        named = [node.edge for node in self.outline.nodes if node.edge]
        twice = [name for name in dict.fromkeys(named) if named.count(name) > 1]
        return [
            *(fault.sentence for fault in self.outline.faults(self.name)),
            *(f"Two edges of {self.name} are named “{name}”: give one another name." for name in twice),
        ]

    def moved(self, move: Callable[[Point], Point]) -> "PatternPiece":
        """Carried whole by a rigid move."""
        shape = placed(self.shape, move)
        levels = {name: tuple(map(move, path)) for name, path in self.levels.items()}
        return replace(self, outline=shape.outline, marks=shape.marks, levels=levels)


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceMeasures:
    """What one piece measures; `edges` and `perimeter_mm` as drawn, `levels` less what is taken up."""

    area_mm2: float
    perimeter_mm: float
    edges: Mapping[str, float]
    levels: Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternSeam:
    """Two edges sewn together. `ease_mm`: by how much the first is longer; None: as long as it was before.

    `mirrored_corners`: at its ends the allowance is cut to lie along the neighbours when it is pressed open.
    """

    pieces: tuple[str, str]
    edges: tuple[str, str]
    ease_mm: float | None = None
    mirrored_corners: bool = False

    @property
    def words(self) -> str:
        return f"{self.edges[0]} of {self.pieces[0]} and {self.edges[1]} of {self.pieces[1]}"


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternFastening:
    """What lies double at a fastening, or stays open there; the usual, or by level."""

    usual_mm: float = 0.0
    by_level: Mapping[str, float] = field(default_factory=dict)

    def at(self, level: str) -> float:
        return self.by_level.get(level, self.usual_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class SleeveSeam:
    """A head set into the edges of an armhole, and by how much each part of it is to be the longer."""

    join: GradingJoin
    eases_mm: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Pattern:
    pieces: tuple[PatternPiece, ...]
    seams: tuple[PatternSeam, ...] = ()
    sleeves: tuple[SleeveSeam, ...] = ()
    overlap: PatternFastening = field(default_factory=PatternFastening)
    gap: PatternFastening = field(default_factory=PatternFastening)
    of_one_limb: frozenset[str] = frozenset()  # levels of an arm or a leg, where half of what is cut counts
    counted: frozenset[str] = frozenset({"", "outer"})  # the cloths whose pieces go round the body

    def piece(self, name: str, where: str = "piece") -> PatternPiece:
        """Raises Faults where there is no such piece."""
        for piece in self.pieces:
            if piece.name == name:
                return piece
        names = ", ".join(piece.name for piece in self.pieces)
        raise Faults([Fault(where, f"There is no piece “{name}”; the pattern has: {names}.")])

    def edge(self, piece: str, edge: str, where: str = "edge") -> Edge:
        """Raises Faults where the piece has no such edge."""
        edges = self.piece(piece, where).edges
        if edge in edges:
            return edges[edge]
        has = f"its edges are: {', '.join(edges)}" if edges else "none of its edges is named"
        raise Faults([Fault(where, f"{piece} has no edge “{edge}”; {has}.")])

    def with_pieces(self, changed: Iterable[PatternPiece]) -> "Pattern":
        """Each in the place of the piece of its name; a new one goes last."""
        by_name = {piece.name: piece for piece in changed}
        kept = [by_name.pop(piece.name, piece) for piece in self.pieces]
        return replace(self, pieces=(*kept, *by_name.values()))

    def girths(self) -> dict[str, float]:
        """Each level's whole girth: a piece as many times as it is cut, less the overlap, with the gap."""
        widths: dict[str, float] = {}
        for piece in self.pieces:
            if piece.cloth not in self.counted:
                continue
            for level, width_mm in piece.measures.levels.items():
                widths[level] = widths.get(level, 0.0) + self.times(piece, level) * width_mm
        return {
            level: width_mm - self.overlap.at(level) + self.gap.at(level)
            for level, width_mm in widths.items()
        }

    def times(self, piece: PatternPiece, level: str) -> float:
        """How many times a piece goes round the body, or one limb, at a level."""
        halves = 2 if piece.on_fold else 1
        if level in self.of_one_limb and piece.cut % 2 == 0:
            return halves * piece.cut / 2
        return halves * piece.cut

    def off_mm(self, seam: PatternSeam) -> float | None:
        """By how much the first edge is longer than the second; None where one of them is no longer there."""
        lengths = []
        for name, edge in zip(seam.pieces, seam.edges, strict=True):
            piece = next((piece for piece in self.pieces if piece.name == name), None)
            if piece is None or edge not in piece.edges:
                return None
            lengths.append(piece.sewn_mm[edge])
        return lengths[0] - lengths[1]

    def faults(self) -> list[Fault]:
        """What keeps it from being cut, by the place in `pieces`."""
        return [
            Fault(f"pieces[{index}].nodes", sentence)
            for index, piece in enumerate(self.pieces)
            for sentence in piece.faults()
        ]
