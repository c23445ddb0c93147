"""Outfit, garment, ease, dressing order, log, materials, money, patterns in hand, share."""
