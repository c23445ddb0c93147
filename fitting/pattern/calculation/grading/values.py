"""What a grading takes and what it gives. Lengths are millimetres at full size."""

from collections.abc import Mapping
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault
from catalogue.lengths.calculation.levels import LINES
from catalogue.tracing.calculation.tracing import LevelLine, TracedShape
from fitting.pattern.calculation.seam_match import MATCHES_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceToGrade:
    """A traced piece with the level lines of its plate, and how often its shape goes round body or limb."""

    shape: TracedShape
    levels: tuple[LevelLine, ...]
    round_body: int = 2
    round_limb: int = 1

    def times(self, level: str) -> int:
        return self.round_limb if LINES[level].has_sides else self.round_body


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedGirth:
    """A girth to reach. `beside_mm` is what it holds besides drawn cloth: gap − overlap − allowances."""

    level: str
    wanted_mm: float
    beside_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class GradingJoin:
    """Edges sewn to each other, each a run of (piece, edge): the armhole is one of four pieces at times."""

    one: tuple[tuple[str, str], ...]
    other: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GradedPiece:
    drawn: PieceToGrade
    shape: TracedShape
    levels: tuple[LevelLine, ...]

    @property
    def edges_mm(self) -> dict[str, tuple[float, float]]:
        """Each named edge as drawn and as graded: neck, shoulder and armhole by their own amounts."""
        graded = self.shape.edges_mm()
        return {name: (mm, graded[name]) for name, mm in self.drawn.shape.edges_mm().items()}


@dataclass(frozen=True, slots=True, kw_only=True)
class GradedLine:
    """A girth or a length: as drawn, in a plain enlargement, wanted, and measured again once graded."""

    line: str
    drawn_mm: float
    plain_mm: float
    wanted_mm: float
    graded_mm: float

    @property
    def off_mm(self) -> float:
        return self.graded_mm - self.wanted_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class GradedJoin:
    """A seam's two sides before and after. What differed on the plate was meant or is the plate's fault."""

    join: GradingJoin
    drawn_mm: tuple[float, float]
    graded_mm: tuple[float, float]

    @property
    def drawn_difference_mm(self) -> float:
        return self.drawn_mm[0] - self.drawn_mm[1]

    @property
    def graded_difference_mm(self) -> float:
        return self.graded_mm[0] - self.graded_mm[1]

    @property
    def is_apart(self) -> bool:
        """Whether grading has parted the two sides by more than cutting can hold."""
        return abs(self.graded_difference_mm - self.drawn_difference_mm) > MATCHES_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class Grading:
    """Pieces graded, everything measured again. `factor` is that of the plain enlargement beside it."""

    pieces: tuple[GradedPiece, ...]
    girths: tuple[GradedLine, ...]
    lengths: tuple[GradedLine, ...]
    joins: tuple[GradedJoin, ...]
    factor: float
    notes: tuple[Fault, ...]


def run_mm(edges: Mapping[tuple[str, str], float], run: tuple[tuple[str, str], ...]) -> float:
    return sum(edges[edge] for edge in run)
