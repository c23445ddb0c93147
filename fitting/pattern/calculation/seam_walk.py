"""Seams walked on traced pieces: the edges of each side in the order in which they are sewn, and notches.

Which end of an edge meets which end of the other follows from what lies before and after them: a side seam
runs from the armhole to the hem on both of its pieces. Several edges sewn to one, as those round an armhole,
are put in order by the seams between them. Lengths are millimetres.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from shapely import LineString
from shapely import Point as Place

from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.outline import FLAT_TO, Edge
from catalogue.tracing.calculation.tracing import TracedShape
from fitting.pattern.calculation.grading.values import GradingJoin
from fitting.pattern.calculation.seam_match import SeamJoin, SeamMatch, Stretch

Key = tuple[str, str]  # a piece, an edge of it
Sewn = frozenset[frozenset[Key]]


@dataclass(frozen=True, slots=True, kw_only=True)
class TracedEdge:
    """An edge as it is walked, with the edges that come before and after it round its piece."""

    piece: str
    name: str
    before: str
    after: str
    line: tuple[Point, ...]
    length_mm: float
    notches_mm: tuple[float, ...] = ()
    notches: tuple[int, ...] = ()  # which of its piece's marks each of them is

    @property
    def turned(self) -> "TracedEdge":
        return replace(
            self,
            before=self.after,
            after=self.before,
            line=self.line[::-1],
            notches_mm=tuple(self.length_mm - at for at in reversed(self.notches_mm)),
            notches=self.notches[::-1],
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamSide:
    """One side of a seam. `is_in_order` is False where nothing says how its edges follow each other."""

    edges: tuple[TracedEdge, ...]
    is_in_order: bool = True
    is_ring: bool = False

    @property
    def length_mm(self) -> float:
        return sum(edge.length_mm for edge in self.edges)

    @property
    def notches_mm(self) -> tuple[float, ...]:
        """Along the side from its start."""
        starts = accumulate((edge.length_mm for edge in self.edges), initial=0.0)
        return tuple(
            start + at for start, edge in zip(starts, self.edges, strict=False) for at in edge.notches_mm
        )

    @property
    def notches(self) -> tuple[tuple[str, int], ...]:
        """Each with its piece and its place among that piece's marks, in the same order."""
        return tuple((edge.piece, mark) for edge in self.edges for mark in edge.notches)

    @property
    def ends(self) -> tuple[str, str]:
        """The edges between which it runs."""
        return self.edges[0].before, self.edges[-1].after

    @property
    def turned(self) -> "SeamSide":
        return replace(self, edges=tuple(edge.turned for edge in reversed(self.edges)))

    def starting_at(self, index: int) -> "SeamSide":
        """A ring cut open elsewhere."""
        return replace(self, edges=self.edges[index:] + self.edges[:index])


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamTolerance:
    """How much longer the first side may be: by an ease, or by the ratio of gathers."""

    ease_mm: float = 0.0
    ratio: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WalkedSeam:
    """Both sides from one `start`, stretch by stretch between notches; `note`: what kept it from that."""

    join: GradingJoin
    one: SeamSide
    other: SeamSide
    seam: SeamMatch
    start: str
    note: str = ""


def traced_edges(shapes: Iterable[TracedShape]) -> dict[Key, list[TracedEdge]]:
    """Every named edge, as drawn. Each notch goes to the edge that it lies nearest to."""
    found: dict[Key, list[TracedEdge]] = {}
    for shape in shapes:
        edges = shape.outline.edges()
        lines = [_line(edge) for edge in edges]
        strings = [LineString([(at.real, at.imag) for at in line]) for line in lines]
        notches: list[list[tuple[float, int]]] = [[] for _ in edges]
        for number, mark in enumerate(shape.marks):
            if mark.kind == "notch":
                place = Place(mark.points[0].real, mark.points[0].imag)
                nearest = min(range(len(edges)), key=lambda at: strings[at].distance(place))
                along = strings[nearest].project(place, normalized=True)
                notches[nearest].append((along * edges[nearest].length, number))
        for at, edge in enumerate(edges):
            traced = TracedEdge(
                piece=shape.name,
                name=edge.name,
                before=edges[at - 1].name,
                after=edges[(at + 1) % len(edges)].name,
                line=lines[at],
                length_mm=edge.length,
                notches_mm=tuple(place for place, _ in sorted(notches[at])),
                notches=tuple(number for _, number in sorted(notches[at])),
            )
            found.setdefault((shape.name, edge.name), []).append(traced)
    return found


def _line(edge: Edge) -> tuple[Point, ...]:
    steps = max(16, int((edge.length / FLAT_TO) ** 0.5 / 4))
    return (edge.sides[0].start, *(point for side in edge.sides for point in side.flattened(steps)))


