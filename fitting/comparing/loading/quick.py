"""A quick comparison as typed, and the case it makes. No row is touched."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.lengths import System
from catalogue.lengths.models import TypedLength
from catalogue.plates.calculation.readings import DrawnPiece, FastenedWidth, PageReading, PlateReadings
from catalogue.plates.calculation.scale import RELATIVE_DOUBT, Scale, from_known, read_ratio
from catalogue.plates.models.plate import Plate
from fitting.comparing.calculation.case import Case
from fitting.comparing.calculation.routes import SkillLevel
from fitting.comparing.loading.maker import MakerValues
from fitting.outfits.calculation.garment import Fit, Purpose
from fitting.wearers.calculation.body import Body, BodyMeasure
from fitting.wearers.calculation.plausibility import METRIC, doubts_of_girths
from fitting.wearers.calculation.takes import SINGLE_MM
from fitting.wearers.models import Measures


@dataclass(frozen=True, slots=True, kw_only=True)
class QuickPiece:
    name: str
    cut: int
    on_fold: bool
    readings: Mapping[str, TypedLength]
    take_up: Mapping[str, TypedLength]

    def drawn(self) -> DrawnPiece:
        take_up_mm = _mm(self.take_up)
        return DrawnPiece(
            name=self.name,
            cut=self.cut,
            on_fold=self.on_fold,
            readings={
                line: PageReading(length_mm=mm, take_up_mm=take_up_mm.get(line, 0.0))
                for line, mm in _mm(self.readings).items()
            },
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class QuickLine:
    """What goes by level or length besides the readings of pieces. `reading` is a length's own."""

    line: str
    body: TypedLength | None = None
    ease: TypedLength | None = None
    fit: str = "fitted"
    overlap: TypedLength | None = None
    gap: TypedLength | None = None
    reading: TypedLength | None = None
    crossed_ends: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class QuickValues:
    """All that one quick comparison needs. `scale` is a ratio, or two lengths as in words: page and real."""

    scale: str | tuple[TypedLength, TypedLength]
    read_from: str
    allowance: str
    allowance_size: TypedLength | None
    rule: TypedLength
    state: str
    is_sent_in: bool
    purpose: str
    pieces: tuple[QuickPiece, ...]
    levels: tuple[QuickLine, ...]
    lengths: tuple[QuickLine, ...] = ()
    skills: Mapping[str, str] = field(default_factory=dict)

    def case(self, maker: MakerValues) -> Case:
        """Judged by the maker's own limits, skills and hours. Raises Faults, by path in a case.

        A skill that is said on the sheet counts before one that was stated.
        """
        if faults := list(self._faults()):
            raise Faults(faults)
        case = Case(
            plate=self._plate(),
            body=Body(
                state=Measures.State(self.state).label,
                girths=_measured(self.levels, SINGLE_MM["girth"][self.is_sent_in]),
                lengths=_measured(self.lengths, SINGLE_MM["length"][self.is_sent_in]),
            ),
            ease_mm=_mm({one.line: one.ease for one in (*self.levels, *self.lengths)}),
            fit={one.line: Fit(one.fit) for one in self.levels},
            limits=maker.limits,
            purpose=Purpose(self.purpose),
            skills={**maker.skills, **{name: SkillLevel(level) for name, level in self.skills.items()}},
            hours=maker.hours,
            hours_a_day=maker.hours_a_day,
        )
        if faults := case.faults():
            raise Faults(faults)
        return case

    def doubts(self, system: System) -> tuple[Fault, ...]:
        """What to ask about the wearer's measures, by the keys of `levels.LINES`."""
        typed = {line.line: line.body for line in (*self.levels, *self.lengths) if line.body}
        return doubts_of_girths(
            {line: length.um / 1000 for line, length in typed.items()},
            system=system,
            metric={line for line, length in typed.items() if length.text.endswith(METRIC)},
        )

    def _plate(self) -> PlateReadings:
        return PlateReadings(
            scale=Scale.of(self._factor(), relative_doubt=RELATIVE_DOUBT[self.read_from]),
            pieces=tuple(piece.drawn() for piece in self.pieces),
            lengths={
                one.line: (PageReading(length_mm=one.reading.mm, crossed_ends=one.crossed_ends),)
                for one in self.lengths
                if one.reading
            },
            allowance_mm=self._allowance_mm(),
            rule_division_mm=self.rule.mm,
            overlap=FastenedWidth(at_mm=_mm({one.line: one.overlap for one in self.levels})),
            lacing_gap=FastenedWidth(at_mm=_mm({one.line: one.gap for one in self.levels})),
        )

    def _factor(self) -> Fraction:
        if isinstance(self.scale, str):
            return read_ratio(self.scale)
        page, real = self.scale
        return from_known(page.exact_mm, real.exact_mm)

    def _allowance_mm(self) -> float | None:
        if self.allowance == Plate.AllowanceKind.INCLUDED and self.allowance_size:
            return self.allowance_size.mm
        return None if self.allowance == Plate.AllowanceKind.UNKNOWN else 0.0

    def _faults(self) -> Iterator[Fault]:
        """What is no length that a rule gives."""
        given = {"rule_division": self.rule}
        for at, piece in enumerate(self.pieces):
            given |= {f"pieces[{at}].readings.{line}": length for line, length in piece.readings.items()}
            for line, length in piece.take_up.items():
                place = f"pieces[{at}].take_up.{line}"
                if line not in piece.readings:
                    yield Fault(place, "There is no reading at this level to take it up from.")
                elif length.um > piece.readings[line].um:
                    yield Fault(place, "This takes up more than the reading itself.")
        given |= {f"lengths.{one.line}.reading": one.reading for one in self.lengths}
        for part, lines in (("girths", self.levels), ("lengths", self.lengths)):
            given |= {f"measures.{part}.{one.line}": one.body for one in lines}
        for place, length in given.items():
            if length is not None and length.um <= 0:
                yield Fault(place, "This must be more than nothing.")


def _measured(lines: Iterable[QuickLine], doubt_mm: float) -> dict[str, BodyMeasure]:
    return {one.line: BodyMeasure(mm=one.body.mm, doubt_mm=doubt_mm) for one in lines if one.body}


def _mm(lengths: Mapping[str, TypedLength | None]) -> dict[str, float]:
    return {line: length.mm for line, length in lengths.items() if length is not None}
