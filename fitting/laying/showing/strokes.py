"""The strokes that a lay is drawn with: in millimetres, along the cloth to the right, across it downwards."""

from xml.sax.saxutils import escape

from fitting.laying.calculation.piece import Outline

INK, SOFT = "#1d262e", "#4a545b"


def rect(css: str, x: float, y: float, width: float, height: float, fill: str) -> str:
    return (
        f'<rect class="{css}" x="{n(x)}" y="{n(y)}" width="{n(width)}" height="{n(height)}" fill="{fill}"/>'
    )


def path(css: str, d: str, stroke: str, width: float, *, dashes: str = "") -> str:
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f'<path class="{css}" d="{d}" fill="none" stroke="{stroke}" stroke-width="{n(width)}"{dashed}/>'


def d(line: Outline) -> str:
    """A line across and along the cloth as the drawing has it: along, across."""
    return "M" + "L".join(f"{n(y)} {n(x)}" for x, y in line)


def n(value: float) -> str:
    """Hundredths of a millimetre; without a minus before nothing."""
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")


def arrow(x: float, y: float, half: float, *, along: bool, width: float) -> str:
    """Along the grain, with a barb at both ends."""
    barb = half / 8
    if along:
        ends = (
            f"M{n(y - half + barb)} {n(x - barb)}l{n(-barb)} {n(barb)} {n(barb)} {n(barb)}"
            f"M{n(y + half - barb)} {n(x - barb)}l{n(barb)} {n(barb)} {n(-barb)} {n(barb)}"
        )
        shaft = f"M{n(y - half)} {n(x)}h{n(2 * half)}"
    else:
        ends = (
            f"M{n(y - barb)} {n(x - half + barb)}l{n(barb)} {n(-barb)} {n(barb)} {n(barb)}"
            f"M{n(y - barb)} {n(x + half - barb)}l{n(barb)} {n(barb)} {n(barb)} {n(-barb)}"
        )
        shaft = f"M{n(y)} {n(x - half)}v{n(2 * half)}"
    return path("lay-grain", shaft + ends, SOFT, width)


def text(
    x: float,
    y: float,
    words: str,
    fill: str,
    *,
    size: float,
    anchor: str = "middle",
    css: str = "lay-words",
) -> str:
    return (
        f'<text class="{css}" x="{n(x)}" y="{n(y)}" text-anchor="{anchor}"'
        f' font-size="{n(size)}" fill="{fill}">{escape(words)}</text>'
    )


def dot(css: str, x: float, y: float, radius: float, fill: str) -> str:
    return f'<circle class="{css}" cx="{n(x)}" cy="{n(y)}" r="{n(radius)}" fill="{fill}"/>'
