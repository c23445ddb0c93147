"""The alteration plan: each level's difference, shared over the edges that may take it, fair along the seams.

The seam that comes first takes all it can, then the next: side, then side back, unless the maker names
others or shares by hand. What no edge should take is not lost: it is spread over them all and flagged, so
that the plan always comes to the difference.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.units import INCH_MM
from fitting.comparing.calculation.verdict import SURE_ENOUGH
from fitting.pattern.calculation.fair_curve import FairCurve, fair_curve

# From here on a change of length is made half at the line and half at the hem, so that the flare is kept:
# Butterick, The New Dressmaker, 1921, pp. 22-23.
HALVED_FROM_MM = 4 * INCH_MM
_SLIP_MM, _SHARES_SLIP = 1e-9, 1e-6
_FITS = 2  # of the five regions, from too small to too large, the one in the middle


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

    def edges_at(self, level: "LevelChange") -> int:
        """Those that share the change: at a level of an arm or a leg, those of one limb."""
        return self.edges // level.limbs if self.times % level.limbs == 0 else self.edges


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelChange:
    """A level that is to be larger (above 0) or smaller, `height_mm` below the top of the seams.

    `limbs`: 2 where the change is made on each of two arms or legs. `seams`: the names of those that may take
    it; None for all.
    """

    level: str
    height_mm: float
    change_mm: float
    limbs: int = 1
    seams: Collection[str] | None = None

    def sharing(self, seams: Sequence[AlterableSeam]) -> list[AlterableSeam]:
        return [seam for seam in seams if self.seams is None or seam.name in self.seams]


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

    def edges_at(self, level: str) -> int:
        """Those that share what may have to be let out there: those that are changed, or all that may be."""
        here = self.at_level(level)
        return sum(one.edges for one in here if one.each_mm) or sum(one.edges for one in here)

    def between_mm(self, level: LevelChange) -> float:
        """What the seams that go round a level change there in all, running on between two others."""
        edges = {one.seam: one.edges for one in self.changes if level.seams and one.seam in level.seams}
        return sum(
            number * self.along[seam].at(level.height_mm)
            for seam, number in edges.items()
            if self.along[seam].places[0] < level.height_mm < self.along[seam].places[-1]
        )

    @property
    def flagged(self) -> tuple[EdgeChange, ...]:
        return tuple(change for change in self.changes if change.is_above_limit)


def wants_altering(chances: Sequence[float]) -> bool:
    """Whether a level is altered: not where it fits, nor where nobody can tell which way.

    `chances`, from too small to too large: too small, add, fits, take off, too large. Where it is sure that
    the level wants more, or less, how much does not matter. Where it is only sure that it lies within
    altering, the likeliest of the three in the middle counts.
    """
    if max(sum(chances[:_FITS]), sum(chances[_FITS + 1 :])) >= SURE_ENOUGH:
        return True
    within = chances[_FITS - 1 : _FITS + 2]
    return sum(within) >= SURE_ENOUGH and max(within) > chances[_FITS]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateDifference:
    """How far a level or length of the plate is off what is wanted: garment − wanted, with its doubt.

    `chances`, from too small to too large, `verdict` as the comparison gave them.
    """

    difference_mm: float
    u_mm: float
    chances: tuple[float, ...]
    verdict: str

    @property
    def wants_altering(self) -> bool:
        return wants_altering(self.chances)


def alteration_plan(levels: Sequence[LevelChange], seams: Sequence[AlterableSeam]) -> AlterationPlan:
    """Share every level's change over the seams that may take it, in their order or by their shares.

    Raises Faults where a seam has no edge, a level no seam, a height comes twice on one seam, or the shares
    by hand are not the whole.
    """
    if faults := list(_faults(levels, seams)):
        raise Faults(faults)
    changes = tuple(
        EdgeChange(
            seam=seam.name,
            pieces=seam.pieces,
            edges=seam.edges_at(level),
            level=level.level,
            height_mm=level.height_mm,
            each_mm=total_mm / seam.edges_at(level),
            most_each_mm=seam.most_each_mm,
        )
        for level in levels
        for seam, total_mm in _shared(level, level.sharing(seams))
    )
    by_seam = groupby(sorted(changes, key=lambda one: one.seam), key=lambda one: one.seam)
    curves = {name: fair_curve((one.height_mm, one.each_mm) for one in found) for name, found in by_seam}
    along = {seam.name: curves[seam.name] for seam in seams if seam.name in curves}
    return AlterationPlan(changes=changes, along=along)


def _faults(levels: Sequence[LevelChange], seams: Sequence[AlterableSeam]) -> Iterator[Fault]:
    if not seams:
        yield Fault("seams", "Name at least one seam that may be altered.")
        return
    if len({seam.name for seam in seams}) < len(seams):
        yield Fault("seams", "Two seams have one name.")
    yield from (Fault(seam.name, "This seam has no edge to alter.") for seam in seams if not seam.edges)
    for level in levels:
        sharing = level.sharing(seams)
        if not sharing:
            yield Fault(level.level, "No seam here goes round this level: name one that does.")
        by_hand = [seam.share for seam in sharing if seam.share is not None]
        if by_hand and (len(by_hand) < len(sharing) or abs(sum(by_hand) - 1) > _SHARES_SLIP):
            yield Fault("seams", "Shares by hand are given for every seam and come to the whole.")
            break
    for seam in seams:
        heights = [level.height_mm for level in levels if seam in level.sharing(seams)]
        if len(set(heights)) < len(heights):
            yield Fault("levels", "Two levels lie at the same height.")
            break


def _shared(level: LevelChange, seams: Sequence[AlterableSeam]) -> Iterator[tuple[AlterableSeam, float]]:
    """Each seam with what it takes in all its edges there; comes to the change."""
    if seams[0].share is not None:
        yield from ((seam, level.change_mm * (seam.share or 0.0)) for seam in seams)
        return
    sign, left_mm, taken = (1 if level.change_mm >= 0 else -1), abs(level.change_mm), []
    for seam in seams:
        taken.append(min(left_mm, seam.edges_at(level) * seam.most_each_mm))
        left_mm -= taken[-1]
    edges = sum(seam.edges_at(level) for seam in seams)
    for mm, seam in zip(taken, seams, strict=True):
        yield seam, sign * (mm + left_mm * seam.edges_at(level) / edges)


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
