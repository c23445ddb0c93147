"""The gores of a skirt from what each takes of waist, hip and hem. Seams are left to the allowance."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.fair_curve import fair_curve
from fitting.pattern.calculation.limits import check
from fitting.pattern.calculation.seam_match import MATCHES_MM
from fitting.pattern.calculation.sums.ring import RingPiece, ring_between
from fitting.pattern.calculation.sums.sheet_answer import Point

LEAST_SWELL_MM = 1.0  # less is within the width of a chalk line
_LEAST_FLARE = 1e-6  # a gore straighter than that is a rectangle


@dataclass(frozen=True, slots=True, kw_only=True)
class Gore:
    """One gore, and how its seams must swell to clear the hip: 0 where its flare is room enough."""

    name: str
    piece: RingPiece
    hip_mm: float
    hip_depth_mm: float
    straight_edge: bool = False

    @property
    def width_at_hip_mm(self) -> float:
        return self.piece.width_at_mm(self.hip_depth_mm)

    @property
    def hip_room_mm(self) -> float:
        """What the straight gore measures at the hip less what is wanted there; negative is missing."""
        return self.width_at_hip_mm - self.hip_mm

    @property
    def swell_each_mm(self) -> float:
        """How far each seam edge that may take it swells out at the hip; a straight edge takes none."""
        return max(0.0, -self.hip_room_mm) / (1 if self.straight_edge else 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class GoreShare:
    """What one gore takes of waist, hip and hem, as parts of the whole; cut as often as said.

    `length_mm` is its own where the skirt is not equally long all round, longer before or behind.
    """

    name: str
    waist: float
    hip: float
    hem: float
    cut: int = 1
    straight_edge: bool = False
    length_mm: float | None = None


def equal_shares(number: int) -> tuple[GoreShare, ...]:
    """Gores all alike."""
    return (GoreShare(name="gore", waist=1 / number, hip=1 / number, hem=1 / number, cut=number),)


def gores(
    shares: Sequence[GoreShare],
    *,
    waist_mm: float,
    hip_mm: float,
    hem_mm: float,
    length_mm: float,
    hip_depth_mm: float = 7 * 25.4,
) -> tuple[Gore, ...]:
    """The gores of a skirt, one for each share.

    Raises Faults where the shares are not the whole, or where a gore would narrow towards the hem.
    """
    girths = {"waist": waist_mm, "hip": hip_mm, "hem": hem_mm}
    lengths = {"length": length_mm, "hip_depth": hip_depth_mm}
    check(girths | lengths | {share.name: share.length_mm for share in shares})
    faults = [*_unshared(shares), *_narrowing(shares, waist_mm, hem_mm, length_mm)]
    if hip_depth_mm >= length_mm:
        faults.append(Fault("length", "The hip lies above the hem: this must be longer."))
    faults += (
        Fault(share.name, "This gore is shorter than the hip is deep: it would end above the hip.")
        for share in shares
        if share.length_mm is not None and share.length_mm <= hip_depth_mm
    )
    if faults:
        raise Faults(faults)
    return tuple(
        Gore(
            name=share.name,
            piece=ring_between(share.waist * waist_mm, share.hem * hem_mm, share.length_mm or length_mm),
            hip_mm=share.hip * hip_mm,
            hip_depth_mm=hip_depth_mm,
            straight_edge=share.straight_edge,
        )
        for share in shares
    )


def uneven_seams(made: Sequence[Gore]) -> Iterator[tuple[Gore, Gore]]:
    """Neighbours, in the order given, whose seam is of two lengths by more than a chalk line."""
    for one, other in pairwise(made):
        if abs(one.piece.length_mm - other.piece.length_mm) > MATCHES_MM:
            yield one, other


def _unshared(shares: Sequence[GoreShare]) -> Iterator[Fault]:
    for name in ("waist", "hip", "hem"):
        total = sum(getattr(share, name) * share.cut for share in shares)
        if not math.isclose(total, 1, abs_tol=1e-6):
            yield Fault(
                f"shares[0].{name}",
                f"The shares of the {name} come to {total:.3g} of it, and not to the whole.",
            )


def _narrowing(
    shares: Sequence[GoreShare], waist_mm: float, hem_mm: float, length_mm: float
) -> Iterator[Fault]:
    for share in shares:
        top, hem = share.waist * waist_mm, share.hem * hem_mm
        if not 0 < top * (1 + _LEAST_FLARE) < hem:
            yield Fault(share.name, "This gore would narrow downwards: give it more hem, or less waist.")
        elif hem - top > 2 * math.pi * (share.length_mm or length_mm):
            yield Fault(share.name, "This gore would be more than a whole circle: cut it in more gores.")


def swollen_edges(gore: Gore) -> Iterator[list[Point]]:
    """Each edge that must swell, as it leaves the straight one above the hip and comes back to it below."""
    if gore.swell_each_mm <= LEAST_SWELL_MM:
        return
    piece, deep = gore.piece, gore.hip_depth_mm
    swell = fair_curve([(0.0, 0.0), (deep, gore.swell_each_mm), (min(2 * deep, piece.length_mm), 0.0)])
    first = -math.pi / 2 if gore.straight_edge else -math.pi / 2 - piece.turn / 2
    for angle, out in ((first, -1), (first + piece.turn, 1)):
        if gore.straight_edge and out < 0:
            continue
        along, across = (math.cos(angle), math.sin(angle)), (-math.sin(angle), math.cos(angle))
        depths = [swell.places[-1] * step / 24 for step in range(25)]
        yield [
            (
                along[0] * (piece.inner_mm + depth) + out * across[0] * swell.at(depth),
                along[1] * (piece.inner_mm + depth) + out * across[1] * swell.at(depth),
            )
            for depth in depths
        ]
