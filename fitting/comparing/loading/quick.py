"""A quick comparison as typed: the file that `assess` reads, and the case it makes. No row is touched."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from catalogue.lengths.calculation.errors import Fault
from catalogue.lengths.calculation.lengths import System
from catalogue.lengths.models import TypedLength
from catalogue.plates.calculation.scale import RELATIVE_DOUBT
from catalogue.plates.models.plate import Plate
from fitting.comparing.calculation.case import Case
from fitting.comparing.calculation.routes import SkillLevel
from fitting.comparing.exchange.case_file import FORMAT, VERSION, case_from_json
from fitting.comparing.loading.maker import MakerValues
from fitting.wearers.calculation.plausibility import METRIC, doubts_of_girths
from fitting.wearers.models import Measures

# Of girths and of lengths: of a trained hand; of what the wearer sent in.
DOUBT_TEXTS = {False: ("3/8 in", "1/4 in"), True: ("5/8 in", "3/8 in")}


@dataclass(frozen=True, slots=True, kw_only=True)
class QuickPiece:
    name: str
    cut: int
    on_fold: bool
    readings: Mapping[str, TypedLength]
    take_up: Mapping[str, TypedLength]


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

    def document(self) -> dict[str, Any]:
        """The file that `assess` reads: every length as it was typed."""
        doubt, length_doubt = DOUBT_TEXTS[self.is_sent_in]
        return {
            "format": FORMAT,
            "version": VERSION,
            "scale": self._scale() | {"relative_doubt": RELATIVE_DOUBT[self.read_from]},
            "seam_allowance": {"drawn": self._allowance()},
            "rule_division": self.rule.text,
            "pieces": [_piece(piece) for piece in self.pieces],
            "fastening": {
                "overlap": _texts({one.line: one.overlap for one in self.levels}),
                "lacing_gap": _texts({one.line: one.gap for one in self.levels}),
            },
            "lengths": {
                one.line: {"reading": one.reading.text, "crossed_ends": one.crossed_ends}
                for one in self.lengths
                if one.reading
            },
            "measures": {
                "state": Measures.State(self.state).label,
                "girths": _texts({one.line: one.body for one in self.levels}),
                "lengths": _texts({one.line: one.body for one in self.lengths}),
                "doubt": doubt,
                "length_doubt": length_doubt,
            },
            "ease": _texts({one.line: one.ease for one in (*self.levels, *self.lengths)}),
            "fit": {one.line: one.fit for one in self.levels},
            "purpose": self.purpose,
            "skills": dict(self.skills),
        }

    def doubts(self, system: System) -> tuple[Fault, ...]:
        """What to ask about the wearer's measures, by the keys of `levels.LINES`."""
        typed = {line.line: line.body for line in (*self.levels, *self.lengths) if line.body}
        return doubts_of_girths(
            {line: length.um / 1000 for line, length in typed.items()},
            system=system,
            metric={line for line, length in typed.items() if length.text.endswith(METRIC)},
        )

    def _scale(self) -> dict[str, str]:
        if isinstance(self.scale, str):
            return {"ratio": self.scale}
        page, real = self.scale
        return {"page": page.text, "real": real.text}

    def _allowance(self) -> str:
        if self.allowance == Plate.AllowanceKind.INCLUDED and self.allowance_size:
            return self.allowance_size.text
        return "not known" if self.allowance == Plate.AllowanceKind.UNKNOWN else "none"


def quick_case(values: QuickValues, maker: MakerValues) -> Case:
    """Judged by the maker's own limits, skills and hours. Raises Faults, by path in the file.

    A skill that is said on the sheet counts before one that was stated.
    """
    case = case_from_json(values.document()).case
    said = {name: skill for name, skill in case.skills.items() if skill is not SkillLevel.NOT_ASKED}
    return replace(
        case,
        limits=maker.limits,
        skills={**maker.skills, **said},
        hours=maker.hours,
        hours_a_day=maker.hours_a_day,
    )


def _piece(piece: QuickPiece) -> dict[str, Any]:
    return {
        "name": piece.name,
        "cut": piece.cut,
        "on_fold": piece.on_fold,
        "readings": _texts(piece.readings),
        "take_up": _texts(piece.take_up),
    }


def _texts(lengths: Mapping[str, TypedLength | None]) -> dict[str, str]:
    return {line: length.text for line, length in lengths.items() if length is not None}
