"""Where a level may measure less of a piece than there is, and how to draw it so that it does not.

A level that runs along an edge is in and out of the piece by chance: the printed construction line lies
there, and so does the line that everyone draws over it. One that crosses the armhole, or leaves the piece and
comes back, leaves out what lies between. None of them is wrong for certain: each is named with its place.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from catalogue.lengths.calculation.levels import LINES
from catalogue.tracing.calculation.curve import Point, chord, fine_enough
from catalogue.tracing.calculation.outline import FLAT_TO
from catalogue.tracing.calculation.tracing import (
    LevelLine,
    LevelWidth,
    TracedShape,
    level_widths,
    width_at,
)

# Along an edge, for so many times as far as the level may lie off it: a line that crosses an edge at a slant
# of ten degrees or less, for 2/sin 10° is 11.5. Our own choice.
ALONG_TIMES = 12.0
# What makers write of the edge that the arm goes through.
ARM_WORDS = ("armhole", "arm hole", "armscye", "armseye", "scye")
ABOVE_THE_ARM = {"head", "neck", "neck base"}

Kind = Literal["edge", "armhole", "gap"]
Walk = list[tuple[Point, str]]  # round the outline: each point, and the edge that it lies on
# Of what kind, at which edge, from and to where along the level, and how far beside it lie the points that it
# is to leave on one side.
Found = tuple[Kind, str, float, float, list[float]]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutShort:
    """`from_mm` to `to_mm`: where along the level, from where it first meets the piece.

    `moved` is the level on the other side of the edge; None where no side is better.
    """

    piece: str
    level: LevelLine
    kind: Kind
    edge: str
    from_mm: float
    to_mm: float
    width_mm: float
    moved: LevelLine | None

    def sentence(self, written: Callable[[float], str]) -> str:
        """`written` makes a text of millimetres."""
        level, measured = f"The {LINES[self.level.line].label} line", written(self.width_mm)
        here, far = written(self.from_mm), written(self.to_mm - self.from_mm)
        if self.kind == "edge":
            edge = f"the edge “{self.edge}”" if self.edge else "an edge"
            return (
                f"{level} runs along {edge} of the {self.piece} for {far}, from {here} after it meets the"
                f" piece: it is in and out there by chance, and the {measured} that it measures may be cut"
                " short."
            )
        if self.kind == "armhole":
            return (
                f"{level} crosses the armhole of the {self.piece}, {here} after it enters the piece: the"
                f" {measured} that it measures are cut short by the armhole."
            )
        return (
            f"{level} leaves the {self.piece} {here} after it enters it, and comes back {far} farther: what"
            f" lies between is not in the {measured} that it measures."
        )


def levels_cut_short(shape: TracedShape, levels: Sequence[LevelLine], near_mm: float) -> list[CutShort]:
    """Of each level the line that counts; one that misses the piece by a hair counts for nothing.

    `near_mm`: how far off each other two lines may lie that were meant for one.
    """
    counted = {width.line: width for width in level_widths(shape, levels)}
    widths = [counted.get(level.line) or width_at(shape, level) for level in levels]
    return [
        one
        for level, width in zip(levels, widths, strict=True)
        if width.level is level
        for one in _cut_short(shape, width, near_mm)
    ]


def _cut_short(shape: TracedShape, width: LevelWidth, near_mm: float) -> list[CutShort]:
    found = _found(shape, width, near_mm)
    begin = min([*_ends(width), *(start for _, _, start, _, _ in found)], default=0.0)
    return [
        CutShort(
            piece=shape.name,
            level=width.level,
            kind=kind,
            edge=edge,
            from_mm=start - begin,
            to_mm=end - begin,
            width_mm=width.width_mm,
            moved=_moved(shape, width, touched, 2 * near_mm),
        )
        for kind, edge, start, end, touched in found
    ]


def _found(shape: TracedShape, width: LevelWidth, near_mm: float) -> list[Found]:
    level = width.level
    turned = chord(level.start, level.end).conjugate()
    flat = [((at - level.start) * turned, edge) for at, edge in _walk(shape)]
    found: list[Found] = [("edge", *run) for run in _runs_along(flat, near_mm, abs(level.end - level.start))]

    def is_new(start: float, end: float) -> bool:
        return not any(one[2] <= end + near_mm and one[3] >= start - near_mm for one in found)

    for gap in width.gaps:
        start, end = sorted(_along(level, at) for at in gap)
        if is_new(start, end):
            arm = next((edge for at in (start, end) if _is_arm(edge := _edge_at(flat, at))), "")
            touched = _of_arm(flat) if arm else _between(flat, start, end)
            found.append(("armhole" if arm else "gap", arm, start, end, touched))
    ends = _ends(width)
    for place in (min(ends), max(ends)) if ends and _is_about_the_trunk(width.line) else ():
        edge = _edge_at(flat, place)
        if is_new(place, place) and _is_arm(edge) and _goes_through(flat, edge, near_mm):
            found.append(("armhole", edge, place, place, _of_arm(flat)))
    return found


def _ends(width: LevelWidth) -> list[float]:
    return [_along(width.level, end) for span in width.spans for end in span]


def _along(level: LevelLine, at: Point) -> float:
    return ((at - level.start) * chord(level.start, level.end).conjugate()).real


def _moved(
    shape: TracedShape, width: LevelWidth, touched: Sequence[float], clear_mm: float
) -> LevelLine | None:
    """The level so that what it touches lies clear on one side of it: on that side where the piece is wider.

    `touched`: how far beside the level those points lie.
    """
    level = width.level
    beside = 1j * chord(level.start, level.end)
    moved = [
        replace(level, start=level.start + way * beside, end=level.end + way * beside)
        for way in (max(touched) + clear_mm, min(touched) - clear_mm)
    ]
    wide = {sum(one.width_mm for one in level_widths(shape, [line])): line for line in moved}
    return wide[max(wide)] if max(wide) > width.width_mm else None


def _walk(shape: TracedShape) -> Walk:
    steps = fine_enough(shape.outline.sides, 10 * FLAT_TO)
    walk: Walk = []
    for edge in shape.outline.edges():
        for side in edge.sides:
            # Straight sides are cut up too: a level may run along a part of one.
            count = steps if not side.is_straight else max(4, int(side.length() / 2))
            walk += [(side.at(step / count), edge.name) for step in range(count)]
    return walk


def _runs_along(flat: Walk, near_mm: float, far: float) -> Iterator[tuple[str, float, float, list[float]]]:
    """Stretches of the outline within `near_mm` of the level, long enough to be no crossing."""
    inside = [_is_near(at, near_mm, far) for at, _ in flat]
    if all(inside):
        return
    first = inside.index(False)
    turned = [*flat[first:], *flat[: first + 1]]
    run: Walk = []
    for at, edge in turned:
        if _is_near(at, near_mm, far):
            run.append((at, edge))
            continue
        if run:
            places = [place.real for place, _ in run]
            if max(places) - min(places) >= ALONG_TIMES * near_mm:
                names = [name for _, name in run]
                edge = max(names, key=names.count)
                yield edge, min(places), max(places), [place.imag for place, _ in run]
        run = []


def _is_near(at: Point, near_mm: float, far: float) -> bool:
    return abs(at.imag) <= near_mm and 0 <= at.real <= far


def _edge_at(flat: Walk, place: float) -> str:
    """The edge that crosses the level there."""
    pairs = zip(flat, [*flat[1:], flat[0]], strict=True)
    crossing = [(a, b, edge) for (a, edge), (b, _) in pairs if (a.imag <= 0) != (b.imag <= 0)]
    nearest = min(crossing, key=lambda one: abs((one[0].real + one[1].real) / 2 - place), default=None)
    return nearest[2] if nearest else ""


def _is_arm(edge: str) -> bool:
    return any(word in edge.casefold() for word in ARM_WORDS)


def _is_about_the_trunk(line: str) -> bool:
    return LINES[line].on_body and not LINES[line].has_sides and line not in ABOVE_THE_ARM


def _of_arm(flat: Walk) -> list[float]:
    return [at.imag for at, edge in flat if _is_arm(edge)]


def _goes_through(flat: Walk, edge: str, near_mm: float) -> bool:
    """Whether the edge lies on both sides of the level, and does not only end on it."""
    heights = [at.imag for at, name in flat if name == edge]
    return min(heights) < -near_mm and max(heights) > near_mm


def _between(flat: Walk, start: float, end: float) -> list[float]:
    """How the outline runs from where the level leaves the piece to where it comes back, the shorter way."""
    pairs = zip(flat, [*flat[1:], flat[0]], strict=True)
    crossing = [
        (number, (a.real + b.real) / 2)
        for number, ((a, _), (b, _)) in enumerate(pairs)
        if (a.imag <= 0) != (b.imag <= 0)
    ]
    one, other = (min(crossing, key=lambda at: abs(at[1] - place))[0] for place in (start, end))
    first, last = sorted((one, other))
    inner, outer = flat[first + 1 : last + 1], [*flat[last + 1 :], *flat[: first + 1]]
    shorter = min((inner, outer), key=_length)
    return [at.imag for at, _ in shorter] or [0.0]


def _length(way: Walk) -> float:
    return sum(abs(b - a) for (a, _), (b, _) in pairwise(way))
