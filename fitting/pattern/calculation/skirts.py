"""Skirts cut as parts of a circle or in gores: radii, gores with the curve they need, and their outlines.

A gore that is as long at its sides as in its middle is a piece of a ring: its top and hem are arcs about
the point where its sides would meet, and its arcs are exactly as long as the waist and hem they are cut
for. Seams and fastening are left to the allowance.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.limits import check
from fitting.pattern.calculation.seam_match import MATCHES_MM

Point = tuple[float, float]

MOST_CIRCLES = 10  # joined to one another; a fuller skirt is pleated
_LEAST_FLARE = 1e-6  # a gore straighter than that is a rectangle
_CHORD_MM = 0.1  # arcs are drawn by chords this near to them


@dataclass(frozen=True, slots=True, kw_only=True)
class RingPiece:
    """Part of a ring: a circle skirt whole, or one gore. `turn` is its opening in radians."""

    inner_mm: float
    outer_mm: float
    turn: float

    @property
    def top_mm(self) -> float:
        """The upper arc: the share of the waist."""
        return self.turn * self.inner_mm

    @property
    def hem_mm(self) -> float:
        return self.turn * self.outer_mm

    @property
    def length_mm(self) -> float:
        return self.outer_mm - self.inner_mm

    @property
    def hem_curve_mm(self) -> float:
        """How far the middle of the hem lies below a straight line between its corners."""
        return self.outer_mm * (1 - math.cos(min(self.turn, 2 * math.pi) / 2))

    @property
    def top_curve_mm(self) -> float:
        """How far the middle of the top lies below a straight line between its corners."""
        return self.inner_mm * (1 - math.cos(min(self.turn, 2 * math.pi) / 2))

    def width_at_mm(self, below_top_mm: float) -> float:
        """The arc at a depth below the top."""
        return self.turn * (self.inner_mm + below_top_mm)

    def divided(self, pieces: int) -> "RingPiece":
        """One of several alike that are joined to this: a whole circle is cut in two at least."""
        return replace(self, turn=self.turn / pieces)

    def outline(self, *, straight_edge: bool = False) -> tuple[Point, ...]:
        """The edge, hem downwards, y along the grain; with a straight edge that edge lies on the grain."""
        middle = -math.pi / 2 + (self.turn / 2 if straight_edge else 0.0)
        top = _arc(self.inner_mm, middle - self.turn / 2, middle + self.turn / 2)
        hem = _arc(self.outer_mm, middle - self.turn / 2, middle + self.turn / 2)
        return (*hem, *reversed(top))


@dataclass(frozen=True, slots=True, kw_only=True)
class CircleSkirt:
    """A skirt by its seam line, and the allowance that its chalk line is drawn outside of it with."""

    seam_line: RingPiece
    allowance_mm: float

    @property
    def chalk_inner_mm(self) -> float:
        """The radius to chalk the waist with: an allowance nearer to the middle."""
        return self.seam_line.inner_mm - self.allowance_mm

    @property
    def chalk_outer_mm(self) -> float:
        return self.seam_line.outer_mm + self.allowance_mm


def circle_skirt(
    *,
    waist_mm: float,
    length_mm: float,
    part: float = 1.0,
    allowance_mm: float = 0.0,
    opening_mm: float = 0.0,
) -> CircleSkirt:
    """`part` of a circle: 1, 3/4, 1/2, 1/4. The radius is the waist ÷ the angle, not ÷ 4 as some teach.

    `opening_mm` laps over at the fastening, and is part of the arc. Raises Faults for a part of nothing or of
    more circles than are worn, a length that is none, or a waist too small for its allowance.
    """
    check(
        {"waist": waist_mm, "length": length_mm, "allowance": allowance_mm, "opening": opening_mm},
        may_be_nothing=["allowance", "opening"],
    )
    if not 0 < part <= MOST_CIRCLES:
        raise Faults([Fault("part", f"This is a part of a circle: above 0, and up to {MOST_CIRCLES}.")])
    turn = 2 * math.pi * part
    inner_mm = (waist_mm + opening_mm) / turn
    check({"part": inner_mm + length_mm})
    if inner_mm <= allowance_mm:
        raise Faults([Fault("allowance", "The waist is too small a circle for this allowance within it.")])
    ring = RingPiece(inner_mm=inner_mm, outer_mm=inner_mm + length_mm, turn=turn)
    return CircleSkirt(seam_line=ring, allowance_mm=allowance_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Gore:
    """One gore, and how its seams must swell to clear the hip: 0 where its flare is room enough."""

    name: str
    piece: RingPiece
    hip_mm: float
    hip_depth_mm: float
    straight_edge: bool = False

    @property
    def hip_room_mm(self) -> float:
        """What the straight gore measures at the hip less what is wanted there; negative is missing."""
        return self.piece.width_at_mm(self.hip_depth_mm) - self.hip_mm

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
            piece=_ring(share.waist * waist_mm, share.hem * hem_mm, share.length_mm or length_mm),
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
            yield Fault(name, f"The shares of the {name} come to {total:.3g} of it, and not to the whole.")


def _narrowing(
    shares: Sequence[GoreShare], waist_mm: float, hem_mm: float, length_mm: float
) -> Iterator[Fault]:
    for share in shares:
        top, hem = share.waist * waist_mm, share.hem * hem_mm
        if not 0 < top * (1 + _LEAST_FLARE) < hem:
            yield Fault(share.name, "This gore would narrow downwards: give it more hem, or less waist.")
        elif hem - top > 2 * math.pi * (share.length_mm or length_mm):
            yield Fault(share.name, "This gore would be more than a whole circle: cut it in more gores.")


def _ring(top_mm: float, hem_mm: float, length_mm: float) -> RingPiece:
    turn = (hem_mm - top_mm) / length_mm
    return RingPiece(inner_mm=top_mm / turn, outer_mm=top_mm / turn + length_mm, turn=turn)


def _arc(radius: float, start: float, end: float) -> list[Point]:
    """Counter-clockwise, the chords nowhere farther from the arc than `_CHORD_MM`."""
    step = 2 * math.acos(max(0.0, 1 - _CHORD_MM / radius)) if radius else math.pi
    count = max(1, math.ceil((end - start) / step))
    angles = (start + (end - start) * at / count for at in range(count + 1))
    return [(radius * math.cos(angle), radius * math.sin(angle)) for angle in angles]
