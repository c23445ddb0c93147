"""Frozen migrations name the fields of a length here; they live in `catalogue.lengths.models`."""

from catalogue.lengths.models import LengthField, TypedText

__all__ = ["LengthField", "TypedText"]
