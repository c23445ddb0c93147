"""Plate, piece, reading, seam, scale; girth, agreement, proportional draft."""
