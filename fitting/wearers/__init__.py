"""Wearer, measures, takes, plausibility, stand, maker, layers on the body."""
