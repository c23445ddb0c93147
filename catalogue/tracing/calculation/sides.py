"""An outline side by side: each with its curve and the edge it belongs to, to be parted, moved and joined.

A side keeps its own curve whatever its neighbours do; a traced point takes its tangent from the points beside
it. `traced_nodes` is the way back: it sets points until the traced rule draws the same line.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from catalogue.tracing.calculation.curve import Cubic, Point, chord
from catalogue.tracing.calculation.outline import Node, Outline

Place: TypeAlias = tuple[int, float]  # on a round of sides: which side, and how far along it (t)

SAME_MM = 1e-6  # points nearer to each other are one
_AS_TRACED_MM = 1e-3  # how near a side drawn by the traced rule keeps to the side it stands for
_MOST_SPANS = 64
_SMOOTH_TO = 0.005  # radians that a line may turn where it counts as smooth


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """From one point of an outline to the next. `corner` and `is_first` are of its start."""

    cubic: Cubic
    edge: str = ""
    corner: bool = True
    is_first: bool = False

    @property
    def start(self) -> Point:
        return self.cubic.start

    @property
    def end(self) -> Point:
        return self.cubic.end

    @property
    def length(self) -> float:
        return self.cubic.length()

    def moved(self, move: Callable[[Point], Point]) -> "Side":
        """Carried by a rigid move or a reflection, which keep a curve's handles its handles."""
        at = self.cubic
        return replace(self, cubic=Cubic(move(at.start), move(at.handle_a), move(at.handle_b), move(at.end)))

    def split(self, t: float) -> tuple["Side", "Side"]:
        if self.cubic.is_straight:
            at = self.start + (self.end - self.start) * t
            before, after = Cubic.straight(self.start, at), Cubic.straight(at, self.end)
        else:
            before, after = self.cubic.split(t)
        return replace(self, cubic=before), Side(cubic=after, edge=self.edge, corner=False)

    def turned(self) -> "Side":
        """The same line the other way."""
        at = self.cubic
        return replace(self, cubic=Cubic(at.end, at.handle_b, at.handle_a, at.start))


def straight(start: Point, end: Point, edge: str) -> Side:
    return Side(cubic=Cubic.straight(start, end), edge=edge)


def sides_of(outline: Outline) -> list[Side]:
    """Its sides from its first point on, each with the name of the edge that it belongs to."""
    nodes = outline.nodes
    edge = next((node.edge for node in reversed(nodes) if node.edge), "")
    sides = []
    for index, (node, cubic) in enumerate(zip(nodes, outline.sides, strict=True)):
        edge = node.edge or edge
        sides.append(Side(cubic=cubic, edge=edge, corner=node.corner, is_first=index == 0))
    return sides


def outline_of(sides: Sequence[Side]) -> Outline:
    """Closed; it starts where the side that is first starts. Sides of no length are left out."""
    kept = [side for side in sides if abs(side.end - side.start) > SAME_MM or not side.cubic.is_straight]
    first = next((index for index, side in enumerate(kept) if side.is_first), 0)
    kept = kept[first:] + kept[:first]
    one_edge = len({side.edge for side in kept}) == 1
    nodes = []
    for index, side in enumerate(kept):
        starts = side.edge != kept[index - 1].edge or (one_edge and index == 0)
        is_straight = side.cubic.is_straight
        nodes.append(
            Node(
                at=side.start,
                corner=side.corner,
                curved=not is_straight,
                edge=side.edge if starts else "",
                handles=None if is_straight else (side.cubic.handle_a, side.cubic.handle_b),
            )
        )
    return Outline(nodes=tuple(nodes))


def with_points(sides: Sequence[Side], places: Sequence[Place]) -> tuple[list[Side], list[int]]:
    """The same round with a point at each place, and for each place the side that starts there."""
    found: list[Side] = []
    starts: dict[Place, int] = {}
    for index, side in enumerate(sides):
        rest, used = side, 0.0
        for place in sorted({place for place in places if place[0] == index}):
            t = (place[1] - used) / (1 - used) if used < 1 else 1.0
            at = rest.cubic.at(t)
            if t <= 0 or abs(at - rest.start) <= SAME_MM:
                starts[place] = len(found)
            elif t >= 1 or abs(at - rest.end) <= SAME_MM:
                starts[place] = len(found) + 1
            else:
                before, rest = rest.split(t)
                found.append(before)
                starts[place], used = len(found), place[1]
        found.append(rest)
    return found, [starts[place] % len(found) for place in places]


def run_of(sides: Sequence[Side], start: int, end: int) -> list[Side]:
    """The sides of a closed round from one up to another, which is not among them."""
    return list(sides[start:end] if start <= end else [*sides[start:], *sides[:end]])


