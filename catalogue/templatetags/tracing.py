"""What was traced, on the pages of other subjects: {% traced_drawing plate as drawing %}."""

from django import template

from catalogue.tracing.calculation.outline import Outline
from catalogue.tracing.calculation.tracing import Mark
from catalogue.tracing.loading.drawing import Drawing, path_of, traced_drawing
from catalogue.tracing.showing.figure import Figure, figure_of
from catalogue.tracing.showing.svg import mark_path
from catalogue.workroom.models import User

register = template.Library()
register.simple_tag(traced_drawing)


@register.filter
def outline_path(outline: Outline) -> str:
    return path_of(outline)


@register.filter
def mark_line(mark: Mark) -> str:
    return mark_path(mark)


@register.filter
def figure_for(drawing: Drawing, user: User) -> Figure:
    """Traced pieces as a figure, its bar a round length in the person's unit."""
    return figure_of(drawing, getattr(user, "system", "in"))
