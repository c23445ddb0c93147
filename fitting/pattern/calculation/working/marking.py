"""What is marked on a piece or said of it: grain, notches, pleats fold by fold, a lining, a wrap."""

from dataclasses import dataclass, replace

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.outline import Edge
from catalogue.tracing.calculation.sides import length_to, nearest
from catalogue.tracing.calculation.tracing import Mark
from fitting.pattern.calculation.working.edges import added
from fitting.pattern.calculation.working.girths import level_places
from fitting.pattern.calculation.working.level_lines import ON_OUTLINE_MM
from fitting.pattern.calculation.working.parting import Spread, cut_through, spread
from fitting.pattern.calculation.working.paths import Line
from fitting.pattern.calculation.working.pattern import Pattern, PatternFastening
from fitting.pattern.calculation.working.rounds import apart, refuse_names, run_alike


@dataclass(frozen=True, slots=True, kw_only=True)
class SetGrain:
    """The grain of a piece runs along a line."""

    piece: str
    line: Line


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchNotches:
    """Notches on two edges that are sewn together, each so far from the start of the second as it is drawn.

    What the first has to be eased is shared out over the stretches between notches.
    """

    pieces: tuple[str, str]
    edges: tuple[str, str]
    at_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnPitch:
    """The notches on an edge moved along it, in the direction in which it is drawn: a sleeve pitched anew."""

    piece: str
    edge: str
    by_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LayPleat:
    """Cloth for a pleat let in at a line, and its two folds marked; `depth_mm` is of the fold, as it lies."""

    piece: str
    line: Line
    depth_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LineWith:
    """A piece again for another cloth: a lining, an interlining."""

    piece: str
    name: str
    cloth: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrap:
    """Cloth beyond the line on which a garment closes, for buttons or to wrap over: overlap, never girth."""

    piece: str
    edge: str
    width_mm: float


def set_grain(pattern: Pattern, asked: SetGrain) -> Pattern:
    piece = pattern.piece(asked.piece)
    others = tuple(mark for mark in piece.marks if mark.kind != "grain")
    made = Mark(kind="grain", points=asked.line)
    return pattern.with_pieces([replace(piece, marks=(*others, made))])


def match_notches(pattern: Pattern, asked: MatchNotches) -> Pattern:
    """Raises Faults where a notch would lie past the end of an edge."""
    one, other = (
        pattern.edge(name, edge, "edges") for name, edge in zip(asked.pieces, asked.edges, strict=True)
    )
    longest = min(one.length, other.length)
    if over := [mm for mm in asked.at_mm if mm >= longest]:
        sentence = (
            f"One of these lies past the end of the shorter edge: {over[0]:.1f} mm of {longest:.1f} mm."
        )
        raise Faults([Fault("at", sentence)])
    first, second = (pattern.piece(name) for name in asked.pieces)
    back_along_first = not run_alike(first, asked.edges[0], second, asked.edges[1])
    changed = pattern
    for name, edge, back in ((asked.pieces[0], one, back_along_first), (asked.pieces[1], other, False)):
        places = [mm * edge.length / other.length for mm in asked.at_mm]
        points = [along_edge(edge, edge.length - mm if back else mm) for mm in places]
        piece = changed.piece(name)
        marks = tuple(Mark(kind="notch", points=(point,)) for point in points)
        changed = changed.with_pieces([replace(piece, marks=(*piece.marks, *marks))])
    return changed


def turn_pitch(pattern: Pattern, asked: TurnPitch) -> Pattern:
    """Raises Faults where the edge has no notch, or one would leave it."""
    edge, piece = pattern.edge(asked.piece, asked.edge), pattern.piece(asked.piece)
    sides, _ = apart(piece.sides, [asked.edge], "edge")
    marks, moved = [], 0
    for mark in piece.marks:
        on_edge, off = nearest(sides, mark.points[0])
        if mark.kind == "notch" and off <= ON_OUTLINE_MM:
            place = length_to(sides, on_edge)
            if not 0 <= place + asked.by_mm <= edge.length:
                raise Faults([Fault("by", "A notch would leave this edge: move them by less.")])
            mark, moved = replace(mark, points=(along_edge(edge, place + asked.by_mm),)), moved + 1
        marks.append(mark)
    if not moved:
        raise Faults(
            [Fault("edge", f"The {asked.edge} of {asked.piece} has no notch to move: place some first.")]
        )
    return pattern.with_pieces([replace(piece, marks=tuple(marks))])


def along_edge(edge: Edge, mm: float) -> Point:
    """The point of an edge so far from its start."""
    for side in edge.sides[:-1]:
        if mm <= (length := side.length()):
            return side.at(side.t_at(mm))
        mm -= length
    return edge.sides[-1].at(edge.sides[-1].t_at(mm))


def lay_pleat(pattern: Pattern, asked: LayPleat) -> Pattern:
    """Spread by twice its depth, so that folded it measures what it did. Raises Faults as `spread` does."""
    piece = pattern.piece(asked.piece)
    ends = [at for _, at in cut_through(piece, asked.line, "line")]
    wide = spread(pattern, Spread(piece=asked.piece, cut=asked.line, by_mm=2 * asked.depth_mm), "line")
    shift = chord(*asked.line) * 1j * 2 * asked.depth_mm
    made = Mark(kind="pleat", points=(ends[0], ends[1], ends[0] + shift, ends[1] + shift))
    spread_piece = wide.piece(asked.piece)
    return wide.with_pieces([replace(spread_piece, marks=(*spread_piece.marks, made))])


def line_with(pattern: Pattern, asked: LineWith) -> Pattern:
    """Raises Faults where the name is taken, or the cloth is the piece's own."""
    piece = pattern.piece(asked.piece)
    refuse_names([asked.name], [one.name for one in pattern.pieces], "name")
    if asked.cloth in pattern.counted:
        raise Faults([Fault("cloth", "A lining is of another cloth than the outside: name which.")])
    made = replace(piece, name=asked.name, cloth=asked.cloth)
    return replace(pattern, pieces=(*pattern.pieces, made))


def wrap(pattern: Pattern, asked: Wrap) -> Pattern:
    """Each level that crosses the edge has that much more overlap, so that its girth stays."""
    pattern.edge(asked.piece, asked.edge)
    before = pattern.girths()
    piece = pattern.piece(asked.piece)
    wider = pattern.with_pieces([added(piece, asked.edge, asked.width_mm)])
    after = wider.girths()
    levels = {at.level for at in level_places(piece) if at.among((asked.edge,))}
    overlap = {level: wider.overlap.at(level) + after[level] - before[level] for level in levels}
    own = {**wider.overlap.by_level, **overlap}
    return replace(wider, overlap=PatternFastening(usual_mm=wider.overlap.usual_mm, by_level=own))
