"""How a place of a piece is said: by the numbers of its points, or the rulers at its left and its top."""

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from django.utils.safestring import SafeString

from catalogue.drawing.showing import Colour, disc, line, text, track
from catalogue.lengths.calculation.lengths import System
from catalogue.tracing.calculation.curve import Point, chord
from fitting.pattern.calculation.working.pattern import PatternPiece

# How far apart the strokes of a ruler stand, and what the unit is of the figure at every fifth.
RULERS = {"in": (25.4, 25.4), "cm": (20.0, 10.0)}
FIGURED = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceBounds:
    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top


def bounds(pieces: Iterable[PatternPiece]) -> PieceBounds:
    points = [point for piece in pieces for point in piece.outline.flattened()]
    across, down = [point.real for point in points], [point.imag for point in points]
    return PieceBounds(left=min(across), top=min(down), right=max(across), bottom=max(down))


def origin(piece: PatternPiece) -> Point:
    """Where its rulers begin: at its leftmost and at its highest point."""
    box = bounds([piece])
    return complex(box.left, box.top)


def pair_key(one: Any, other: Any) -> str:
    """An edge, a dart or a notch of a piece, as a box names it: the pair of both."""
    return json.dumps([one, other], ensure_ascii=False)


def numbered_points(piece: PatternPiece) -> list[int]:
    """The points of its outline that bear a number on the drawing: where it turns, or an edge begins."""
    nodes = piece.outline.nodes
    return [at for at, node in enumerate(nodes) if node.corner or node.edge] or list(range(len(nodes)))


def draw_numbers(piece: PatternPiece, letter: float) -> Iterator[SafeString]:
    sides = piece.outline.sides
    for number, at in enumerate(numbered_points(piece), start=1):
        point, before, after = sides[at].start, sides[at - 1], sides[at]
        way = chord(before.at(0.95), before.end) + chord(after.start, after.at(0.05))
        out = piece.outward * way / abs(way) if abs(way) > 0.1 else piece.outward
        where = point + 0.95 * letter * out
        yield disc(point.real, point.imag, 0.2 * letter, Colour.CHALK_BLUE)
        yield text(
            where.real, where.imag + 0.3 * letter, str(number), size=0.85 * letter, fill=Colour.CHALK_BLUE,
            css="pattern-word", font_weight=600,
        )  # fmt: skip


def draw_rulers(box: PieceBounds, system: System, letter: float) -> Iterator[SafeString]:
    """In the reader's unit, both from nought; two letters away from the piece."""
    yield from _ruler(complex(box.left, box.top - 1.9 * letter), 1, box.width, system, letter)
    yield from _ruler(complex(box.left - 1.9 * letter, box.top), 1j, box.height, system, letter)


def _ruler(start: Point, way: Point, long: float, system: System, letter: float) -> Iterator[SafeString]:
    step, unit = RULERS[system]
    out = -1j if way == 1 else -1
    strokes = []
    for count in range(int(long // step) + 1):
        is_figured = count % FIGURED == 0
        at = start + way * count * step
        end = at + out * letter * (0.7 if is_figured else 0.35)
        strokes.append(track("M", at.real, at.imag, "L", end.real, end.imag))
        if is_figured:
            where = end + letter * (0.2 + 0.5j if way == 1 else -0.2 + 0.25j)
            anchor = "start" if way == 1 else "end"
            figure = f"{count * step / unit:g}"
            yield text(where.real, where.imag, figure, size=0.7 * letter, fill=Colour.INK_SOFT, anchor=anchor)
    yield line("".join(strokes), Colour.INK_SOFT, letter / 16)
