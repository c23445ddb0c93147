"""The dressing order as a drawing: the body seen from above, each garment a ring around it, skin inmost.

A line is solid where the garment is made, dashed while it is being made, dotted while it is only studied.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from catalogue.drawing.calculation import kept_apart
from catalogue.drawing.showing import Colour, disc, drawing, element, line, text, track

# The page above that of each outfit: what it is called, and its address.
OUTFITS = ("Outfits", "outfit-list")
BODY_ACROSS, BODY_DEEP = 34.0, 22.0
RING = 9.0
LINE_HEIGHT = 17.0
DASHES = {"made": "", "being made": "5 3", "studied": "1 3"}


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureLayer:
    """One garment: its place, its name, and whether it is "made", "being made" or "studied"."""

    order: int
    name: str
    state: str


def draw_dressing_order(layers: Sequence[FigureLayer], *, name: str = "layers") -> str:
    """Return the SVG element, or "" without garments. Each ring is led out to its name at the right."""
    if not layers:
        return ""
    height = max(2 * (BODY_DEEP + RING * len(layers)) + 12, LINE_HEIGHT * len(layers) + 12)
    x, y = BODY_ACROSS + RING * len(layers) + 4, height / 2
    at_its_middle = {"cx": x, "cy": y}
    parts = [
        element("ellipse", **at_its_middle, rx=BODY_ACROSS, ry=BODY_DEEP, fill=Colour.CARD),
        text(x, y + 4, "body", size=11, fill=Colour.INK_SOFT),
    ]
    for at, layer in enumerate(layers, start=1):
        size = {"rx": BODY_ACROSS + RING * at, "ry": BODY_DEEP + RING * at}
        look = {"fill": "none", "stroke": Colour.INK, "stroke_dasharray": DASHES[layer.state]}
        parts.append(element("ellipse", css="layer", **at_its_middle, **size, **look, stroke_width=1.6))
    described = "; ".join(f"{layer.order}. {layer.name}, {layer.state}" for layer in layers)
    return drawing(
        *parts,
        *_names(layers, x, y),
        name=name,
        css="layers",
        box=(0, 0, 2 * x + 190, height),
        title="Dressing order, from the skin outward",
        says=f"{described}.",
    )


def _names(layers: Sequence[FigureLayer], x: float, y: float) -> Iterator[str]:
    """The outermost ring's name stands at the top, the inmost at the foot, each tied to its ring."""
    text_x = 2 * x + 18
    lines = kept_apart([y] * len(layers), [LINE_HEIGHT] * len(layers))
    for at, (layer, line_y) in enumerate(zip(layers, reversed(lines), strict=True), start=1):
        across, deep = BODY_ACROSS + RING * at, BODY_DEEP + RING * at
        # Where a ring is crossed at the height of its name, as far as the ring reaches there.
        rise = max(-0.92, min(0.92, (line_y - y) / deep))
        ring_x, ring_y = x + across * (1 - rise * rise) ** 0.5, y + rise * deep
        yield line(track("M", ring_x, ring_y, "L", text_x - 5, line_y), Colour.LINE_STRONG, 0.7)
        yield disc(ring_x, ring_y, 2.2, Colour.INK)
        words = f"{layer.order} {_short(layer.name)}"
        yield text(text_x, line_y + 4, words, size=12, anchor="start", css="layer-name")


def _short(name: str) -> str:
    return name if len(name) <= 26 else f"{name[:25].rstrip()}…"
