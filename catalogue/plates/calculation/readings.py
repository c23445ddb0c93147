"""What was read off one plate: pieces with their readings by level, lengths, and what is said beside them.

Millimetres, on the page unless said. `None` for the allowance means that nobody knows it yet.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from catalogue.lengths.calculation.doubt import two_ended_reading_u, value_of
from catalogue.plates.calculation.draft import Draft
from catalogue.plates.calculation.scale import Scale

SIXTEENTH_MM = 25.4 / 16


@dataclass(frozen=True, slots=True, kw_only=True)
class PageReading:
    """One dimension on the page, with what darts, pleats or tucks take up there.

    `crossed_ends` counts the seams that a length runs across at its ends; a girth has none. `u_mm` is the
    standard uncertainty of a dimension that was traced; None: it was read with the plate's rule. `is_plain`:
    on a proportional draft, the dimension stays the same for every body.
    """

    length_mm: float
    take_up_mm: float = 0.0
    crossed_ends: int = 0
    u_mm: float | None = None
    is_plain: bool = False

    @property
    def net_mm(self) -> float:
        return self.length_mm - self.take_up_mm

    def drafted(self, factor: float, rule_division_mm: float) -> "PageReading":
        """The reading as it is drawn out for another body: in parts it grows, and its doubt with it."""
        if self.is_plain:
            return replace(self, is_plain=False)
        return replace(
            self,
            length_mm=self.length_mm * factor,
            take_up_mm=self.take_up_mm * factor,
            u_mm=two_ended_reading_u(rule_division_mm, own_u_mm=self.u_mm) * factor,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPiece:
    """One pattern piece as drawn. A level without a reading: the piece is not there."""

    name: str
    cut: int = 2
    on_fold: bool = False
    edges: int | None = None
    readings: Mapping[str, PageReading] = field(default_factory=dict)

    @property
    def times_round(self) -> int:
        """How many times the drawn shape goes round the body."""
        return self.cut * 2 if self.on_fold else self.cut

    @property
    def edges_with_allowance(self) -> int:
        if self.edges is not None:
            return self.edges
        return 1 if self.on_fold else 2


@dataclass(frozen=True, slots=True, kw_only=True)
class FastenedWidth:
    """A full-size width at the fastening: the same at every level, or its own at some."""

    everywhere_mm: float = 0.0
    at_mm: Mapping[str, float] = field(default_factory=dict)

    def at(self, level: str) -> float:
        return self.at_mm.get(level, self.everywhere_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateReadings:
    """A plate as read: enough to reckon every girth and length at full size.

    `allowance_mm`, `drawing_doubt_mm`, `overlap` and `lacing_gap` are full size. `lengths` holds, for each
    line, the readings that make it up end to end. `draft`: what its figures are parts of; without one they
    are lengths of one garment.
    """

    scale: Scale
    pieces: tuple[DrawnPiece, ...]
    lengths: Mapping[str, tuple[PageReading, ...]] = field(default_factory=dict)
    allowance_mm: float | None = 0.0
    rule_division_mm: float = SIXTEENTH_MM
    drawing_doubt_mm: float = SIXTEENTH_MM
    overlap: FastenedWidth = FastenedWidth()
    lacing_gap: FastenedWidth = FastenedWidth()
    draft: Draft | None = None

    def drafted_for(self, body_mm: float) -> "PlateReadings":
        """The plate as it is drawn out for a body of this measure; unchanged where it is no draft.

        It is drawn to the measure as that was taken, so whether the body is larger or smaller does not make
        the pattern so: a doubt of the measure belongs to the body, and not to these lengths.
        """
        if self.draft is None:
            return self
        factor = value_of(self.draft.factor(body_mm))

        def drafted(reading: PageReading) -> PageReading:
            return reading.drafted(factor, self.rule_division_mm)

        pieces = (
            replace(piece, readings={level: drafted(one) for level, one in piece.readings.items()})
            for piece in self.pieces
        )
        lengths = {line: tuple(map(drafted, readings)) for line, readings in self.lengths.items()}
        return replace(self, draft=None, pieces=tuple(pieces), lengths=lengths)

    @property
    def levels(self) -> tuple[str, ...]:
        """The levels at which some piece was read, in the order in which they first come."""
        return tuple(dict.fromkeys(level for piece in self.pieces for level in piece.readings))
