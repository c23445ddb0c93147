"""Outlines laid over each other as a drawing for a page: letters at the lines, gaps, a bar."""

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import LinearRing, MultiPoint, union_all
from shapely import Point as Place

from catalogue.laid_outlines import Chosen, Overlay, Pair
from catalogue.measuring.curve import Point
from catalogue.measuring.outline import Outline

MARGIN_MM = 25.0
CHORDS_MM = 0.5  # where letters are set it does not matter more
HALF_WORD_EM = 4.5  # half of “A–B 5 9/32 in” on the narrowest screen, where letters are half as large again
BARS = {"in": (101.6, "4 in"), "cm": (100.0, "10 cm")}


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnOutline:
    letter: str
    chosen: Chosen
    outline: Outline
    grain: tuple[Point, Point] | None
    letter_at: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnGap:
    pair: Pair
    start: Point
    end: Point
    word_at: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidDrawing:
    """In millimetres at full size; all pieces are held at 0. `em_mm`: the height of letters."""

    outlines: tuple[DrawnOutline, ...]
    gaps: tuple[DrawnGap, ...]
    left: float
    top: float
    width: float
    height: float
    em_mm: float
    bar: tuple[Point, Point]
    bar_name: str

    @property
    def box(self) -> str:
        return f"{self.left:.2f} {self.top:.2f} {self.width:.2f} {self.height:.2f}"

    @property
    def below_bar(self) -> Point:
        return self.bar[0] - 0.4j * self.em_mm


def laid_drawing(overlay: Overlay, system: str) -> LaidDrawing:
    """`system`: "in" or "cm", in which the bar is a round length."""
    flat = [one.laid.shape.outline.flattened(CHORDS_MM) for one in overlay.pieces]
    points = [point for of_one in flat for point in of_one]
    left, top = min(p.real for p in points) - MARGIN_MM, min(p.imag for p in points) - MARGIN_MM
    bar_mm, bar_name = BARS[system]
    width = max(max(p.real for p in points) + MARGIN_MM - left, bar_mm + 2 * MARGIN_MM)
    below = max(p.imag for p in points) + MARGIN_MM
    # A twelfth of the height stays free for the bar.
    height = (below - top) * 13 / 12
    em_mm = max(height, width * 0.7) / 34
    aside = min(HALF_WORD_EM * em_mm, width / 2)
    gaps = _gaps(overlay.pairs, em_mm, (left + aside, left + width - aside))
    letters = _letters_at(flat, [gap.word_at for gap in gaps])
    bar = complex(left + MARGIN_MM, (below + top + height) / 2)
    return LaidDrawing(
        outlines=tuple(_outline(one, at) for one, at in zip(overlay.pieces, letters, strict=True)),
        gaps=gaps,
        left=left,
        top=top,
        width=width,
        height=height,
        em_mm=em_mm,
        bar=(bar, bar + bar_mm),
        bar_name=bar_name,
    )


def _gaps(pairs: Sequence[Pair], em_mm: float, room: tuple[float, float]) -> tuple[DrawnGap, ...]:
    """Each gap with its figure at its middle, or as near as there is room, below those that stand there."""
    drawn: list[DrawnGap] = []
    for pair in pairs:
        gap = pair.chosen.gap
        at = (gap.first + gap.second) / 2
        at = complex(min(max(at.real, room[0]), room[1]), at.imag)
        while any(_is_near(at - before.word_at, em_mm) for before in drawn):
            at += 1.3j * em_mm
        drawn.append(DrawnGap(pair=pair, start=gap.first, end=gap.second, word_at=at))
    return tuple(drawn)


def _is_near(way: Point, em_mm: float) -> bool:
    return abs(way.real) < 2 * HALF_WORD_EM * em_mm and abs(way.imag) < 1.3 * em_mm


def _outline(chosen: Chosen, letter_at: Point) -> DrawnOutline:
    grain = next((mark.points for mark in chosen.laid.shape.marks if mark.kind == "grain"), None)
    return DrawnOutline(
        letter=chosen.letter,
        chosen=chosen,
        outline=chosen.laid.shape.outline,
        grain=(grain[0], grain[-1]) if grain else None,
        letter_at=letter_at,
    )


def _letters_at(flat: Sequence[Sequence[Point]], words: Sequence[Point]) -> list[Point]:
    """For each outline the place on it that is farthest from the others, from words and other letters."""
    rings = [LinearRing([(p.real, p.imag) for p in of_one]) for of_one in flat]
    set_already = list(words)
    for index, of_one in enumerate(flat):
        others = [ring for at, ring in enumerate(rings) if at != index]
        taken = union_all([*others, MultiPoint([(p.real, p.imag) for p in set_already])])
        set_already.append(max(of_one, key=lambda p, taken=taken: taken.distance(Place(p.real, p.imag))))
    return set_already[len(words) :]
