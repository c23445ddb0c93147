"""Outlines laid over each other as a drawing for a page: letters at the lines, gaps, a bar."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from django.utils.safestring import SafeString
from shapely import LinearRing, MultiLineString
from shapely import Point as Place

from catalogue.drawing.calculation import kept_apart_in_columns
from catalogue.drawing.showing import Colour, drawing, element, line, track
from catalogue.lengths.showing import mm_for
from catalogue.reading_room.loading import Overlay, OverlayPiece, Pair
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.outline import Outline
from catalogue.tracing.loading.drawing import path_of
from catalogue.workroom.models import User

MARGIN_MM = 25.0
CHORDS_MM = 0.5  # where letters are set it does not matter more
# Letters keep their size, however small the drawing is: on the narrowest screen it is twenty of them wide.
NARROWEST_EM = 20
HALF_WORD_EM = 4.2  # half of “A–B 13 9/32 in”
STEADY = {"vector_effect": "non-scaling-stroke"}  # lines as wide on any screen
LOOKS = {
    "A": (Colour.INK, ""),
    "B": (Colour.PIN_RED, "10 5"),
    "C": (Colour.CHALK_BLUE, "2 4"),
    "D": (Colour.PIN_GREEN, "14 4 2 4"),
}
BARS = {"in": (101.6, "4 in"), "cm": (100.0, "10 cm")}


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnOutline:
    chosen: OverlayPiece
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

    @property
    def is_tall(self) -> bool:
        return self.box.height > self.box.width


def draw_laid(overlay: Overlay, laid: LaidDrawing, user: User) -> SafeString:
    """The drawing, and over it its words in letters of one size, however small it is shown."""
    box, em = laid.box, laid.box.em_mm
    gaps = [(gap, f"{gap.pair.first.letter}–{gap.pair.other.letter}") for gap in laid.gaps]
    held = track("M", -em, 0, "H", em, "M", 0, -em, "V", em)
    drawn = drawing(
        *(part for one in laid.outlines for part in _lines(one)),
        element("g", element("title", "Held here"), _straight(held, Colour.INK), css="laid-held"),
        *(
            _straight(_between(gap.start, gap.end), Colour.PIN_VIOLET, 4, stroke_linecap="round")
            for gap in laid.gaps
        ),
        _straight(_between(*laid.bar), Colour.INK),
        name="laid",
        css="laid-drawing",
        box=(box.left, box.top, box.width, box.height),
        title=" over ".join(f"{one.piece} of {one.reference}" for one in overlay.pieces),
        says=_described(overlay, user),
    )

    def word(at: Point, words: str, css: str = "", dy: float | None = None) -> SafeString:
        x, y = f"{box.across(at):.2f}%", f"{box.down(at):.2f}%"
        return element("text", words, x=x, y=y, dy=dy, css=css)

    return drawn + element(
        "svg",
        *(word(one.letter_at, one.chosen.letter, "laid-letter") for one in laid.outlines),
        *(word(gap.word_at, f"{pair} {mm_for(gap.pair.chosen.gap.mm, user)}") for gap, pair in gaps),
        word(laid.bar[0], laid.bar_name, "laid-bar-name", dy=-6),
        css="laid-words",
        aria_hidden="true",
        focusable="false",
    )


def _described(overlay: Overlay, user: User) -> str:
    held = [f"{one.letter} is held by {one.point}." for one in overlay.pieces]
    gaps = [
        f"The largest gap of {pair.first.letter} and {pair.other.letter} along the chosen edges is"
        f" {mm_for(pair.chosen.gap.mm, user)}."
        for pair in overlay.pairs
    ]
    return " ".join(["At one scale.", *held, *gaps, "The tables below hold the same figures."])


def draw_look(letter: str) -> SafeString:
    """A short piece of the line of one garment, for the legend."""
    drawn = _line_of(letter, track("M", 0, 5, "H", 48))
    return element("svg", drawn, viewBox="0 0 48 10", width=48, height=10, aria_hidden="true")


def _lines(one: DrawnOutline) -> Iterator[SafeString]:
    letter = one.chosen.letter
    if one.grain:
        colour, dashes = LOOKS[letter]
        grain = element("title", f"grain of {letter}")
        look = {"stroke": colour, "stroke_width": 1, "stroke_dasharray": dashes, "opacity": 0.6}
        yield element("path", grain, d=_between(*one.grain), **look, **STEADY)
    yield _line_of(letter, path_of(one.outline), element("title", letter))


def _line_of(letter: str, d: str, *inside: SafeString) -> SafeString:
    colour, dashes = LOOKS[letter]
    look = {"fill": "none", "stroke": colour, "stroke_width": 2, "stroke_dasharray": dashes}
    return element("path", *inside, css=f"laid-line laid-{letter}", d=d, **look, **STEADY)


def _straight(d: str, colour: Colour, width: float = 1.5, **more: str) -> SafeString:
    return line(d, colour, width, **more, **STEADY)


def _between(start: Point, end: Point) -> str:
    return track("M", start.real, start.imag, "L", end.real, end.imag)


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
    """Each gap with its figure at its middle, or as near as there is room beside the others."""
    aside = min(HALF_WORD_EM * box.em_mm, box.width / 2)
    gaps = [pair.chosen.gap for pair in pairs]
    wanted = [
        complex(min(max(at.real, box.left + aside), box.left + box.width - aside), at.imag)
        for at in ((gap.first + gap.second) / 2 for gap in gaps)
    ]
    spans = [(at.real - aside, at.real + aside) for at in wanted]
    low, high = box.top + box.em_mm, box.top + box.height - box.em_mm
    sizes = [1.3 * box.em_mm] * len(wanted)
    heights = kept_apart_in_columns(spans, [at.imag for at in wanted], sizes, low=low, high=high)
    return tuple(
        DrawnGap(pair=pair, start=gap.first, end=gap.second, word_at=complex(at.real, height))
        for pair, gap, at, height in zip(pairs, gaps, wanted, heights, strict=True)
    )


def _outline(chosen: OverlayPiece, letter_at: Point) -> DrawnOutline:
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
