"""Lengths on a page, in the reader's unit: {{ piece.reading_um|length_for:user }}."""

from collections.abc import Iterable
from typing import Any

from django import template
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from catalogue.drawn_outlines.drawing import Drawing, path_of
from catalogue.drawn_outlines.figure import Figure, figure_of
from catalogue.drawn_outlines.svg import mark_path
from catalogue.measuring.agreement import Agreement
from catalogue.measuring.dates import describe
from catalogue.measuring.girth import FullSize
from catalogue.measuring.lengths import format_length
from catalogue.measuring.levels import LINES
from catalogue.measuring.outline import Outline
from catalogue.measuring.sums import page_text, sum_text
from catalogue.measuring.tracing import Mark
from catalogue.models.workroom import User
from catalogue.search import Run

register = template.Library()


@register.filter
def length_for(um: int | None, user: User) -> str:
    """Micrometres as text in the person's unit; a dash where there are none."""
    return "–" if um is None else mm_for(um / 1000, user)


@register.filter
def mm_for(mm: float | None, user: User) -> str:
    """Millimetres as text in the person's unit; a dash where there are none."""
    if mm is None:
        return "–"
    system = getattr(user, "system", "in")
    return format_length(mm, system=system, denominator=getattr(user, "denominator", 16))


@register.filter
def item(mapping: dict[str, Any], key: str) -> Any:
    """The value under `key`, for templates that walk a table by its column names."""
    return mapping.get(key) if mapping else None


@register.filter
def percent(share: float | None) -> str:
    return "–" if share is None else f"{100 * share:.0f} %"


@register.filter
def sum_for(full_size: FullSize, user: User) -> str:
    """The sum behind a girth or a length, as a person would write it."""
    return sum_text(full_size, getattr(user, "system", "in"))


@register.filter
def sentence_for(agreement: Agreement, user: User) -> str:
    return agreement.sentence(getattr(user, "system", "in"))


@register.filter
def page_for(mm: float | None, user: User) -> str:
    """Millimetres on a page of a book, finer than a length at full size; nothing where there are none."""
    return "" if mm is None else page_text(mm, getattr(user, "system", "in"))


@register.filter
def date_in_words(edtf: str) -> str:
    return describe(edtf) if edtf else ""


@register.filter
def marked(runs: Iterable[Run]) -> SafeString:
    """What a search found, with its words marked. All of it is escaped."""
    parts = (format_html("<mark>{}</mark>", run.text) if run.is_marked else run.text for run in runs)
    return format_html_join("", "{}", ((part,) for part in parts))


@register.filter
def line_label(key: str) -> str:
    """The word on a page for a level or length."""
    return LINES[key].label


@register.filter
def share_in_percent(share: float) -> str:
    """A relative doubt, with two figures that say something: 0.012 %, 1.5 %."""
    return f"{100 * share:.2g} %"


@register.filter
def micro_for(um: int, user: User) -> str:
    """A small doubt on a page, in decimals: fractions of an inch would make nothing of it."""
    system = getattr(user, "system", "in")
    return f"± {um / 25400:.4f} in" if system == "in" else f"± {um / 10000:.4f} cm"


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


@register.filter
def unlocalised(number: float) -> str:
    """A number for a drawing: a point and three places, whatever the page's language."""
    return f"{number:.3f}"