def length_to(sides: Sequence[Side], place: Place) -> float:
    """How far it is along the sides from the start of the first to a place."""
    index, t = place
    return sum(side.length for side in sides[:index]) + sides[index].split(t)[0].length


def nearest(sides: Sequence[Side], point: Point) -> tuple[Place, float]:
    """The place of a round of sides that is nearest to a point, and how far off it is."""
    ways = [(index, *_nearest_on(side.cubic, point)) for index, side in enumerate(sides)]
    index, t, off = min(ways, key=lambda way: way[2])
    return (index, t), off


def _nearest_on(cubic: Cubic, point: Point) -> tuple[float, float]:
    if cubic.is_straight:
        along = cubic.end - cubic.start
        t = min(1.0, max(0.0, ((point - cubic.start) / along).real)) if along else 0.0
        return t, abs(point - cubic.at(t))
    t, width = min((step / 32 for step in range(33)), key=lambda t: abs(point - cubic.at(t))), 1 / 32
    while width > 1e-12:
        width /= 2
        tries = (t, max(0.0, t - width), min(1.0, t + width))
        t = min(tries, key=lambda t: abs(point - cubic.at(t)))
    return t, abs(point - cubic.at(t))


def turned_round(sides: Sequence[Side]) -> list[Side]:
    """The same sides in the other order, so that the outline runs the other way round."""
    turned = []
    for index in range(len(sides) - 1, -1, -1):
        after = sides[(index + 1) % len(sides)]
        turned.append(replace(sides[index].turned(), corner=after.corner, is_first=after.is_first))
    return turned


def turned_back(turned: Sequence[Side], before: Sequence[Side]) -> list[Side]:
    """Sides that were turned round, the right way again; what is told of their starts is as it was."""
    corners = {(round(side.start.real, 6), round(side.start.imag, 6)): side for side in before}
    found = []
    for side in reversed(turned):
        again = side.turned()
        known = corners.get((round(again.start.real, 6), round(again.start.imag, 6)))
        found.append(
            replace(again, corner=known.corner, is_first=known.is_first)
            if known
            else replace(again, corner=True, is_first=False)
        )
    return found


def mirrored(outline: Outline, start: Point, end: Point) -> Outline:
    """Reflected in the line through two points, in the other order so that it runs the same way round."""
    along = chord(start, end)

    def reflect(point: Point) -> Point:
        return start + ((point - start) / along).conjugate() * along

    return outline_of(turned_round([side.moved(reflect) for side in sides_of(outline)]))


def traced_nodes(outline: Outline) -> tuple[Node, ...]:
    """Points without handles that draw this outline by the traced rule, within a thousandth of a millimetre.

    Sides that the rule draws already keep their points; any other is set with points between, more of them
    until it is near enough, and so are the neighbours whose tangents these would turn.
    """
    spans = [1] * len(outline.nodes)
    while True:
        nodes = _set_with(outline, spans)
        drawn, start = Outline(nodes=nodes).sides, 0
        refined = list(spans)
        for index, side in enumerate(outline.sides):
            parts = drawn[start : start + spans[index]]
            start += spans[index]
            if spans[index] < _MOST_SPANS and _apart(side, parts) > _AS_TRACED_MM:
                refined[index] = 2 * spans[index]
        if refined == spans:
            return nodes
        spans = refined


def _set_with(outline: Outline, spans: Iterable[int]) -> tuple[Node, ...]:
    nodes = []
    before = outline.sides[-1]
    for node, side, count in zip(outline.nodes, outline.sides, spans, strict=True):
        nodes.append(replace(node, corner=node.corner or _turns(before, side), handles=None))
        before = side
        nodes += [Node(at=side.at(step / count), corner=False, curved=True) for step in range(1, count)]
    return tuple(nodes)


def _apart(side: Cubic, parts: Sequence[Cubic]) -> float:
    """How far the parts, drawn by the rule, lie from the side that they stand for, at their quarters."""
    count = len(parts)
    return max(
        _off(part.at(quarter / 4), side, (number + quarter / 4) / count)
        for number, part in enumerate(parts)
        for quarter in range(1, 4)
    )


def _turns(before: Cubic, after: Cubic) -> bool:
    coming = chord(before.at(1 - 1e-4), before.end)
    return abs(coming - chord(after.start, after.at(1e-4))) > _SMOOTH_TO


def _off(point: Point, side: Cubic, t: float) -> float:
    """From a point to a curve, at right angles to it near t; along the curve it may lie where it will."""
    step = 1e-4
    tangent = chord(side.at(max(0.0, t - step)), side.at(min(1.0, t + step)))
    return abs(((point - side.at(t)) * tangent.conjugate()).imag) if tangent else abs(point - side.at(t))
