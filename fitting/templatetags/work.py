"""Hours, money and cloth on a page."""

from decimal import Decimal

from django import template

from catalogue.workroom.models import User
from fitting.outfits.calculation.money import cloth_text

register = template.Library()


@register.filter
def hours(value: float | None) -> str:
    """Hours to a quarter: 2, 2.5, 2.75; a dash where nobody said."""
    return "–" if value is None else f"{value:.2f}".rstrip("0").rstrip(".")


@register.filter
def money(amount: Decimal | None, currency: str) -> str:
    """An amount with the sign that the outfit's money has; a dash where there is none."""
    if amount is None:
        return "–"
    minus = "−" if amount < 0 else ""
    return f"{minus}{currency} {abs(amount):,.2f}".strip() if currency else f"{minus}{abs(amount):,.2f}"


@register.filter
def cloth_for(mm: float, user: User) -> str:
    """A length to ask for in a shop, in the reader's unit."""
    return cloth_text(mm, user.system)
