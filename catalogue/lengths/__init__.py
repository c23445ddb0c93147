"""A length: units, exact text, doubt, levels; the column, the box, how it is written."""
