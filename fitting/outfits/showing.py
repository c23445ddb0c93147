"""The dressing order as a drawing: the body seen from above, each garment a ring around it, skin inmost.

A line is solid where the garment is made, dashed while it is being made, dotted while it is only studied.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape

INK, SOFT, CARD, PAPER = "#1d262e", "#4a545b", "#ece4d0", "#fdfdfa"
BODY_ACROSS, BODY_DEEP = 34.0, 22.0
RING = 9.0
LINE_HEIGHT = 17.0
DASHES = {"made": "", "being made": ' stroke-dasharray="5 3"', "studied": ' stroke-dasharray="1 3"'}


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One garment: its place, its name, and whether it is "made", "being made" or "studied"."""

    order: int
    name: str
    state: str


def draw_dressing_order(layers: Sequence[Layer], *, name: str = "layers") -> str:
    """Return the SVG element, or "" without garments. Each ring is led out to its name at the right."""
    if not layers:
        return ""
    across, deep = (size + RING * len(layers) for size in (BODY_ACROSS, BODY_DEEP))
    height = max(2 * deep + 12, LINE_HEIGHT * len(layers) + 12)
    x, y = across + 4, height / 2
    body = (
        f'<ellipse class="layer-body" cx="{_n(x)}" cy="{_n(y)}" rx="{_n(BODY_ACROSS)}" ry="{_n(BODY_DEEP)}"'
        f' fill="{CARD}"/>'
        f'<text class="chart-soft" x="{_n(x)}" y="{_n(y + 4)}" text-anchor="middle" font-size="11"'
        f' fill="{SOFT}">body</text>'
    )
    rings = "".join(
        f'<ellipse class="layer" cx="{_n(x)}" cy="{_n(y)}" rx="{_n(BODY_ACROSS + RING * at)}"'
        f' ry="{_n(BODY_DEEP + RING * at)}" fill="none" stroke="{INK}" stroke-width="1.6"'
        f"{DASHES[layer.state]}/>"
        for at, layer in enumerate(layers, start=1)
    )
    described = "; ".join(f"{layer.order}. {layer.name}, {layer.state}" for layer in layers)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="layers" viewBox="0 0 {_n(2 * x + 190)} {_n(height)}"'
        f' role="img" aria-labelledby="{name}-title {name}-desc" font-family="Vollkorn, Georgia, serif">'
        f'<title id="{name}-title">Dressing order, from the skin outward</title>'
        f'<desc id="{name}-desc">{escape(described)}.</desc>'
        f"{body}{rings}{_names(layers, x, y, height)}</svg>"
    )


def _names(layers: Sequence[Layer], x: float, y: float, height: float) -> str:
    """The outermost ring's name stands at the top, the inmost at the foot, each tied to its ring."""
    parts = []
    top = (height - LINE_HEIGHT * len(layers)) / 2
    text_x = 2 * x + 18
    for at, layer in enumerate(layers, start=1):
        line_y = top + LINE_HEIGHT * (len(layers) - at) + LINE_HEIGHT / 2
        across, deep = BODY_ACROSS + RING * at, BODY_DEEP + RING * at
        # Where a ring is crossed at the height of its name, as far as the ring reaches there.
        rise = max(-0.92, min(0.92, (line_y - y) / deep))
        ring_x, ring_y = x + across * (1 - rise * rise) ** 0.5, y + rise * deep
        parts.append(
            f'<path class="chart-line" d="M{_n(ring_x)} {_n(ring_y)}L{_n(text_x - 5)} {_n(line_y)}"'
            f' fill="none" stroke="{SOFT}" stroke-width=".7"/>'
            f'<circle class="layer-pin" cx="{_n(ring_x)}" cy="{_n(ring_y)}" r="2.2" fill="{INK}"/>'
            f'<text class="chart-label" x="{_n(text_x)}" y="{_n(line_y + 4)}" font-size="12" fill="{INK}">'
            f"{layer.order} {escape(_short(layer.name))}</text>"
        )
    return "".join(parts)


def _short(name: str) -> str:
    return name if len(name) <= 26 else f"{name[:25].rstrip()}…"


def _n(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")
