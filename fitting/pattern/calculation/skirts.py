"""Skirts cut as parts of a circle or in gores: radii, gores with the curve they need, and their outlines.

A gore that is as long at its sides as in its middle is a piece of a ring: its top and hem are arcs about
the point where its sides would meet, and its arcs are exactly as long as the waist and hem they are cut
for. Seams and fastening are left to the allowance.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from catalogue.lengths.calculation.errors import Fault, Faults

Point = tuple[float, float]

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


def circle_skirt(*, waist_mm: float, length_mm: float, part: float = 1.0) -> RingPiece:
    """`part` of a circle: 1, 3/4, 1/2, 1/4. The radius is the waist ÷ the angle, not ÷ 4 as some teach.

    Raises Faults for a part of nothing, or a length or waist that is not more than nothing.
    """
    if min(waist_mm, length_mm, part) <= 0:
        raise Faults([Fault("part", "Waist, length and part of the circle are more than nothing.")])
    turn = 2 * math.pi * part
    return RingPiece(inner_mm=waist_mm / turn, outer_mm=waist_mm / turn + length_mm, turn=turn)


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
class Share:
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


def equal_shares(number: int) -> tuple[Share, ...]:
    """Gores all alike."""
    return (Share(name="gore", waist=1 / number, hip=1 / number, hem=1 / number, cut=number),)


def gores(
    shares: Sequence[Share],
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
    faults = [*_unshared(shares), *_narrowing(shares, waist_mm, hem_mm)]
    if min(waist_mm, hip_mm, length_mm) <= 0 or not 0 < hip_depth_mm < length_mm:
        faults.append(Fault("length", "Measures are more than nothing, and the hip lies above the hem."))
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


def _unshared(shares: Sequence[Share]) -> Iterator[Fault]:
    for name in ("waist", "hip", "hem"):
        total = sum(getattr(share, name) * share.cut for share in shares)
        if not math.isclose(total, 1, abs_tol=1e-6):
            yield Fault(name, f"The shares of the {name} come to {total:.3g} of it, and not to the whole.")


def _narrowing(shares: Sequence[Share], waist_mm: float, hem_mm: float) -> Iterator[Fault]:
    for share in shares:
        if share.hem * hem_mm <= share.waist * waist_mm:
            yield Fault(share.name, "This gore would narrow downwards: give it more hem, or less waist.")


def _ring(top_mm: float, hem_mm: float, length_mm: float) -> RingPiece:
    turn = (hem_mm - top_mm) / length_mm
    return RingPiece(inner_mm=top_mm / turn, outer_mm=top_mm / turn + length_mm, turn=turn)


def _arc(radius: float, start: float, end: float) -> list[Point]:
    """Counter-clockwise, the chords nowhere farther from the arc than `_CHORD_MM`."""
    step = 2 * math.acos(max(0.0, 1 - _CHORD_MM / radius)) if radius else math.pi
    count = max(1, math.ceil((end - start) / step))
    angles = (start + (end - start) * at / count for at in range(count + 1))
    return [(radius * math.cos(angle), radius * math.sin(angle)) for angle in angles]
