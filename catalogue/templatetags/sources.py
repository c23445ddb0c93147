"""Dates of old garments in words."""

from django import template

from catalogue.sources.calculation.dates import describe

register = template.Library()


@register.filter
def date_in_words(edtf: str) -> str:
    return describe(edtf) if edtf else ""
