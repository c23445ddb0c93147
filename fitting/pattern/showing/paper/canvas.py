"""A page of a PDF to draw on in millimetres from its top left corner, y down. Points are complex."""

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager

import pydyf

from catalogue.drawing.showing import Colour
from catalogue.tracing.calculation.curve import Cubic, Point
from fitting.pattern.showing.paper.font import Typeface

POINTS_A_MM = 72 / 25.4
INK, SOFT = Colour.INK.rgb, Colour.INK_SOFT.rgb
SOLID: tuple[float, ...] = ()
DASHED, DOTTED, CHAIN = (4.0, 2.0), (0.6, 1.6), (8.0, 1.5, 1.5, 1.5)


class Canvas:
    """What is drawn on one page. One cm operator sets millimetres; all that follows is at true size."""

    def __init__(self, *, width_mm: float, height_mm: float, face: Typeface) -> None:
        self.width_mm, self.height_mm, self.face = width_mm, height_mm, face
        self.stream = pydyf.Stream(compress=True)
        self.stream.set_matrix(POINTS_A_MM, 0, 0, -POINTS_A_MM, 0, height_mm * POINTS_A_MM)

    @contextmanager
    def part(self, *, left: float, top: float, width: float, height: float, start: Point) -> Iterator[None]:
        """Draw only within a part of the page, whose corner shows the point `start` of what is drawn."""
        self.stream.push_state()
        self.stream.rectangle(left, top, width, height)
        self.stream.clip()
        self.stream.end()
        self.stream.set_matrix(1, 0, 0, 1, left - start.real, top - start.imag)
        yield
        self.stream.pop_state()

    def pen(self, width_mm: float, dash: Sequence[float] = SOLID, colour: Sequence[float] = INK) -> None:
        self.stream.set_line_width(width_mm)
        self.stream.set_dash(list(dash), 0)
        self.stream.set_color_rgb(*colour, stroke=True)

    def rectangle(self, left: float, top: float, width: float, height: float) -> None:
        self.stream.rectangle(left, top, width, height)
        self.stream.stroke()

    def line(self, points: Iterable[Point], *, closed: bool = False) -> None:
        first, *rest = points
        self.stream.move_to(first.real, first.imag)
        for point in rest:
            self.stream.line_to(point.real, point.imag)
        if closed:
            self.stream.close()
        self.stream.stroke()

    def curve(self, sides: Sequence[Cubic], *, closed: bool = True) -> None:
        """An outline, or an open line, as exact curves."""
        self.stream.move_to(sides[0].start.real, sides[0].start.imag)
        for side in sides:
            a, b, end = side.handle_a, side.handle_b, side.end
            self.stream.curve_to(a.real, a.imag, b.real, b.imag, end.real, end.imag)
        if closed:
            self.stream.close()
        self.stream.stroke()

    def text(
        self,
        at: Point,
        words: str,
        *,
        size_mm: float = 3.0,
        centred: bool = False,
        colour: Sequence[float] = INK,
        along: Point = 1 + 0j,
    ) -> None:
        """A line of text from its baseline's left end, or about its middle; `along`: which way it runs."""
        start = at - along * self.face.width_of(words, size_mm) / 2 if centred else at
        self.stream.begin_text()
        self.stream.set_color_rgb(*colour)
        self.stream.set_font_size("F", size_mm)
        across, down = along.real, along.imag
        self.stream.set_text_matrix(across, down, down, -across, start.real, start.imag)
        self.stream.stream.append(f"<{self.face.glyphs_of(words)}> Tj")
        self.stream.end_text()

    def add_to(self, pdf: pydyf.PDF, font: bytes) -> None:
        pdf.add_object(self.stream)
        size = [0, 0, self.width_mm * POINTS_A_MM, self.height_mm * POINTS_A_MM]
        resources = pydyf.Dictionary({"Font": pydyf.Dictionary({"F": font})})
        pdf.add_page(
            pydyf.Dictionary(
                {
                    "Type": "/Page",
                    "Parent": pdf.pages.reference,
                    "MediaBox": pydyf.Array(size),
                    "Contents": self.stream.reference,
                    "Resources": resources,
                }
            )
        )
