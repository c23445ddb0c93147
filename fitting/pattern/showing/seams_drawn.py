"""Drawings of walked seams: each piece with its edges numbered, and every seam straightened."""

from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise

from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.outline import Outline
from catalogue.tracing.calculation.tracing import TracedShape
from fitting.pattern.calculation.seam_match import SeamJoin, Stretch
from fitting.pattern.calculation.seam_walk import TracedEdge, WalkedSeam
from fitting.pattern.calculation.sums.sheet_answer import Part, Sketch, SketchWord, Stroke
from fitting.pattern.loading.grading import stroke_of

_TICK_MM, _WORD_IN_MM = 8.0, 22.0
_ROW, _APART = 0.11, 0.035  # of the longest edge: from seam to seam, from edge to edge


def pieces_drawn(seams: Sequence[WalkedSeam], shapes: Sequence[TracedShape]) -> Iterator[Sketch]:
    """Each piece with the numbers of its seams. `shapes` are those that were walked."""
    for shape in shapes:
        strokes, words = [stroke_of(shape.outline, "old")], []
        for at, seam in enumerate(seams, start=1):
            for edge in (*seam.one.edges, *seam.other.edges):
                if edge.piece != shape.name:
                    continue
                words.append(SketchWord(at=_xy(_within(edge, shape.outline)), parts=(str(at),)))
                if seam.seam.flagged:
                    strokes.append(Stroke(points=tuple(map(_xy, edge.line)), look="new"))
                strokes += [_tick(edge, place) for place in edge.notches_mm]
        if words:
            yield Sketch(
                title=shape.name,
                says="Its seams by their numbers, notches as short lines. Dashed in red: the edges differ.",
                strokes=tuple(strokes),
                words=tuple(words),
            )


def straightened(seams: Sequence[WalkedSeam]) -> Iterator[Sketch]:
    """The first edge above, the second beneath, both from the same end and to one scale."""
    if not seams:
        return
    longest = max(max(seam.one.length_mm, seam.other.length_mm) for seam in seams)
    strokes: list[Stroke] = []
    words = []
    for at, seam in enumerate(seams):
        top = at * _ROW * longest
        strokes += _ladder(seam.seam.stretches, top, top + _APART * longest)
        off: tuple[Part, ...] = (seam.one.length_mm - seam.other.length_mm,)
        named = f"{at + 1} · {seam.join.one[0][1]}, difference "
        words.append(SketchWord(at=(0.0, top), parts=(named, *off), anchor="start"))
    yield Sketch(
        title="Seams straightened",
        says="Each seam’s first edge above its second; grey lines join ends and notches. Dashed in red: "
        "a stretch that differs.",
        strokes=tuple(strokes),
        words=tuple(words),
    )


def _ladder(stretches: Sequence[Stretch], top: float, foot: float) -> Iterator[Stroke]:
    above = [0.0, *accumulate(one.longer_mm for one in stretches)]
    below = [0.0, *accumulate(one.shorter_mm for one in stretches)]
    for one, (start, end), (from_, to) in zip(stretches, pairwise(above), pairwise(below), strict=True):
        look = "new" if one.joined is SeamJoin.DIFFERS else "old"
        yield Stroke(points=((start, top), (end, top)), look=look)
        yield Stroke(points=((from_, foot), (to, foot)), look=look)
    for a, b in zip(above, below, strict=True):
        yield Stroke(points=((a, top), (b, foot)), look="level")


def _within(edge: TracedEdge, outline: Outline) -> Point:
    """Beside the middle of an edge, inside the piece."""
    at, along = _place(edge, edge.length_mm / 2)
    inwards = along * 1j
    if not outline.contains(at + inwards):
        inwards = -inwards
    return at + _WORD_IN_MM * inwards


def _tick(edge: TracedEdge, place: float) -> Stroke:
    at, along = _place(edge, place)
    across = _TICK_MM * along * 1j
    return Stroke(points=(_xy(at - across), _xy(at + across)), look="old")


def _place(edge: TracedEdge, along_mm: float) -> tuple[Point, Point]:
    """The point so far along an edge, and the direction that the edge takes there."""
    left = along_mm
    for a, b in pairwise(edge.line):
        if abs(b - a) >= left:
            return a + left * chord(a, b), chord(a, b)
        left -= abs(b - a)
    return edge.line[-1], chord(edge.line[-2], edge.line[-1])


def _xy(at: Point) -> tuple[float, float]:
    return round(at.real, 2), round(at.imag, 2)
