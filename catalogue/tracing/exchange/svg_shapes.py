"""What the shapes of an SVG draw, as curves: paths by fontTools, the others by the paths they stand for."""

import math
import re
from collections.abc import Iterator

from fontTools.misc.transform import Identity, Transform
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path

from catalogue.tracing.calculation.curve import Cubic
from catalogue.workroom.reader.safe_xml import Element

SHAPES = frozenset({"path", "polygon", "polyline", "line", "rect", "circle", "ellipse"})
FARTHEST_MM = 100_000.0
MEETS_MM = 0.001
# What was taken is not given back (++, *+), lest a long row of digits or spaces be cut up in every way.
NUMBER = r"[-+]?(?:\d++(?:\.\d++)?|\.\d++)(?:[eE][-+]?\d++)?"
_TOKEN = re.compile(rf"[MmZzLlHhVvCcSsQqTtAa]|{NUMBER}")
_COMMAND = re.compile(r"([MmZzLlHhVvCcSsQqTtAa])")
_FIGURE = rf"[\s,]*+({NUMBER})"  # figures may follow each other without a space
_ARC = re.compile(rf"{_FIGURE * 3}[\s,]*+([01])[\s,]*+([01]){_FIGURE * 2}")
_PLAIN_SIZE = re.compile(rf"\s*+({NUMBER})\s*+(?:px)?\s*+\Z")
_TRANSFORM = re.compile(r"[\s,]*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^()]*)\)")
SQUARE_ID = "square-100-mm"


def numbers(text: str) -> list[float]:
    return [float(number) for number in re.findall(NUMBER, text)]


def transform_of(text: str) -> Transform:
    """SVG 2, 8.5. Raises ValueError."""
    done, at = Identity, 0
    while at < len(text.rstrip()):
        found = _TRANSFORM.match(text, at)
        if not found:
            raise ValueError(text)
        done, at = done.transform(_one_transform(found[1], numbers(found[2]))), found.end()
    return done


def _one_transform(kind: str, given: list[float]) -> Transform:
    if kind == "matrix":
        a, b, c, d, e, f = given
        return Transform(a, b, c, d, e, f)
    first, *rest = given
    if kind == "skewX":
        return Identity.skew(math.radians(first), 0)
    if kind == "skewY":
        return Identity.skew(0, math.radians(first))
    if kind == "rotate":
        x, y = rest or (0.0, 0.0)
        return Identity.translate(x, y).rotate(math.radians(first)).translate(-x, -y)
    [second] = rest or [0.0 if kind == "translate" else first]
    return Identity.translate(first, second) if kind == "translate" else Identity.scale(first, second)


def path_data(element: Element) -> str:
    """What a shape draws, as the `d` of a path (SVG 2, 10). Raises ValueError."""
    if element.name == "path":
        return element.attributes.get("d", "")
    if element.name in {"polygon", "polyline"}:
        points = numbers(element.attributes.get("points", ""))
        end = "Z" if element.name == "polygon" else ""
        return f"M{_said(*points[: len(points) // 2 * 2])}{end}" if len(points) > 1 else ""
    if element.name == "line":
        return f"M{_said(*_sizes(element, 'x1', 'y1', 'x2', 'y2'))}"
    if element.name == "rect":
        return _rectangle(*_sizes(element, "x", "y", "width", "height", "rx", "ry"))
    cx, cy, r, rx, ry = _sizes(element, "cx", "cy", "r", "rx", "ry")
    rx, ry = (r, r) if element.name == "circle" else (rx, ry)
    half = f"A{_said(rx, ry)} 0 0 1 "
    return f"M{_said(cx - rx, cy)}{half}{_said(cx + rx, cy)}{half}{_said(cx - rx, cy)}Z"


def _rectangle(x: float, y: float, width: float, height: float, rx: float, ry: float) -> str:
    rx, ry = min(rx or ry, width / 2), min(ry or rx, height / 2)
    right, foot = x + width, y + height
    if not rx:
        return f"M{_said(x, y)}H{_said(right)}V{_said(foot)}H{_said(x)}Z"
    bend = f"A{_said(rx, ry)} 0 0 1 "
    return (
        f"M{_said(x + rx, y)}H{_said(right - rx)}{bend}{_said(right, y + ry)}"
        f"V{_said(foot - ry)}{bend}{_said(right - rx, foot)}"
        f"H{_said(x + rx)}{bend}{_said(x, foot - ry)}V{_said(y + ry)}{bend}{_said(x + rx, y)}Z"
    )


def _sizes(element: Element, *names: str) -> Iterator[float]:
    for name in names:
        text = element.attributes.get(name, "0")
        if not (found := _PLAIN_SIZE.match(text)):
            raise ValueError(text)
        yield float(found[1])


def _said(*sizes: float) -> str:
    return " ".join(map(repr, sizes))


def subpaths(data: str, transform: Transform) -> Iterator[tuple[tuple[Cubic, ...], bool]]:
    """Each unbroken line of a path, and whether it is closed. Raises ValueError and others of its kind."""
    pen = RecordingPen()
    parse_path(_plain(data), pen)
    sides: list[Cubic] = []
    at = 0j
    for deed, given in pen.value:
        points = [complex(*transform.transformPoint(point)) for point in given]
        if any(not abs(point) < FARTHEST_MM for point in points):
            raise ValueError("a point too far off")
        if deed in {"closePath", "endPath"}:
            if sides:
                meets = abs(sides[-1].end - sides[0].start) < MEETS_MM
                yield tuple(sides), deed == "closePath" or meets
            sides = []
            continue
        if deed == "lineTo":
            sides.append(Cubic.straight(at, points[0]))
        elif deed == "curveTo":
            sides.append(Cubic(at, *points))
        elif deed == "qCurveTo":
            control, end = points
            sides.append(Cubic(at, at + (control - at) * 2 / 3, end + (control - end) * 2 / 3, end))
        at = points[-1]


def _plain(data: str) -> str:
    """The same path with its numbers as the library reads them. Raises ValueError for what is no path."""
    data = re.sub(r"(\d)\.(?!\d)", r"\1", " ".join(data.split()))
    if _TOKEN.sub("", data).strip(" ,"):
        raise ValueError(data)
    parts = _COMMAND.split(data)
    return "".join(
        _spaced(part) if before in {"A", "a"} else _shorn(part)
        for before, part in zip(["", *parts], parts, strict=False)
    )


def _spaced(arcs: str) -> str:
    """The figures of arcs apart from each other: the two flags of one may stand together, as 01."""
    found, at = [], 0
    while at < len(arcs.rstrip(" ,")):
        arc = _ARC.match(arcs, at)
        if not arc:
            raise ValueError("an arc has seven figures")
        found += [_shorn(figure) for figure in arc.groups()]
        at = arc.end()
    return " ".join(found)


def _shorn(figures: str) -> str:
    """Without zeros before a number, which the library would read as numbers of their own."""
    return re.sub(r"(?<![\d.])0+(?=\d)", "", figures)
