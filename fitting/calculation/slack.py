"""How much it could matter that measures are stale: the change of the body that would change a verdict."""

from dataclasses import dataclass

from catalogue.lengths.calculation.units import INCH_MM
from fitting.calculation.comparison import LineComparison

STEP_MM = INCH_MM / 8
FARTHEST_MM = 4 * INCH_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class Slack:
    """The least by which the body may have grown or shrunk for another verdict; None: not by 4 in either."""

    grown_mm: float | None
    shrunk_mm: float | None


def slack(line: LineComparison) -> Slack:
    """Found in steps of 1/8 in, the least that a tape shows."""
    return Slack(grown_mm=_first_change_mm(line, 1), shrunk_mm=_first_change_mm(line, -1))


def _first_change_mm(line: LineComparison, sign: int) -> float | None:
    steps = range(1, round(FARTHEST_MM / STEP_MM) + 1)
    changes = (step * STEP_MM for step in steps)
    return next(
        (mm for mm in changes if line.with_body(line.body_mm + sign * mm).verdict != line.verdict),
        None,
    )
