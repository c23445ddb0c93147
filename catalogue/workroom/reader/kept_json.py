"""JSON that this program keeps in a row, as anybody may have written it: tried as our pages read it."""

from collections.abc import Callable
from typing import Any

from catalogue.lengths.calculation.errors import Faults
from catalogue.workroom.reader.faulty_value import FaultyValue
from catalogue.workroom.reader.safe_xml import Element, XmlRefused, read_xml

# What a drawing of ours is made of: nothing that runs, leads anywhere or is fetched.
DRAWN = {"svg", "g", "title", "desc", "defs", "clipPath", "rect", "path", "line", "circle", "text", "tspan",
         "polygon", "polyline", "ellipse"}  # fmt: skip
UNDRAWN = ("href", "style", "src")


def as_kept(read: Callable[[Any], Any]) -> Callable[[Any], None]:
    """What raises FaultyValue where `read`, by which our own pages take it, cannot."""

    def check(given: Any) -> None:
        try:
            read(given)
        except FaultyValue:
            raise
        except (LookupError, TypeError, ValueError, AttributeError, ArithmeticError, Faults):
            raise FaultyValue("This is not what this program keeps there.") from None

    return check


def check_drawing(given: Any) -> None:
    """Raises FaultyValue at SVG that could do anything but be looked at."""
    # A browser reads it as HTML, where what XML hides in these may be more than text.
    if not isinstance(given, str) or "<!" in given or "<?" in given:
        raise FaultyValue("This is no drawing of this program.")
    try:
        _check_element(read_xml(given))
    except XmlRefused as refused:
        raise FaultyValue(refused.sentence) from None


def _check_element(element: Element) -> None:
    for name, value in element.attributes.items():
        if (
            name in UNDRAWN
            or name.lower().startswith("on")
            or ":" in value
            or "url(" in value.replace("url(#", "")
        ):
            raise FaultyValue(f"A drawing has no “{name}” of that kind.")
    if element.name not in DRAWN:
        raise FaultyValue(f"A drawing has no “{element.name}”.")
    for child in element.children:
        _check_element(child)
