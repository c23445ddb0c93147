"""The pieces of a working pattern drawn for a page: each on its own, its levels, edges and marks named.

Where a step is to be said its points bear numbers, and rulers stand at its left and its top. What a piece
was before a step lies dashed beneath it.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from django.utils.safestring import SafeString

from catalogue.drawing.calculation import kept_apart_in_columns
from catalogue.drawing.showing import Colour, drawing, element, line, text, track
from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.showing import Writing
from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.outline import Edge
from catalogue.tracing.calculation.tracing import Mark
from catalogue.tracing.loading.drawing import path_of
from catalogue.tracing.showing.figure import arrow_head, drawn_marks
from fitting.pattern.calculation.working.level_lines import reaching
from fitting.pattern.calculation.working.marking import along_edge
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece
from fitting.pattern.showing.pattern_places import PieceBounds, bounds, draw_numbers, draw_rulers

NARROWEST = 0.72  # of its height: a narrower piece would be drawn with letters too small to read
MARGIN, RULED = 0.06, 0.15  # round a piece, as parts of its width; with rulers
LETTERS = 27  # that stand beside each other across a drawing
WIDE = 0.52  # of a letter's height: how wide it is
OUTER = "outer"  # the cloth of which nothing need be said
LINES_ACROSS = 420  # of the width of a line, across a drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceDrawing:
    """`cut`: how often, and how. `size`: as wide and as high as it is, in words."""

    name: str
    svg: SafeString
    cut: str
    size: str
    is_box: bool = False
    is_gone: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class _Label:
    words: str
    at: Point
    anchor: str
    fill: str

    def span(self, letter: float) -> tuple[float, float]:
        wide = len(self.words) * WIDE * letter
        start = {"start": 0.0, "middle": wide / 2, "end": wide}[self.anchor]
        return self.at.real - start, self.at.real - start + wide


def draw_pattern(pattern: Pattern, writing: Writing, *, numbered: bool = False) -> list[PieceDrawing]:
    return [
        _drawn(piece, writing, name=f"piece-{at}", numbered=numbered)
        for at, piece in enumerate(pattern.pieces, start=1)
    ]


def draw_change(before: Pattern, after: Pattern, writing: Writing) -> list[PieceDrawing]:
    """The pieces that a step has changed, as they were dashed; those that it has taken away as they were."""
    old = {piece.name: piece for piece in before.pieces}
    kept = {piece.name for piece in after.pieces}
    changed = [piece for piece in after.pieces if old.get(piece.name) != piece]
    gone = [piece for piece in before.pieces if piece.name not in kept]
    return [
        *(
            _drawn(piece, writing, name=f"after-{at}", was=old.get(piece.name))
            for at, piece in enumerate(changed, start=1)
        ),
        *(_drawn(piece, writing, name=f"gone-{at}", is_gone=True) for at, piece in enumerate(gone, start=1)),
    ]


def cut_words(piece: PatternPiece) -> str:
    often = "cut once" if piece.cut == 1 else f"cut {piece.cut}"
    if piece.mirrored and not piece.on_fold:
        often = "cut a pair" if piece.cut == 2 else f"{often}, half of them turned over"
    fold = " on the fold" if piece.on_fold else ""
    cloth = f", {piece.cloth}" if piece.cloth not in ("", OUTER) else ""
    return f"{often}{fold}{cloth}"


def _drawn(
    piece: PatternPiece, writing: Writing, *, name: str, numbered: bool = False,
    was: PatternPiece | None = None, is_gone: bool = False,
) -> PieceDrawing:  # fmt: skip
    own = bounds([piece])
    box = _framed(bounds([one for one in (piece, was) if one]), RULED if numbered else MARGIN)
    letter, width = box.width / LETTERS, box.width / LINES_ACROSS
    size = f"{writing.length(own.width)} wide, {writing.length(own.height)} high"
    svg = drawing(
        arrow_head(f"{name}-arrow"),
        *_lines(piece, width, f"url(#{name}-arrow)", is_gone=is_gone),
        *([_was(was, width)] if was else []),
        *(draw_rulers(own, writing.system, letter) if numbered else []),
        *_written(_labels(piece, letter), box, letter),
        *(draw_numbers(piece, letter) if numbered else []),
        name=name,
        css="pattern-piece",
        box=(box.left, box.top, box.width, box.height),
        title=piece.name,
        says=_says(piece, writing, size),
    )
    return PieceDrawing(
        name=piece.name, svg=svg, cut=cut_words(piece), size=size, is_box=piece.is_box, is_gone=is_gone
    )


def _framed(box: PieceBounds, margin: float) -> PieceBounds:
    """With room for rulers and numbers, and as wide as letters want it."""
    wide = max(box.width, NARROWEST * box.height, 1.0)
    margin *= wide
    aside = (wide - box.width) / 2 + margin
    return PieceBounds(
        left=box.left - aside, top=box.top - margin, right=box.right + aside, bottom=box.bottom + margin
    )


def _lines(piece: PatternPiece, width: float, arrow: str, *, is_gone: bool) -> Iterator[SafeString]:
    look = {"fill": Colour.CARD, "stroke": Colour.INK, "stroke_width": 1.4 * width}
    if is_gone:
        look = {"fill": "none", "stroke": Colour.INK_SOFT, "stroke_dasharray": 6 * width} | {
            "stroke_width": width
        }
    yield element("path", css="pattern-outline", d=path_of(piece.outline), **look)
    for path in piece.levels.values():
        for start, end in reaching(piece.outline, path):
            across = track("M", start.real, start.imag, "L", end.real, end.imag)
            yield line(across, Colour.PIN_RED, width)
    yield from drawn_marks(piece.marks, width, arrow)


def _was(piece: PatternPiece, width: float) -> SafeString:
    return line(
        path_of(piece.outline), Colour.CHALK_BLUE, 1.4 * width, stroke_dasharray=6 * width, css="pattern-was"
    )


def _labels(piece: PatternPiece, letter: float) -> Iterator[_Label]:
    for name, edge in piece.edges.items():
        at, along = _middle(edge)
        inward = -piece.outward * along
        anchor = "start" if inward.real > 0.4 else "end" if inward.real < -0.4 else "middle"
        yield _Label(words=name, at=at + 0.6 * letter * inward, anchor=anchor, fill=Colour.INK)
    for level, path in piece.levels.items():
        start = min(
            (end for part in reaching(piece.outline, path) for end in part), key=lambda point: point.real
        )
        at = start + complex(0.4, -0.75) * letter
        yield _Label(words=level_label(level), at=at, anchor="start", fill=Colour.PIN_RED)
    for mark in piece.marks:
        if words := _MARK_WORDS.get(mark.kind):
            yield _Label(words=words, at=_of_mark(mark) + 0.5 * letter, anchor="start", fill=_mark_fill(mark))


_MARK_WORDS = {"grain": "grain", "fold": "fold", "dart": "dart", "pleat": "pleat"}


def level_label(level: str) -> str:
    return LINES[level].label if level in LINES else level


def _mark_fill(mark: Mark) -> str:
    return Colour.CHALK_BLUE if mark.kind == "grain" else Colour.PIN_VIOLET


def _of_mark(mark: Mark) -> Point:
    """A third down the mark: its middle is where most others have theirs."""
    start, end = mark.points[0], mark.points[-1]
    return (
        start + (end - start) / 3 if mark.kind in ("grain", "fold") else sum(mark.points) / len(mark.points)
    )


def _middle(edge: Edge) -> tuple[Point, Point]:
    """Half way along an edge, and its direction there."""
    before, at, after = (along_edge(edge, share * edge.length) for share in (0.49, 0.5, 0.51))
    return at, chord(before, after)


def _written(labels: Iterable[_Label], box: PieceBounds, letter: float) -> Iterator[SafeString]:
    labels = list(labels)
    heights = kept_apart_in_columns(
        [label.span(letter) for label in labels],
        [label.at.imag for label in labels],
        [1.15 * letter] * len(labels),
        low=box.top,
        high=box.bottom,
    )
    for label, y in zip(labels, heights, strict=True):
        yield text(
            label.at.real, y + 0.35 * letter, label.words, size=letter, fill=label.fill, anchor=label.anchor,
            css="pattern-word",
        )  # fmt: skip


def _says(piece: PatternPiece, writing: Writing, size: str) -> str:
    measures = piece.measures
    levels = [f"{level_label(name)} {writing.length(mm)}" for name, mm in measures.levels.items()]
    edges = [f"{name} {writing.length(mm)}" for name, mm in measures.edges.items()]
    parts = [size]
    parts += [f"levels: {', '.join(levels)}"] if levels else []
    parts += [f"edges: {', '.join(edges)}"] if edges else []
    return f"{'; '.join(parts)}."
