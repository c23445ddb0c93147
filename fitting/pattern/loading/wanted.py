"""What is wanted of a garment at each of its lines, as a comparison made now would have it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from catalogue.workroom.models import User
from fitting.comparing.loading.case import outfit_rows
from fitting.comparing.loading.readiness import CannotCompare, Hindrance, ready_case
from fitting.comparing.showing.standing import last_to_compare
from fitting.outfits.calculation.garment import Fit
from fitting.outfits.models.garment import Garment


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedLine:
    """The body over what is worn beneath, with its ease; `doubt_mm` is that of the measure."""

    body_mm: float
    ease_mm: float
    doubt_mm: float
    fit: Fit

    @property
    def mm(self) -> float:
        return self.body_mm + self.ease_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """`lines` by their word; `missing`: why there are none. `fits_mm`: what a girth may be off and fit."""

    lines: Mapping[str, WantedLine]
    fits_mm: float = 0.0
    length_fits_mm: float = 0.0
    missing: tuple[Hindrance, ...] = ()


def wanted_of(garment: Garment, *, by: User, at: datetime) -> Wanted:
    rows = outfit_rows(garment.outfit, by=last_to_compare(garment.outfit) or by, at=at)
    try:
        case = ready_case(rows.garment(garment.pk), rows).case
    except CannotCompare as fault:
        return Wanted(lines={}, missing=fault.missing)
    lines = {
        line: WantedLine(
            body_mm=measure.mm,
            ease_mm=case.ease_at_mm(line),
            doubt_mm=measure.doubt_mm,
            fit=case.fit_at(line),
        )
        for line, measure in {**case.body.girths, **case.body.lengths}.items()
        if case.fit_at(line) is not Fit.NOT_THERE
    }
    limits = case.limits
    return Wanted(lines=lines, fits_mm=limits.fits_mm, length_fits_mm=limits.length_fits_mm)
