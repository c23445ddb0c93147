"""From the page to full size: G = Σ mᵢ·(k·(ℓᵢ − tᵢ) − eᵢ·s) − overlap + lacing gap, and lengths likewise.

One drawn piece that goes m times round the body brings its error m times: they are one and the same reading.
The error of the scale is shared by everything read off a plate; how well each piece was drawn is its own.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field

from catalogue.lengths.calculation.doubt import Doubtful, doubtful, two_ended_reading_u, u_of, value_of
from catalogue.plates.calculation.readings import PageReading, PlateReadings

SCALE_SOURCE = "scale.relative_doubt"
DRAWING_SOURCE = "drawing_doubt"


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """What one reading brings to a sum: times × (factor × (reading − take-up) − edges × allowance)."""

    name: str
    times: int
    factor: float
    reading: PageReading
    edges: int
    allowance_mm: float

    @property
    def drawn_mm(self) -> float:
        return self.times * self.factor * self.reading.net_mm

    @property
    def taken_by_seams_mm(self) -> float:
        return self.times * self.edges * self.allowance_mm

    @property
    def mm(self) -> float:
        return self.drawn_mm - self.taken_by_seams_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class FullSize:
    """A girth or a length at full size, with the terms of its sum. `value` carries its doubt by parts.

    Compared by its terms: two equal values with doubts of their own are not the same value.
    """

    line: str
    value: Doubtful = field(compare=False)
    terms: tuple[Term, ...]
    overlap_mm: float = 0.0
    gap_mm: float = 0.0

    @property
    def mm(self) -> float:
        return value_of(self.value)

    @property
    def u_mm(self) -> float:
        return u_of(self.value)

    @property
    def drawn_mm(self) -> float:
        """The cloth drawn on the plate, allowances and all."""
        return sum(term.drawn_mm for term in self.terms)

    @property
    def taken_by_seams_mm(self) -> float:
        return sum(term.taken_by_seams_mm for term in self.terms)


def girth_source(piece: int, level: str) -> str:
    return f"pieces[{piece}].readings.{level}"


def length_sources(line: str, count: int) -> list[str]:
    if count == 1:
        return [f"lengths.{line}.reading"]
    return [f"lengths.{line}[{index}].reading" for index in range(count)]


def is_reading(source: str) -> bool:
    """Whether a part of a doubt comes from a reading, and so from the rule it was made with."""
    return source.startswith(("pieces[", "lengths."))


@dataclass(frozen=True, slots=True)
class Reckoning:
    """One plate being reckoned: holds the error of its scale, which all its girths and lengths share.

    `allowance_mm` answers for a plate whose allowance is not known; it is then taken as none unless said.
    """

    plate: PlateReadings
    allowance_mm: float
    stretch: Doubtful

    @classmethod
    def of(cls, plate: PlateReadings, *, allowance_mm: float | None = None) -> "Reckoning":
        if allowance_mm is None:
            allowance_mm = plate.allowance_mm or 0.0
        return cls(plate, allowance_mm, doubtful(1.0, plate.scale.relative_doubt, SCALE_SOURCE))

    def girth(self, level: str) -> FullSize:
        """The girth at a level at which at least one piece was read."""
        found = [
            (girth_source(index, level), piece, piece.readings[level])
            for index, piece in enumerate(self.plate.pieces)
            if level in piece.readings
        ]
        terms = (
            self._term(
                piece.name, piece.times_round, self.plate.scale.across, reading, piece.edges_with_allowance
            )
            for _, piece, reading in found
        )
        overlap_mm, gap_mm = self.plate.overlap.at(level), self.plate.lacing_gap.at(level)
        return self._full_size(level, terms, [source for source, _, _ in found], overlap_mm, gap_mm)

    def length(self, line: str) -> FullSize:
        """A length: its readings end to end, less the allowance at ends that cross a seam; never doubled."""
        readings = self.plate.lengths[line]
        terms = (self._term(line, 1, self.plate.scale.along, one, one.crossed_ends) for one in readings)
        return self._full_size(line, terms, length_sources(line, len(readings)))

    def edge(self, edge_mm: float, source: str) -> Doubtful:
        """One drawn edge at full size: its own reading and drawing, and the scale that all share."""
        reading_u = two_ended_reading_u(self.plate.rule_division_mm)
        drawn = self.plate.scale.along * doubtful(edge_mm, reading_u, source)
        return self.stretch * drawn + doubtful(0.0, self.plate.drawing_doubt_mm, DRAWING_SOURCE)

    def _term(self, name: str, times: int, factor: float, reading: PageReading, edges: int) -> Term:
        return Term(
            name=name,
            times=times,
            factor=factor,
            reading=reading,
            edges=edges,
            allowance_mm=self.allowance_mm,
        )

    def _full_size(
        self,
        line: str,
        terms: Iterable[Term],
        sources: list[str],
        overlap_mm: float = 0.0,
        gap_mm: float = 0.0,
    ) -> FullSize:
        summed = tuple(terms)
        drawn: Doubtful = 0.0
        drawing: Doubtful = 0.0
        for term, source in zip(summed, sources, strict=True):
            reading = term.reading
            reading_u = two_ended_reading_u(
                self.plate.rule_division_mm, take_up=reading.take_up_mm > 0, own_u_mm=reading.u_mm
            )
            drawn = drawn + term.times * term.factor * doubtful(reading.net_mm, reading_u, source)
            drawing = drawing + term.times * doubtful(0.0, self.plate.drawing_doubt_mm, DRAWING_SOURCE)
        seams_mm = sum(term.taken_by_seams_mm for term in summed)
        value = self.stretch * drawn + drawing - seams_mm - overlap_mm + gap_mm
        return FullSize(line=line, value=value, terms=summed, overlap_mm=overlap_mm, gap_mm=gap_mm)
