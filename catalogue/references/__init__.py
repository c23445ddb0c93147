"""Garments studied, tags, relations, open questions, own study."""
