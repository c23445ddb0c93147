"""Cloth, pieces on it, nesting, what to buy, `lay`."""
