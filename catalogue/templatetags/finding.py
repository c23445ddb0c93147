"""What a search found, with its words marked."""

from collections.abc import Iterable

from django import template
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from catalogue.workroom.index.snippet import Run

register = template.Library()


@register.filter
def marked(runs: Iterable[Run]) -> SafeString:
    """What a search found, with its words marked. All of it is escaped."""
    parts = (format_html("<mark>{}</mark>", run.text) if run.is_marked else run.text for run in runs)
    return format_html_join("", "{}", ((part,) for part in parts))
