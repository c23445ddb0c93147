"""A plain enlargement as pages show it: what it does at every line, and at which others it could fit.

Without being asked it is the one of the assessment, so that page, dossier and command speak of the same.
"""

from dataclasses import dataclass

from catalogue.lengths.calculation.levels import LINES
from fitting.comparing.calculation.case import Case
from fitting.comparing.calculation.comparison import ComparedLines
from fitting.comparing.calculation.enlargement import EnlargedMeasure, plain_enlargement
from fitting.comparing.exchange.answer import AssessmentAnswer
from fitting.outfits.calculation.garment import Fit


@dataclass(frozen=True, slots=True, kw_only=True)
class EnlargedLine:
    """`is_spare`: a loose level that is larger than wanted, where more is no fault."""

    label: str
    garment_mm: float
    difference_mm: float | None
    is_spare: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class EnlargementReport:
    """`spare` names the level made to fit where the garment as drawn is loose and large enough there already.

    `choices` are the levels that it can be made to fit, by key and label: none that has enough already.
    """

    factor: float
    made_to_fit: str
    lines: tuple[EnlargedLine, ...]
    spare: str
    choices: tuple[tuple[str, str], ...]

    @property
    def label(self) -> str:
        return LINES[self.made_to_fit].label

    @property
    def others(self) -> tuple[EnlargedLine, ...]:
        """Every line but the one made to fit."""
        return tuple(line for line in self.lines if line.label != self.label)


def enlargement_shown(
    answer: AssessmentAnswer, comparison: ComparedLines | None, case: Case, made_to_fit: str = ""
) -> EnlargementReport | None:
    """`answer` as it was kept. Where older rules made it, `comparison` is None: then there is no choice."""
    choices = tuple(_choices(comparison)) if comparison else ()
    is_asked = comparison is not None and made_to_fit in choices
    plain = plain_enlargement(comparison, made_to_fit) if is_asked else answer.plain_enlargement
    if plain is None:
        return None
    found, fitted = {**plain.levels, **plain.lengths}, plain.made_to_fit
    is_spare = _is_spare(case, fitted, answer.levels[fitted].difference_mm)
    return EnlargementReport(
        factor=plain.factor,
        made_to_fit=fitted,
        lines=tuple(_line(name, found[name], case) for name in LINES if name in found),
        spare=LINES[fitted].label if is_spare else "",
        choices=tuple((level, LINES[level].label) for level in choices),
    )


def _choices(comparison: ComparedLines) -> list[str]:
    return [
        line.line
        for line in comparison.levels
        if line.chances is not None
        and not (line.fit is Fit.LOOSE and line.difference_mm >= 0)
        and plain_enlargement(comparison, line.line) is not None
    ]


def _line(name: str, enlarged: EnlargedMeasure, case: Case) -> EnlargedLine:
    return EnlargedLine(
        label=LINES[name].label,
        garment_mm=enlarged.garment_mm,
        difference_mm=enlarged.difference_mm,
        is_spare=_is_spare(case, name, enlarged.difference_mm),
    )


def _is_spare(case: Case, name: str, difference_mm: float | None) -> bool:
    # What is made to fit differs by the last binary digit only: that is not more.
    return case.fit_at(name) is Fit.LOOSE and difference_mm is not None and difference_mm > 1e-6
