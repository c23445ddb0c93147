"""What a sum may know of a garment before any box is filled: lengths by line, its seams, the maker's pace."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from fitting.pattern.calculation.seam_match import Stretch

USUAL_ALLOWANCE_MM = 12.7  # common practice, no source
FIRST_SKIRT_MM = 1016.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamFacts:
    """Two edges, each as piece and edge, with their lengths at full size where they were read or traced."""

    piece_a: str
    edge_a: str
    piece_b: str
    edge_b: str
    a_mm: float | None
    b_mm: float | None
    is_eased: bool
    is_traced: bool
    cut: int

    def __str__(self) -> str:
        one, other = f"{self.piece_a}, {self.edge_a}", f"{self.piece_b}, {self.edge_b}"
        return one if self.is_one_edge else f"{one} – {other}"

    @property
    def is_one_edge(self) -> bool:
        """Whether an edge is sewn to its own other half."""
        return (self.piece_a, self.edge_a) == (self.piece_b, self.edge_b)


@dataclass(frozen=True, slots=True, kw_only=True)
class TimedSeam:
    """A seam that was sewn by the clock."""

    day: date
    length_mm: float
    minutes: float


@dataclass(frozen=True, slots=True, kw_only=True)
class GarmentFigures:
    """By line: `made_mm` the plate at full size, `flat_mm` before anything is taken up, `body_mm` as
    measured, `wanted_mm` body and ease. `timed` is there once the maker has logged a seam sewn by the clock.
    """

    usual_mm: float = USUAL_ALLOWANCE_MM
    made_mm: Mapping[str, float] = field(default_factory=dict)
    flat_mm: Mapping[str, float] = field(default_factory=dict)
    body_mm: Mapping[str, float] = field(default_factory=dict)
    wanted_mm: Mapping[str, float] = field(default_factory=dict)
    seams: tuple[SeamFacts, ...] = ()
    timed: TimedSeam | None = None

    def finished_mm(self, line: str) -> float | None:
        """What the garment is to measure there: as wanted for the wearer, else as the plate has it."""
        return self.wanted_mm.get(line, self.made_mm.get(line))

    def ratio(self, line: str) -> float | None:
        """How much cloth the plate takes into its length there, where that is fullness and not a seam."""
        flat_mm, made_mm = self.flat_mm.get(line), self.made_mm.get(line)
        return flat_mm / made_mm if flat_mm and made_mm and flat_mm > 1.05 * made_mm else None

    def traced_sleeve(self) -> Sequence[Stretch]:
        """The stretches of its sleeve in its armhole, where the pitch points are traced."""
        return ()


def at_waist(known: GarmentFigures) -> float | None:
    return known.finished_mm("waist")


def usual_allowance(known: GarmentFigures) -> float:
    return known.usual_mm


def skirt_length(known: GarmentFigures) -> float:
    """As taken on the wearer, else as the plate has it."""
    for lengths_mm in (known.body_mm, known.made_mm):
        for line in ("skirt front", "skirt side", "skirt back"):
            if line in lengths_mm:
                return lengths_mm[line]
    return FIRST_SKIRT_MM
