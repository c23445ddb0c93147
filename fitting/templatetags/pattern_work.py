"""What a sheet of pattern work came to, in the unit of whoever reads it: a person, or a dossier's units."""

from collections.abc import Iterable
from typing import Any

from django import template

from catalogue.lengths.showing import Writing
from fitting.pattern.calculation.sums.sheet_answer import Part, Sketch, written
from fitting.pattern.showing.drawing import draw_work

register = template.Library()
FINEST = 32


@register.filter(name="written")
def written_for(parts: Iterable[Part], reader: Any) -> str:
    """A sum as a person would write it."""
    return written(parts, _writing(reader).length)


@register.simple_tag
def work_drawing(drawing: Sketch, reader: Any, sheet: int | str, number: int) -> str:
    """`sheet` and `number` keep its ids apart on a page of several."""
    name = f"drawing-{sheet or 0}-{number}"
    return draw_work(drawing, _writing(reader), name=name)


def _writing(reader: Any) -> Writing:
    """To 1/32 in at least: what one edge of several gets is that small."""
    denominator = max(FINEST, getattr(reader, "denominator", FINEST))
    return Writing(system=getattr(reader, "system", "in"), denominator=denominator)
