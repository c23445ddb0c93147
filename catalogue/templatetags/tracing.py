"""What was traced, on the pages of other subjects: {% traced_drawing plate as drawing %}.

{% tracing_doubted plate user as sentences %}: readings that differ from their tracing, or are cut short.
"""

from django import template
from django.db.models import Model
from django.utils.safestring import SafeString

from catalogue.lengths.showing import mm_for
from catalogue.tracing.loading.drawing import PlateTracing, traced_drawing
from catalogue.tracing.loading.known_lengths import lacks_doubt
from catalogue.tracing.loading.levels import CutLevel
from catalogue.tracing.showing.figure import Figure, draw_for_page, draw_on_paper, figure_of
from catalogue.tracing.showing.figures import doubted
from catalogue.workroom.models import User

register = template.Library()
register.simple_tag(traced_drawing)
register.filter(lacks_doubt)
register.simple_tag(doubted, name="tracing_doubted")


@register.filter
def cut_sentence(level: CutLevel, user: User) -> str:
    return level.cut.sentence(lambda mm: mm_for(mm, user))


@register.filter
def figure_for(drawing: PlateTracing, user: User) -> Figure:
    """Traced pieces as a figure, its bar a round length in the person's unit."""
    return figure_of(drawing, getattr(user, "system", "in"))


@register.simple_tag
def figure_on_page(figure: Figure, key: int | str, of: object, where: str) -> SafeString:
    """`key` keeps its ids apart on a page of several."""
    title = f"Traced pieces of {of}, to scale"
    return draw_for_page(figure, name=f"outlines-{key}", title=title, where=where or "in the table")


@register.simple_tag
def figure_on_paper(figure: Figure, scale: int, of: Model) -> SafeString:
    # Of a drawing, a PDF tells only the title to those who do not see it.
    title = f"Traced pieces of {of}, drawn 1:{scale}: {figure.says}"
    return draw_on_paper(figure, scale=scale, name=f"outlines-{of._meta.model_name}-{of.pk}", title=title)
