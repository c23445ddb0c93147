"""What one plate comes to at full size: each girth and length that was read off it, with its running half."""

from dataclasses import dataclass
from itertools import accumulate

from catalogue.lengths.calculation.levels import LINES
from catalogue.plates.calculation.girth import FullSize, Reckoning
from catalogue.plates.calculation.readings import PlateReadings

# Shown beside the result without, while the allowance is not known. Common practice, no source.
LIKELY_ALLOWANCE_MM = 12.7


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One line of a plate. `if_included`, while the allowance is not known: the same with 1/2 in drawn."""

    full_size: FullSize
    if_included: FullSize | None

    @property
    def line(self) -> str:
        return self.full_size.line

    @property
    def halves_on_page_mm(self) -> tuple[float, ...]:
        """Half round the garment on the page, up to and with each piece: to check with the rule in hand.

        At 1:8 a half of 1 1/2 in at the waist is a waist of 24 in, where no allowance is drawn.
        """
        return tuple(accumulate(term.times * term.reading.net_mm / 2 for term in self.full_size.terms))


@dataclass(frozen=True, slots=True, kw_only=True)
class Findings:
    girths: tuple[Finding, ...]
    lengths: tuple[Finding, ...]

    @property
    def by_line(self) -> dict[str, Finding]:
        return {finding.line: finding for finding in (*self.girths, *self.lengths)}


def findings(plate: PlateReadings) -> Findings:
    """Reckon every line that was read, from the top of the body down."""
    plain = Reckoning.of(plate)
    included = Reckoning.of(plate, allowance_mm=LIKELY_ALLOWANCE_MM) if plate.allowance_mm is None else None
    return Findings(
        girths=tuple(
            Finding(full_size=plain.girth(level), if_included=included.girth(level) if included else None)
            for level in filter(plate.levels.__contains__, LINES)
        ),
        lengths=tuple(
            Finding(full_size=plain.length(line), if_included=included.length(line) if included else None)
            for line in filter(plate.lengths.__contains__, LINES)
        ),
    )