def sewn_pairs(joins: Iterable[GradingJoin]) -> Sewn:
    """The seams that join one edge to one."""
    return frozenset(
        frozenset((join.one[0], join.other[0])) for join in joins if len(join.one) == len(join.other) == 1
    )


def side_of(run: Sequence[Key], edges: Mapping[Key, Sequence[TracedEdge]], sewn: Sewn) -> SeamSide:
    """The edges of a run, one after the other."""
    left = [edge for key in run for edge in edges[key]]
    chain = [left.pop(0)]
    while left:
        if following := _taken(chain[-1], left, sewn):
            chain.append(following)
        elif before := _taken(chain[0].turned, left, sewn):
            chain.insert(0, before.turned)
        else:
            return SeamSide(edges=(*chain, *left), is_in_order=False)
    end, start = (chain[-1].piece, chain[-1].after), (chain[0].piece, chain[0].before)
    return SeamSide(edges=tuple(chain), is_ring=len(chain) > 1 and _meet(end, start, sewn))


def _taken(edge: TracedEdge, left: list[TracedEdge], sewn: Sewn) -> TracedEdge | None:
    """Out of those left the one that goes on where an edge ends, turned as it is then walked."""
    end = (edge.piece, edge.after)
    for at, other in enumerate(left):
        if end == (other.piece, other.name) or _meet(end, (other.piece, other.before), sewn):
            return left.pop(at)
        if _meet(end, (other.piece, other.after), sewn):
            return left.pop(at).turned
    return None


def _meet(one: Key, other: Key, sewn: Sewn) -> bool:
    return frozenset((one, other)) in sewn


def aligned(one: SeamSide, other: SeamSide) -> SeamSide:
    """The other side, walked from where the first one starts."""
    (start, end), (other_start, other_end) = one.ends, other.ends
    same = (start == other_start) + (end == other_end)
    crossed = (start == other_end) + (end == other_start)
    if same != crossed:
        return other if same > crossed else other.turned
    if _is_upright(one) and _is_upright(other):
        return other if _way(one).imag * _way(other).imag > 0 else other.turned
    # Round pieces drawn the same way up, edges that are sewn together run against each other.
    return other.turned


def named(join: GradingJoin) -> str:
    """Both sides of a seam; a run of edges by its first."""
    sides = (
        f"{run[0][0]}, {run[0][1]}" + (f" and {len(run) - 1} more" if len(run) > 1 else "")
        for run in (join.one, join.other)
    )
    return " – ".join(sides)


def _way(side: SeamSide) -> Point:
    return side.edges[-1].line[-1] - side.edges[0].line[0]


def _is_upright(side: SeamSide) -> bool:
    return abs(_way(side).imag) > abs(_way(side).real)


def walk_seam(join: GradingJoin, one: SeamSide, other: SeamSide, allowed: SeamTolerance) -> WalkedSeam:
    """A seam from its upper end to the other, between notches where both sides have as many."""
    one = one.turned if _way(one).imag < 0 and _is_upright(one) else one
    other = aligned(one, other)
    note = ""
    cuts: tuple[tuple[float, ...], tuple[float, ...]] = ((), ())
    if not (one.is_in_order and other.is_in_order):
        note = "Nothing says in what order its edges follow each other: add the seams between them."
    elif len(one.notches_mm) != len(other.notches_mm):
        count = f"{len(one.notches_mm)} and {len(other.notches_mm)}"
        note = f"Its sides have {count} notches, so they are not compared notch by notch."
    elif not (one.is_ring or other.is_ring):
        cuts = (one.notches_mm, other.notches_mm)
    longer, shorter = _parts(cuts[0], one.length_mm), _parts(cuts[1], other.length_mm)
    names = [f"part {at}" for at in range(1, len(longer) + 1)] if len(longer) > 1 else ["whole"]
    stretches = tuple(
        stretch(name, a, b, allowed, share=b / other.length_mm, is_part=len(names) > 1)
        for name, a, b in zip(names, longer, shorter, strict=True)
    )
    seam = SeamMatch(name=named(join), stretches=stretches)
    return WalkedSeam(join=join, one=one, other=other, seam=seam, start=one.ends[0], note=note)


def stretch(
    name: str, longer_mm: float, shorter_mm: float, allowed: SeamTolerance, *, share: float, is_part: bool
) -> Stretch:
    """A stretch with its share of the ease. A part of a gathered seam that matches as it lies is plain."""
    plain = Stretch(name=name, longer_mm=longer_mm, shorter_mm=shorter_mm)
    if allowed.ratio is None:
        return replace(plain, ease_mm=share * allowed.ease_mm)
    is_plain = is_part and plain.joined is SeamJoin.MATCHES
    return plain if is_plain else replace(plain, ratio=allowed.ratio)


def _parts(cuts: Sequence[float], whole: float) -> list[float]:
    return [b - a for a, b in zip((0.0, *cuts), (*cuts, whole), strict=True)]
