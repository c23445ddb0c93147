"""How far a garment may be from what is wanted before it no longer fits, or can no longer be altered to fit.

The defaults are common practice, no source; a maker sets their own.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """It fits within ±`fits_mm`, and can be altered when short by `add_mm` or over by `take_off_mm`."""

    fits_mm: float
    add_mm: float
    take_off_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """A maker's limits for girths and for lengths. `per_edge_mm` counts when the edges are known.

    To grade a level by more than `grade_far_mm` counts against it; more than `grade_too_far_mm` is too much.
    """

    fits_mm: float = 12.7  # 1/2 in
    add_mm: float = 76.2  # 3 in
    take_off_mm: float = 76.2
    per_edge_mm: float = 12.7
    edges_that_may_take: int | None = None
    length_fits_mm: float = 9.525  # 3/8 in
    length_alter_mm: float = 38.1  # 1 1/2 in
    grade_far_mm: float = 101.6  # 4 in
    grade_too_far_mm: float = 152.4  # 6 in

    def of_girths(self) -> Bounds:
        add_mm = self.add_mm
        if self.edges_that_may_take is not None:
            add_mm = min(add_mm, self.edges_that_may_take * self.per_edge_mm)
        return Bounds(fits_mm=self.fits_mm, add_mm=add_mm, take_off_mm=self.take_off_mm)

    def of_lengths(self) -> Bounds:
        return Bounds(
            fits_mm=self.length_fits_mm, add_mm=self.length_alter_mm, take_off_mm=self.length_alter_mm
        )

    def faults(self) -> tuple[Fault, ...]:
        """Limits that leave no room between fitting and no longer alterable."""
        return tuple(self._faults())

    def _faults(self) -> Iterator[Fault]:
        girths = self.of_girths()
        if self.fits_mm >= self.add_mm:
            yield Fault("fits", "What counts as fitting must be less than what can be added.")
        elif self.fits_mm >= girths.add_mm:
            edges = f"{self.edges_that_may_take} × per_edge"
            yield Fault(
                "fits", f"What counts as fitting must be less than what the edges can take ({edges})."
            )
        if self.fits_mm >= self.take_off_mm:
            yield Fault("fits", "What counts as fitting must be less than what can be taken off.")
        if self.grade_far_mm >= self.grade_too_far_mm:
            yield Fault("grade_far", "What is far to grade must be less than what is too far.")
        if self.length_fits_mm >= self.length_alter_mm:
            yield Fault(
                "length_fits", "What counts as fitting must be less than what a length can be altered."
            )
