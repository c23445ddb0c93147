"""The sums behind what a plate comes to, as a person would write them."""

from django import template

from catalogue.plates.calculation.agreement import Agreement
from catalogue.plates.calculation.girth import FullSize
from catalogue.plates.calculation.sums import page_text, sum_text
from catalogue.workroom.models import User

register = template.Library()


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
