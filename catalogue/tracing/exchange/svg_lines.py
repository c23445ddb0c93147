"""The lines of a simple SVG as curves in millimetres. What draws no line is left out, and counted."""

import math
import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from fontTools.misc.transform import Transform

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Cubic, Point
from catalogue.tracing.exchange.svg_shapes import NUMBER, SHAPES, numbers, path_data, subpaths, transform_of
from catalogue.workroom.reader.safe_xml import Element

# CSS Values and Units, level 4, 6.2: a px is 1/96 in, a pt 1/72 in, a pc 12 pt, a q a quarter of a mm.
MM = {"mm": 1.0, "cm": 10.0, "in": 25.4, "px": 25.4 / 96, "pt": 25.4 / 72, "pc": 25.4 / 6, "q": 0.25}
MOST_SIDES, MOST_SIGNS = 6_000, 400_000  # in a whole drawing; signs: of what its paths say
_SIZE = re.compile(rf"\s*+({NUMBER})\s*+([a-zA-Z]*+)\s*+\Z")
_GROUPS = {"g", "a", "switch"}
_LEFT_OUT = {"use": "copies (“use”)", "image": "pictures", "svg": "drawings within the drawing"}


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnLine:
    """One unbroken line. `element` drew it, within `group` (None: in none)."""

    sides: tuple[Cubic, ...]
    is_closed: bool
    element: Element
    group: Element | None

    @property
    def points(self) -> tuple[Point, ...]:
        return (self.sides[0].start, *(side.end for side in self.sides))


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadLines:
    lines: tuple[DrawnLine, ...]
    left_out: Mapping[str, int]


def read_lines(root: Element, *, unit: str = "", times: tuple[float, float] = (1.0, 1.0)) -> ReadLines:
    """Every line of the drawing, made `times` as large across and down.

    `unit`: what one user unit is, in place of what the file says. Raises Faults.
    """
    if root.name != "svg":
        raise Faults([Fault("file", "This is XML, but no SVG drawing.")])
    factor = MM[unit] if unit else _mm_in_user_unit(root.attributes)
    reader = _Reader()
    reader.walk(root, Transform(factor * times[0], 0, 0, factor * times[1], 0, 0), None)
    if reader.faults:
        raise Faults(reader.faults)
    return ReadLines(lines=tuple(reader.lines), left_out=reader.left_out)


def _mm_in_user_unit(attributes: Mapping[str, str]) -> float:
    """From the size of the drawing and its viewBox. Raises Faults where they do not tell."""
    sizes = [_size_mm(attributes.get(side, "")) for side in ("width", "height")]
    if "viewBox" not in attributes:
        if any(sizes):
            return MM["px"]
        raise Faults([Fault("file", "The drawing does not say how large it is: say what one unit is.")])
    box = numbers(attributes["viewBox"])
    if len(box) != 4 or min(box[2:]) <= 0:
        raise Faults([Fault("viewBox", "The viewBox of the drawing has no size.")])
    factors = [size / side for size, side in zip(sizes, box[2:], strict=True) if size]
    if not factors:
        raise Faults([Fault("file", "The drawing does not say how large it is: say what one unit is.")])
    if max(factors) > 1.001 * min(factors):
        sentence = "Width and height do not fit the viewBox: it would be stretched one way."
        raise Faults([Fault("viewBox", sentence)])
    return factors[0]


def _size_mm(text: str) -> float | None:
    found = _SIZE.match(text)
    unit = (found[2].lower() or "px") if found else ""
    if not found or unit not in MM:
        return None
    size = float(found[1]) * MM[unit]
    return size if 0 < size < math.inf else None


class _Reader:
    def __init__(self) -> None:
        self.lines: list[DrawnLine] = []
        self.left_out: Counter[str] = Counter()
        self.faults: list[Fault] = []
        self.side_count = self.sign_count = 0

    def walk(self, parent: Element, transform: Transform, group: Element | None) -> None:
        for child in parent.children:
            if _is_hidden(child.attributes):
                continue
            if child.name in _LEFT_OUT:
                self.left_out[_LEFT_OUT[child.name]] += 1
            elif child.name in _GROUPS | SHAPES:
                self._read(child, transform, group)

    def _read(self, child: Element, transform: Transform, group: Element | None) -> None:
        try:
            placed = transform.transform(transform_of(child.attributes.get("transform", "")))
            data = path_data(child) if child.name in SHAPES else ""
            self.sign_count += len(data)
            found = list(subpaths(data, placed)) if self.sign_count <= MOST_SIGNS else []
        except (ValueError, IndexError, OverflowError, ZeroDivisionError):
            name = child.attributes.get("id") or child.titled() or child.name
            self.faults.append(Fault(name[:60], f"This {child.name} could not be read."))
            return
        for sides, is_closed in found:
            self.side_count += len(sides)
            self.lines.append(DrawnLine(sides=sides, is_closed=is_closed, element=child, group=group))
        if self.sign_count > MOST_SIGNS or self.side_count > MOST_SIDES:
            raise Faults([*self.faults, Fault("file", f"The drawing has more than {MOST_SIDES:,} sides.")])
        if child.name in _GROUPS:
            self.walk(child, placed, child)


def _is_hidden(attributes: Mapping[str, str]) -> bool:
    said = attributes.get("style", "").replace(" ", "")
    return attributes.get("display") == "none" or "display:none" in said
