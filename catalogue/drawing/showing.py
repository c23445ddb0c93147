"""The pen that every drawing is written with: SVG from plain values, in the site's colours by daylight.

Colours stand as attributes, for print and PDF, where no style sheet reaches inside a drawing. On the screen
`palette.css` puts its own property in the place of each, so that a drawing is dark at night as its page is.
Whatever colour says, words say too.
"""

import re
from collections.abc import Iterable, Sequence
from enum import StrEnum

from django.utils.html import conditional_escape, escape
from django.utils.safestring import SafeString, mark_safe

Attribute = str | float | None


class Colour(StrEnum):
    """The colours of drawings; each is named after its property in `palette.css`."""

    PAPER = "#fdfdfa"
    CARD = "#ece4d0"
    INK = "#1d262e"
    INK_SOFT = "#4a545b"
    LINE = "#c8c8bd"
    LINE_STRONG = "#767d7f"
    CHALK_BLUE = "#1f5687"
    PIN_RED = "#a31d33"
    PIN_GREEN = "#1e6140"
    PIN_VIOLET = "#5d4684"
    WASH_BLUE = "#e2ebf3"
    WASH_GREEN = "#e0eee4"
    WASH_AMBER = "#f6ebd2"

    @property
    def rgb(self) -> tuple[float, ...]:
        """The colour as red, green and blue from 0 to 1, for a PDF that we draw ourselves."""
        return tuple(int(self[at : at + 2], 16) / 255 for at in (1, 3, 5))


def drawing(
    *parts: str, name: str, css: str, box: Iterable[float], title: str, says: str, role: str = "img",
    **more: Attribute,
) -> SafeString:  # fmt: skip
    """The whole SVG element. `name` begins its ids: one drawing of a page bears it.

    `box`: left, top, width and height. `says` is the drawing in words, for those who do not see it.
    """
    return element(
        "svg",
        element("title", title, id=f"{name}-title"),
        element("desc", says, id=f"{name}-desc"),
        *parts,
        xmlns="http://www.w3.org/2000/svg",
        css=css,
        viewBox=" ".join(map(number, box)),
        role=role,
        aria_labelledby=f"{name}-title {name}-desc",
        font_family="Vollkorn, Georgia, serif",
        **more,
    )


def element(tag: str, *inside: str, **attributes: Attribute) -> SafeString:
    """`inside` are other elements, or words. `css` is the class, an underscore a hyphen.

    What is None or "" is left out. All is escaped here, so that what the pen has written is safe on a page.
    """
    written = "".join(
        f' {"class" if key == "css" else key.replace("_", "-")}="'
        f'{escape(value if isinstance(value, str) else number(value))}"'
        for key, value in attributes.items()
        if value not in (None, "")
    )
    body = "".join(map(conditional_escape, inside))
    return mark_safe(f"<{tag}{written}>{body}</{tag}>" if inside else f"<{tag}{written}/>")  # noqa: S308


def line(d: str, stroke: str, width: float, **more: Attribute) -> SafeString:
    return element("path", d=d, fill="none", stroke=stroke, stroke_width=width, **more)


def disc(x: float, y: float, radius: float, fill: str, **more: Attribute) -> SafeString:
    return element("circle", cx=x, cy=y, r=radius, fill=fill, **more)


def text(
    x: float, y: float, words: str, *, size: float, fill: str = Colour.INK, anchor: str = "middle",
    **more: Attribute,
) -> SafeString:  # fmt: skip
    """Words on their baseline; `anchor` says which part of them stands at `x`."""
    return element("text", words, x=x, y=y, text_anchor=anchor, font_size=size, fill=fill, **more)


def track(*steps: str | float) -> str:
    """The `d` of a path: its letters as they are, each with its numbers."""
    words = " ".join(step if isinstance(step, str) else number(step) for step in steps)
    return re.sub(r" ?([A-Za-z]) ?", r"\1", words)


def ring(points: Iterable[Sequence[float]], *, is_closed: bool = True) -> str:
    """The `d` of a path from point to point, and back to the first."""
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + ("Z" if is_closed else "")


def number(value: float) -> str:
    """Hundredths, with a point; no noughts at the end, no minus before nothing."""
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")
