"""Lengths on a page, in the reader's unit: {{ reading.take_up|length_for:user }}."""

from typing import Any

from django import template

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.showing import length_for, mm_for
from catalogue.workroom.models import User

register = template.Library()
register.filter(length_for)
register.filter(mm_for)


@register.filter
def item(mapping: dict[str, Any], key: str) -> Any:
    """The value under `key`, for templates that walk a table by its column names."""
    return mapping.get(key) if mapping else None


@register.filter
def percent(share: float | None) -> str:
    return "–" if share is None else f"{100 * share:.0f} %"


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
def decimals_for(mm: float, user: User) -> str:
    """A misfit at full size, in decimals: a fraction of an inch would round it to what a rule shows."""
    system = getattr(user, "system", "in")
    text = f"{mm / 25.4:.2f} in" if system == "in" else f"{mm / 10:.2f} cm"
    return text.replace("-", "−")
