"""The alteration plan: each level's difference, shared over the edges that may take it, fair along the seams.

The seam that comes first takes all it can, then the next: side, then side back, unless the maker names
others or shares by hand. What no edge should take is not lost: it is spread over them all and flagged, so
that the plan always comes to the difference.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.units import INCH_MM
from fitting.pattern.calculation.fair_curve import FairCurve, fair_curve

# From here on a change of length is made half at the line and half at the hem, so that the flare is kept:
# Butterick, The New Dressmaker, 1921, pp. 22-23.
HALVED_FROM_MM = 4 * INCH_MM
_SLIP_MM = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class AlterableSeam:
    """A seam that may be altered: the pieces whose edges meet in it, and how often it comes round the body.

    `most_each_mm` is the most that one edge should take; `share`, by hand, its part of every difference.
    """

    name: str
    pieces: tuple[str, ...]
    times: int = 2
    most_each_mm: float = INCH_MM / 2
    share: float | None = None

    @property
    def edges(self) -> int:
        return len(self.pieces) * self.times


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelChange:
    """A level that is to be larger (above 0) or smaller, `height_mm` below the top of the seams."""

    level: str
    height_mm: float
    change_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeChange:
    """What one edge of a seam gets at a level: added, or taken off below 0."""

    seam: str
    pieces: tuple[str, ...]
    edges: int
    level: str
    height_mm: float
    each_mm: float
    most_each_mm: float

    @property
    def is_above_limit(self) -> bool:
        return abs(self.each_mm) > self.most_each_mm + _SLIP_MM

    @property
    def total_mm(self) -> float:
        return self.each_mm * self.edges


@dataclass(frozen=True, slots=True, kw_only=True)
class AlterationPlan:
    """Every change by level and seam; `along` is the new edge of each seam, fair between the levels."""

    changes: tuple[EdgeChange, ...]
    along: Mapping[str, FairCurve]

    def at_level(self, level: str) -> tuple[EdgeChange, ...]:
        return tuple(change for change in self.changes if change.level == level)

    @property
    def flagged(self) -> tuple[EdgeChange, ...]:
        return tuple(change for change in self.changes if change.is_above_limit)


def alteration_plan(levels: Sequence[LevelChange], seams: Sequence[AlterableSeam]) -> AlterationPlan:
    """Share every level's change over the seams, in their order or by their shares.

    Raises Faults where no seam has an edge, a height comes twice, or the shares by hand are not the whole.
    """
    faults = [Fault(seam.name, "This seam has no edge to alter.") for seam in seams if not seam.edges]
    if not seams:
        faults.append(Fault("seams", "Name at least one seam that may be altered."))
    if len({level.height_mm for level in levels}) < len(levels):
        faults.append(Fault("levels", "Two levels lie at the same height."))
    by_hand = [seam.share for seam in seams if seam.share is not None]
    if by_hand and (len(by_hand) < len(seams) or abs(sum(by_hand) - 1) > 1e-6):
        faults.append(Fault("seams", "Shares by hand are given for every seam and come to the whole."))
    if faults:
        raise Faults(faults)
    changes = tuple(
        EdgeChange(
            seam=seam.name,
            pieces=seam.pieces,
            edges=seam.edges,
            level=level.level,
            height_mm=level.height_mm,
            each_mm=total_mm / seam.edges,
            most_each_mm=seam.most_each_mm,
        )
        for level in levels
        for seam, total_mm in zip(seams, _shared(level.change_mm, seams), strict=True)
    )
    along = {
        seam.name: fair_curve((one.height_mm, one.each_mm) for one in changes if one.seam == seam.name)
        for seam in (seams if levels else ())
    }
    return AlterationPlan(changes=changes, along=along)


def _shared(change_mm: float, seams: Sequence[AlterableSeam]) -> list[float]:
    """What each seam takes in all its edges; comes to the change."""
    if seams[0].share is not None:
        return [change_mm * (seam.share or 0.0) for seam in seams]
    sign, left_mm, taken = (1 if change_mm >= 0 else -1), abs(change_mm), []
    for seam in seams:
        taken.append(min(left_mm, seam.edges * seam.most_each_mm))
        left_mm -= taken[-1]
    edges = sum(seam.edges for seam in seams)
    return [sign * (mm + left_mm * seam.edges / edges) for mm, seam in zip(taken, seams, strict=True)]


def inlay_to_cut_mm(*, usual_mm: float, difference_mm: float, expanded_doubt_mm: float, edges: int) -> float:
    """The allowance to cut an edge with: the usual one, and what may have to be let out, shared by the edges.

    Garment minus wanted below 0 is missing; the doubt is the expanded one, twice the standard uncertainty.
    """
    return usual_mm + (max(0.0, -difference_mm) + expanded_doubt_mm) / edges


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthChange:
    """A change of length: so much at the line across the piece, so much at the hem.

    `fold_mm` is the depth of the fold that takes a shortening at the line: half of it, since it lies double.
    """

    at_line_mm: float
    at_hem_mm: float

    @property
    def fold_mm(self) -> float:
        return max(0.0, -self.at_line_mm) / 2


def length_change(change_mm: float) -> LengthChange:
    """Where to lengthen (above 0) or shorten: at the line; from 4 in on, half of it at the hem."""
    at_hem_mm = change_mm / 2 if abs(change_mm) >= HALVED_FROM_MM - _SLIP_MM else 0.0
    return LengthChange(at_line_mm=change_mm - at_hem_mm, at_hem_mm=at_hem_mm)
