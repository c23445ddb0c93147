"""Outlines laid over each other as a drawing for a page: letters at the lines, gaps, a bar."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shapely import LinearRing, MultiLineString
from shapely import Point as Place

from catalogue.reading_room.loading import Chosen, Overlay, Pair
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.outline import Outline

MARGIN_MM = 25.0
CHORDS_MM = 0.5  # where letters are set it does not matter more
# Letters keep their size, however small the drawing is: on the narrowest screen it is twenty of them wide.
NARROWEST_EM = 20
HALF_WORD_EM = 4.2  # half of “A–B 13 9/32 in”
BARS = {"in": (101.6, "4 in"), "cm": (100.0, "10 cm")}


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnOutline:
    chosen: Chosen
    grain: tuple[Point, Point] | None
    letter_at: Point

    @property
    def outline(self) -> Outline:
        return self.chosen.laid.shape.outline


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnGap:
    pair: Pair
    start: Point
    end: Point
    word_at: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """In millimetres at full size; the pieces are held at 0."""

    left: float
    top: float
    width: float
    height: float

    def __str__(self) -> str:
        return f"{self.left:.2f} {self.top:.2f} {self.width:.2f} {self.height:.2f}"

    @property
    def em_mm(self) -> float:
        return self.width / NARROWEST_EM

    def across(self, at: Point) -> float:
        """In percent of its width."""
        return 100 * (at.real - self.left) / self.width

    def down(self, at: Point) -> float:
        return 100 * (at.imag - self.top) / self.height


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidDrawing:
    box: Box
    outlines: tuple[DrawnOutline, ...]
    gaps: tuple[DrawnGap, ...]
    bar: tuple[Point, Point]
    bar_name: str

    def words(self) -> Iterator[tuple[str, Pair | None, float, float]]:
        """Letters, then gaps: a letter, or the pair whose gap it is; where across and down, in percent."""
        for one in self.outlines:
            yield one.chosen.letter, None, self.box.across(one.letter_at), self.box.down(one.letter_at)
        for gap in self.gaps:
            yield "", gap.pair, self.box.across(gap.word_at), self.box.down(gap.word_at)

    @property
    def bar_at(self) -> tuple[float, float]:
        return self.box.across(self.bar[0]), self.box.down(self.bar[0])

    @property
    def is_tall(self) -> bool:
        return self.box.height > self.box.width


def laid_drawing(overlay: Overlay, system: str) -> LaidDrawing:
    """`system`: "in" or "cm", in which the bar is a round length."""
    flat = [one.laid.shape.outline.flattened(CHORDS_MM) for one in overlay.pieces]
    points = [point for of_one in flat for point in of_one]
    left, top = min(p.real for p in points) - MARGIN_MM, min(p.imag for p in points) - MARGIN_MM
    bar_mm, bar_name = BARS[system]
    width = max(max(p.real for p in points) + MARGIN_MM - left, bar_mm + 2 * MARGIN_MM)
    below = max(p.imag for p in points) + MARGIN_MM
    box = Box(left=left, top=top, width=width, height=below - top + 2.4 * width / NARROWEST_EM)
    gaps = _gaps(overlay.pairs, box)
    letters = _letters_at(flat, [gap.word_at for gap in gaps])
    bar = complex(left + MARGIN_MM, below + 1.6 * box.em_mm)
    return LaidDrawing(
        box=box,
        outlines=tuple(_outline(one, at) for one, at in zip(overlay.pieces, letters, strict=True)),
        gaps=gaps,
        bar=(bar, bar + bar_mm),
        bar_name=bar_name,
    )


def _gaps(pairs: Sequence[Pair], box: Box) -> tuple[DrawnGap, ...]:
    """Each gap with its figure at its middle, or as near as there is room, below those that stand there."""
    aside = min(HALF_WORD_EM * box.em_mm, box.width / 2)
    drawn: list[DrawnGap] = []
    for pair in pairs:
        gap = pair.chosen.gap
        at = (gap.first + gap.second) / 2
        at = complex(min(max(at.real, box.left + aside), box.left + box.width - aside), at.imag)
        while any(_is_near(at - before.word_at, box.em_mm) for before in drawn):
            at += 1.3j * box.em_mm
        drawn.append(DrawnGap(pair=pair, start=gap.first, end=gap.second, word_at=at))
    return tuple(drawn)


def _is_near(way: Point, em_mm: float) -> bool:
    return abs(way.real) < 2 * HALF_WORD_EM * em_mm and abs(way.imag) < 1.3 * em_mm


def _outline(chosen: Chosen, letter_at: Point) -> DrawnOutline:
    grain = next((mark.points for mark in chosen.laid.shape.marks if mark.kind == "grain"), None)
    return DrawnOutline(
        chosen=chosen,
        grain=(grain[0], grain[-1]) if grain else None,
        letter_at=letter_at,
    )


def _letters_at(flat: Sequence[Sequence[Point]], words: Sequence[Point]) -> list[Point]:
    """For each outline the place on it that is farthest from the others, from words and other letters."""
    rings = [LinearRing([(p.real, p.imag) for p in of_one]) for of_one in flat]
    set_already = list(words)
    for index, of_one in enumerate(flat):
        others = MultiLineString([ring for at, ring in enumerate(rings) if at != index])

        def room(at: Point, others: MultiLineString = others) -> tuple[float, float]:
            # Of places that all lie on another outline the one farthest from what is written.
            written = min((abs(at - other) for other in set_already), default=0.0)
            return min(round(others.distance(Place(at.real, at.imag)), 3), written), written

        set_already.append(max(of_one, key=room))
    return set_already[len(words) :]
